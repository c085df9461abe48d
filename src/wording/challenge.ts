import type { Prompt } from '../dialogue/messages.ts';

type Shown = Omit<Prompt, 'type' | 'id' | 'site'>;

/** A value that could kill: not a slip to be waved through, whatever the finger may have typed. */
export function dangerPrompt(back: Prompt, understood: string): Shown {
  return {
    purpose: 'challenge',
    kind: 'choice',
    step: back.step,
    ask: `${understood} is dangerous here. Hands out, touch nothing. What is true?`,
    say: 'That is dangerous. Take your hands out and touch nothing. Is that what the meter really shows?',
    listen: 'a slip of the tongue, read again by a qualified person, or stop',
    caution: { signal: 'DANGER', text: 'Mains may be on these terminals. Hands out. Touch nothing.' },
    choices: [
      { id: 'slip', label: 'I said it wrong. I will say it again.' },
      { id: 'repeat', label: 'I am qualified for this voltage. I will read it again.' },
      { id: 'refer', label: 'It is true. I have stopped.' },
    ],
  };
}

/** A reading that nothing explains is questioned once, with what would have to be wrong. */
export function oddPrompt(shown: Shown, said: string): Shown {
  return {
    ...shown,
    purpose: 'challenge',
    ask: `${said} fits nothing that is known here. Look at the probes and the dial, and read again. If it is the same, say: stands.`,
    say: 'That number fits nothing that is known here. Look at the probes and the dial. Read again. If it is the same, say stands.',
    listen: 'a new number, or stands',
  };
}
