import type { Conversation, Input, Message, Prompt } from '../../src/dialogue/messages.ts';
import { inService } from '../../src/site/state.ts';

/** A conversation that says what it is told to, whatever it hears, and remembers what it heard. */
export interface Scripted extends Conversation {
  readonly heard: Input[];
}

/**
 * One list of messages a turn; the first is what it opens with. `stop`, or the end of the script, ends it. `wait`
 * delays every reply.
 */
export function scripted(turns: Message[][], wait: () => Promise<void> = () => Promise.resolve()): Scripted {
  const heard: Input[] = [];
  let turn = 0;
  let ended = false;
  return {
    heard,
    get ended() {
      return ended;
    },
    open: async () => turns[0] ?? [],
    send: async (input) => {
      heard.push(input);
      await wait();
      const stopped = 'do' in input && input.do === 'stop';
      const next = stopped ? undefined : turns[++turn];
      const messages = next ?? [ending('stopped')];
      ended = messages.some((message) => message.type === 'end');
      return messages;
    },
  };
}

export const hello: Message = { type: 'hello', protocol: 1, version: '0.0.0' };

export function prompt(part: Partial<Prompt> & Pick<Prompt, 'id' | 'kind' | 'ask'>): Prompt {
  return {
    type: 'prompt',
    purpose: 'check',
    step: part.id,
    say: part.ask,
    listen: 'a number',
    caution: null,
    site: inService,
    ...part,
  };
}

export const lamp = prompt({
  id: 'p1',
  kind: 'choice',
  ask: 'What does the lamp on the keypad show?',
  observation: { of: 'keypad.lamp' },
  choices: [
    { id: 'steady', label: 'steady' },
    { id: 'starting', label: 'starting up, blinking' },
    { id: 'dark', label: 'dark' },
  ],
});

export const volts = prompt({
  id: 'p2',
  kind: 'reading',
  ask: 'Read DC volts at the keypad, red on plus, black on minus.',
  caution: { signal: 'WARNING', text: 'The siren may sound. Wear ear protection.' },
  reading: { quantity: 'dc-volts', red: 'keypad.plus', black: 'keypad.minus', take: 'steady', unit: 'V' },
});

export const powerDown = prompt({
  id: 'p3',
  kind: 'confirm',
  purpose: 'set-site',
  ask: 'Lift the battery by its tabs.',
  caution: { signal: 'DANGER', text: 'Mains volts inside the cabinet. Keep clear of the mains terminals.' },
});

export const belief: Message = {
  type: 'belief',
  suspects: [
    { faults: ['bad-joint'], repair: 'remake-joint', probability: 0.62 },
    { faults: ['long-run', 'thin-wire'], repair: 'thicker-wire', probability: 0.2 },
    { faults: ['heavy-device'], repair: 'own-supply', probability: 0.1 },
    { faults: ['low-supply'], repair: 'new-supply', probability: 0.05 },
  ],
  unlisted: 0.03,
  remaining: 7,
};

export const verdict: Message = {
  type: 'verdict',
  group: [{ faults: ['bad-joint'], repair: 'remake-joint', probability: 0.97 }],
  sums: [
    '12.4 V at the board, 9.1 V at the keypad: 3.3 V lost.',
    'The copper takes 1.2 V. 2.1 V is left for a joint.',
  ],
};

export function ending(how: 'proved' | 'referred' | 'stopped', site = inService): Message {
  return { type: 'end', ending: how, site, session: '20260102-030405' };
}
