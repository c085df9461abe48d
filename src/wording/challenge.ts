import type { Prompt } from '../dialogue/messages.ts';
import { capital } from './values.ts';

type Shown = Omit<Prompt, 'type' | 'id' | 'site'>;

/** A value that could kill: not a slip to be waved through, whatever the finger may have typed. */
export function dangerPrompt(back: Prompt, understood: string): Shown {
  return {
    purpose: 'challenge',
    kind: 'choice',
    step: back.step,
    ask: `${understood} is dangerous here. Hands out, touch nothing. What is true?`,
    say: 'Danger. Mains may be on these terminals. Take your hands out and touch nothing. Is that what the meter really shows?',
    listen: 'a slip of the tongue, read again by a qualified person, or stop',
    caution: { signal: 'DANGER', text: 'Mains may be on these terminals. Hands out. Touch nothing.' },
    choices: [
      { id: 'slip', label: 'I said it wrong. I will say it again.' },
      { id: 'repeat', label: 'I am qualified for this voltage. I will read it again.' },
      { id: 'refer', label: 'It is true. I have stopped.' },
    ],
  };
}

/** An earlier answer said anew: what was read or seen then. Nothing is to be read now, on a site that may be another. */
export function editPrompt({ reading, observation, ...shown }: Shown, title: string): Shown {
  const then = reading
    ? 'What did the meter show then? Do not read it again.'
    : observation && 'What was it like then? Do not look again.';
  return {
    ...shown,
    kind: reading ? 'number' : shown.kind,
    ask: then === undefined ? shown.ask : `${capital(title)}. ${then}`,
    say: then ?? shown.say,
    caution: null,
  };
}

/** A proof that failed, where the other readings make it likelier that the site is mended than not. */
export function doubtfulProofPrompt(shown: Shown, said: string): Shown {
  return {
    ...shown,
    purpose: 'challenge',
    ask: `${said} is not what it should be, but the other readings point to a good repair. Look at the probes and the dial, and read again. If it is the same, say: stands.`,
    say: 'That is not what it should be, but the other readings point to a good repair. Look at the probes and the dial. Read again. If it is the same, say stands.',
    listen: 'a new number, or stands',
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

/** A slip of eye or finger that would make an ordinary reading of an odd one, and what would have been meant. */
export interface Slip {
  readonly kind: 'thousandth' | 'probes' | 'figures';
  readonly meant: string;
}

/** A reading that a slip would explain: it is asked for again with what to look at. */
export function slipPrompt(shown: Shown, said: string, { kind, meant }: Slip): Shown {
  const { ask, say, listen = 'a new number, or stands' } = slipWords(said, meant)[kind];
  return {
    ...shown,
    purpose: 'challenge',
    ask: `${ask}, and read again. If it is the same, say: stands.`,
    say: `${say} Read again. If it is the same, say stands.`,
    listen,
  };
}

const slipWords = (
  said: string,
  meant: string,
): Record<Slip['kind'], { ask: string; say: string; listen?: string }> => ({
  thousandth: {
    ask: `${said} is next to nothing. Does the meter show ${meant}? Look at its unit`,
    say: 'That is next to nothing. Look at the unit that the meter shows. Is it volts, or thousandths of a volt?',
    listen: 'a new number with its unit, or stands',
  },
  probes: {
    ask: `${said} has a minus sign. Are red and black the right way round? Look at the probes`,
    say: 'That has a minus sign. Look at the probes. Are red and black the right way round?',
  },
  figures: {
    ask: `${said} is not what it should be, and ${meant} would be. Look at the figures on the meter`,
    say: 'That is not what it should be. With two figures changed over it would be. Look at the figures on the meter.',
  },
});
