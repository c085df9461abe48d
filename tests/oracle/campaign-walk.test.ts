import { expect, test } from 'vitest';
import type { Conversation, Message } from '../../src/dialogue/messages.ts';
import { walk } from './campaign/run.ts';
import { asFound } from './read-site.ts';

const asks = (flow: string, step: string): Message => ({
  ...({ type: 'prompt', id: step, flow, purpose: 'check', kind: 'choice', step } as const),
  ...{ ask: '', say: '', listen: '', caution: null, site: asFound },
});
const verdict: Message = {
  type: 'verdict',
  group: [{ faults: ['elsewhere'], repair: 'go-on', probability: 0.95 }],
  sums: [],
};

test('a visit that goes on in another flow ends there, its verdict carried out, and the site is asked no more', async () => {
  const asked: string[] = [];
  const conversation = {
    ended: false,
    open: async () => [asks('here', 'first')],
    send: async () => [verdict, asks('there', 'second')],
  } as unknown as Conversation;
  const site = {
    truth: { faults: ['elsewhere'], repair: 'go-on' },
    answer: async ({ step }: { step: string }) => (asked.push(step), { answer: 'yes' }),
  };
  const outcome = await walk(conversation, site, { seed: 1, minutesOf: () => 1 });
  expect(outcome).toMatchObject({ ending: 'crossed', done: ['go-on'], steps: ['first'] });
  expect(asked).toEqual(['first']);
});
