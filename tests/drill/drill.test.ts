import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { flowOf, mendable } from '../../src/drill/draw.ts';
import { drilledAgain } from '../../src/commands/drilled-again.ts';
import { converse } from '../../src/session/conversation.ts';
import { replay } from '../../src/session/replay.ts';
import { hash, quick } from '../session/player.ts';
import { begun, play, typedFor } from './trainee.ts';

const flows = Object.keys(quick.flows);

const told = (messages: readonly Message[]): string[] =>
  messages.flatMap((m) =>
    m.type === 'notice' ? [m.text] : m.type === 'prompt' ? [m.ask, m.shown ?? ''] : [],
  );

describe('a drill', () => {
  // Those whose walks are short; of the others every question is answered in site.test.ts.
  it.each(['mains-lost', 'not-enrolling', 'path-down', 'sounder'])(
    'of %s tells all that is needed to get to an end',
    async (flow) => {
      const { ending } = await play(flow, 3);
      expect(['proved', 'referred']).toContain(ending);
    },
  );

  it.each([5])(
    'of low supply, number %i, is found and mended by whoever types what is told',
    async (seed) => {
      const { messages, fault, ending } = await play('low-supply', seed);
      const verdict = messages.findLast((message) => message.type === 'verdict');
      const lead = verdict?.type === 'verdict' ? verdict.group[0] : undefined;
      expect(lead?.repair).toBe(quick.faults[fault]?.repair);
      expect(ending).toBe('proved');
      expect(told(messages).at(-1)).toMatch(/^What was wrong: .* It is mended\.$/m);
    },
  );

  it('names the fault when it is over, and not before', async () => {
    const { messages, events, fault } = await play('no-signals', 2);
    const title = quick.faults[fault]?.title ?? '?';
    const over = messages.findIndex((message) => message.type === 'end') + 1;
    expect(told(messages.slice(over))[0]).toContain(`What was wrong: ${title}`);
    const first = messages.findIndex((message) => message.type === 'verdict');
    expect(told(messages.slice(0, first)).join('\n')).not.toContain(title);
    const started = events.slice(
      0,
      events.findIndex(({ event }) => event === 'answered'),
    );
    expect(JSON.stringify(started)).not.toContain(fault);
  });

  it('tells everybody with the same number the same, and others another site', async () => {
    const [one, same, other] = [
      await play('no-signals', 5),
      await play('no-signals', 5),
      await play('no-signals', 6),
    ];
    expect(told(one.messages)).toEqual(told(same.messages));
    expect(told(one.messages)).not.toEqual(told(other.messages));
  });

  it('is kept like any session, with the number to give it to others', async () => {
    const { events } = await play('no-signals', 1);
    expect(events[0]).toMatchObject({ event: 'started', seat: 'trainer', seed: 1, drill: true });
    const { text, problem } = replay(quick, hash, events);
    expect(problem).toBeUndefined();
    expect(text.join('\n')).toContain('drill no-signals --seed 1');
  });
});

describe('a trainee', () => {
  it('who mends the wrong thing has mended nothing', async () => {
    const { plan } = begun('low-supply', 1);
    const other = Object.keys(quick.repairs).find((id) => id !== plan.fault.repair) ?? '';
    plan.site.repaired(other);
    expect(plan.site.isMended).toBe(false);
    plan.site.repaired(plan.fault.repair);
    expect(plan.site.isMended).toBe(true);
  });

  it('who comes back to a drill finds the same site, with the repairs that were done there', async () => {
    const { plan, events, conversation } = begun('mains-lost', 3);
    const messages = await conversation.open();
    for (let turn = 0; !plan.site.isMended && turn < 60; turn++)
      messages.push(...(await conversation.send({ answer: typedFor(messages) })));
    const again = converse({
      ...{ knowledge: quick, hash, version: '0', seat: 'trainer', seed: 3, flow: 'mains-lost' },
      ...{ journal: { id: 'drill', append: () => undefined }, resume: [...events] },
    });
    const resumed = drilledAgain(quick, again, { flow: 'mains-lost', seed: 3, events });
    const there = await resumed.open();
    for (let turn = 0; !resumed.ended && turn < 60; turn++)
      there.push(...(await resumed.send({ answer: typedFor(there) })));
    expect(there.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
    expect(told(there).at(-1)).toMatch(new RegExp(`What was wrong: ${plan.fault.title}.* It is mended\\.`));
    expect(told(there).filter((each) => each.includes('would have repaired it'))).toEqual([]);
  });

  it('who stops is told what was wrong, and that nothing was found', async () => {
    const { plan, conversation } = begun('sounder', 1);
    await conversation.open();
    const over = told(await conversation.send({ do: 'stop' })).at(-1);
    expect(over).toContain(plan.fault.title);
    expect(over).toContain('It is not mended.');
    expect(over).toContain('No verdict was given.');
  });

  it('who asks why is told the same reading again', async () => {
    const { conversation } = begun('mains-lost', 2);
    const messages = await conversation.open();
    while (!typedFor(messages).endsWith(' V'))
      messages.push(...(await conversation.send({ answer: typedFor(messages) })));
    const [before, after] = [messages.at(-1), (await conversation.send({ do: 'why' })).at(-1)];
    expect(after).toEqual(before);
  });

  it('finds a typing error alone: a dangerous one is questioned, and the site has no such volts', async () => {
    const { conversation } = begun('mains-lost', 2);
    const messages = await conversation.open();
    while (!typedFor(messages).endsWith(' V'))
      messages.push(...(await conversation.send({ answer: typedFor(messages) })));
    messages.push(...(await conversation.send({ answer: '1200 V' })));
    expect(messages.at(-1)).toMatchObject({
      purpose: 'challenge',
      shown: expect.stringContaining('nothing is dangerous'),
    });
  });
});

describe('the flow of a drill', () => {
  it('is drawn by the number where none is named', () => {
    const drawn = Array.from({ length: 60 }, (_, seed) => flowOf(quick, seed)?.id);
    expect(new Set(drawn).size).toBeGreaterThan(8);
    expect(drawn).toEqual(Array.from({ length: 60 }, (_, seed) => flowOf(quick, seed)?.id));
  });

  it.each(flows)('%s has faults that whoever is there can mend', (id) => {
    const flow = quick.flows[id];
    const own = flow ? mendable(quick, flow) : [];
    expect(own.length).toBeGreaterThan(1);
    for (const { repair, leadsTo } of own) {
      expect(leadsTo).toBeUndefined();
      expect(quick.repairs[repair]?.way).toBe('mend');
    }
  });
});
