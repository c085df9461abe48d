import { describe, expect, test } from 'vitest';
import type { Conversation, Input, Message, Prompt } from '../../src/dialogue/messages.ts';
import { sourceKnowledge } from './campaign/campaign.ts';
import { figures, wilson } from './campaign/figures.ts';
import { minutesKnowing } from './campaign/knowing.ts';
import { pooled } from './campaign/pool.ts';
import { reliability } from './campaign/report.ts';
import { walk, type Outcome } from './campaign/run.ts';
import { targets, type Sites } from './campaign/targets.ts';
import type { SimulatedSite } from './sites/simulated-site.ts';

const outcome: Outcome = {
  ...{
    seed: 1,
    faults: ['joint-plus'],
    repair: 'remake-plus',
    also: [],
    believed: [0.25, 0.97],
    copper: null,
    done: ['remake-plus'],
    ending: 'proved',
    steps: [],
  },
  ...{ minutes: 30, readings: 4, proofReadings: 2 },
  verdict: [{ repair: 'remake-plus', faults: ['joint-plus', 'plus-open'], probability: 0.97 }],
};
const leads = (repair: string, probability: number): Outcome => ({
  ...outcome,
  verdict: [{ repair, faults: ['x'], probability }, ...(outcome.verdict ?? [])],
});

describe('the figures', () => {
  test('count a right repair, a wrong one, a confident wrong one, and a session without a verdict', () => {
    const all = [
      outcome,
      leads('change-unit', 0.6),
      { ...leads('change-unit', 0.93), seed: 7 },
      { ...outcome, verdict: null },
    ];
    const found = figures(all, () => 12);
    expect(found.firstVerdict).toEqual({ rightRepair: 0.25, rightFault: 0.25 });
    expect(found.wrongAndConfident).toBe(0.25);
    expect(found.seeds.wrongAndConfident).toEqual([7]);
    expect(found.groups).toEqual({ '1': 0.25, '2': 0.5, '3+': 0 });
    expect(found.omniscient.minutes).toBe(12);
    expect(found.faults[0]?.takenFor).toEqual({ 'change-unit': 2, none: 1 });
  });
  test('put a verdict stated at 1 in the last band', () => {
    const [band] = figures([leads('remake-plus', 1)], () => 1).calibration;
    expect(band).toMatchObject({ from: 0.99, to: 1, n: 1, observed: 1 });
  });
  test('score what was stated by its square, and what was believed on the way in bits', () => {
    const { brier, surprise } = figures([outcome, leads('change-unit', 0.6)], () => 1);
    expect(brier).toBeCloseTo((0.03 ** 2 + 0.6 ** 2) / 2, 12);
    expect(surprise).toBeCloseTo((2 - Math.log2(0.97)) / 2, 12);
    expect(figures([{ ...outcome, believed: [0] }], () => 1).surprise).toBeCloseTo(Math.log2(1000), 12);
  });
  test('hold the copper of the sums against the wire table, the finest rounded first', () => {
    const copperOf = (ratio: number, rounding = 0.1 * ratio, within = true): Outcome => ({
      ...outcome,
      copper: { ratio, rounding, within },
    });
    const two = figures([copperOf(1), outcome, copperOf(1.21, 0.121, false)], () => 1).copper;
    expect(two).toMatchObject({ n: 2, ratio: expect.closeTo(1.1, 12) as number, within: 0.5 });
    // Two sums 0.19 of their logarithm apart, where rounding explains 0.1: the scatter counts.
    expect(Math.log((two.interval[1] ?? 0) / two.ratio)).toBeCloseTo(1.96 * 0.0953, 3);
    const four = figures(Array(4).fill(copperOf(1.3)), () => 1).copper;
    expect(Math.log(four.interval[0] / 1.3)).toBeCloseTo(-1.96 * 0.05, 4);
    expect(figures([copperOf(1), copperOf(1.2, 12)], () => 1).copper.ratio).toBeCloseTo(1, 3);
    expect(figures([outcome], () => 1).copper).toMatchObject({ n: 0, ratio: NaN, within: NaN });
  });
  test('miss what is asked of fair sites with a wrong verdict, or with the copper of another metal', () => {
    const missed = (outcomes: Outcome[], sites: Omit<Sites, 'flow'> = {}, flow = 'low-supply'): string[] =>
      targets(
        figures(outcomes, () => 1),
        { flow, ...sites },
      ).flatMap(({ what, met }) => (met ? [] : [what]));
    const right = Array.from({ length: 40 }, () => leads('remake-plus', 0.95));
    expect(missed(right)).toEqual([]);
    expect(missed([...right, leads('change-unit', 0.95), leads('change-unit', 0.95)])).toEqual([
      'right repair',
      'wrong and confident',
    ]);
    expect(missed([...right, { ...outcome, copper: { ratio: 1.3, rounding: 0.07, within: false } }])).toEqual(
      ['copper of the sums'],
    );
    // One sum rounded so coarsely tells nothing of the metal.
    expect(missed([...right, { ...outcome, copper: { ratio: 1.3, rounding: 0.2, within: false } }])).toEqual(
      [],
    );
    const one = [...right, leads('change-unit', 0.95)];
    expect(missed(one, { wide: true })).toEqual([]);
    expect(missed(one, { hostile: 'intermittent' })).toEqual(['wrong and confident']);
    expect(missed(one, { hostile: 'off-the-list' })).toEqual([]);
    const lost = right.map((each, i) => (i < 6 ? { ...each, done: [], ending: 'proved' as const } : each));
    expect(missed(lost, { hostile: 'off-the-list' })).toEqual(['closed right or referred']);
    expect(missed(right.map((each) => ({ ...each, readings: 6 })))).toEqual(['readings']);
    expect(missed(right.map(() => leads('remake-plus', 0.6)))).toEqual(['calibration']);
    expect(missed(one, {}, 'bus-fault')).toEqual([]);
    const wrong = leads('change-unit', 0.95);
    expect(missed([...one, wrong, wrong], {}, 'bus-fault')).toEqual(['right repair']);
  });
  test('put several campaigns together site by site, and band by band', () => {
    const [sure, unsure] = [leads('remake-plus', 0.97), leads('change-unit', 0.97)];
    const all = figures([sure, sure, sure, unsure], () => 1);
    const both = pooled([figures([sure, sure, unsure], () => 1), figures([sure], () => 1)]);
    expect(both).toMatchObject({ sites: 4, rightRepair: 0.75, wrongAndConfident: 0.25 });
    expect(both.calibration).toHaveLength(1);
    expect(both.calibration[0]).toMatchObject({
      n: 4,
      observed: 0.75,
      interval: all.calibration[0]?.interval,
    });
    expect(both.calibration[0]?.stated).toBeCloseTo(0.97, 12);
    expect(both.brier).toBeCloseTo(all.brier, 12);
    expect(reliability(both.calibration)[1]).toBe('0.95-0.99      4   0.970   0.750   0.301-0.954  outside');
  });
  test('give fixed and random order beside the product, where the sites were walked so too', () => {
    const slower = { ...outcome, minutes: 50, readings: 9 };
    const referred: Outcome = { ...outcome, ending: 'referred', done: [] };
    const found = figures([outcome], () => 12, { fixed: [slower], random: [slower, referred] });
    expect(found.fixed).toEqual({
      right: 1,
      referred: 0,
      well: 1,
      minutes: 50,
      readings: 9,
      proofReadings: 2,
    });
    expect(found.random).toEqual({
      right: 0.5,
      referred: 0.5,
      well: 1,
      minutes: 40,
      readings: 6.5,
      proofReadings: 2,
    });
    expect(figures([outcome], () => 12)).not.toHaveProperty('fixed');
  });
  test('take either of two repairs for right at first, and a visit as closed right only once both are done', () => {
    const two: Outcome = { ...outcome, also: ['clear-fuse'] };
    const both: Outcome = {
      ...two,
      done: ['remake-plus', 'clear-fuse'],
      verdict: leads('clear-fuse', 0.8).verdict,
    };
    const found = figures([two, both], () => 12);
    expect(found.firstVerdict.rightRepair).toBe(1);
    expect(found.closed.right).toBe(0.5);
  });
  test('take a referral for a good end of a visit to what no list has, and any repair for a wrong one', () => {
    const unknown: Outcome = { ...outcome, repair: '', faults: ['nobody-knows'] };
    const found = figures([unknown, { ...unknown, ending: 'referred', done: [], verdict: null }], () => 12);
    expect(found.closed.well).toBe(0.5);
    expect(found.wrongAndConfident).toBe(0.5);
  });
  test('the interval of 9 right in 10 is 0.596 to 0.982', () => {
    const [low, high] = wilson(9, 10);
    expect(low).toBeCloseTo(0.596, 3);
    expect(high).toBeCloseTo(0.982, 3);
  });
});

describe('a technician who knows what is wrong', () => {
  const knowledge = sourceKnowledge();
  const acts = (...kinds: string[]): number => sum(kinds.map((kind) => knowledge.transitions[kind]?.minutes));
  const acceptance =
    sum(['unit-lamp', 'unit-volts', 'unit-volts-sending'].map((id) => knowledge.checks[id]?.minutes)) +
    acts('send', 'rest', 'off-test');

  test('isolates, proves dead, remakes the joint, restores, looks at the unit, reads it twice and takes the account off test', () => {
    const isolate = acts('battery-lift', 'mains-off', 'others-off');
    const prove = acts('prove-meter', 'prove-dead-dc', 'prove-dead-ac', 'prove-meter-again');
    const restore = acts('meter-off-ohms', 'others-on', 'mains-on', 'battery-connect');
    const repair = knowledge.repairs['remake-plus']?.minutes ?? NaN;
    expect(minutesKnowing(knowledge, 'low-supply', 'remake-plus')).toBeCloseTo(
      isolate + prove + repair + restore + acceptance,
      6,
    );
  });
  test('isolates nothing to bring the mains back', () => {
    const repair = knowledge.repairs['bring-mains-back']?.minutes ?? NaN;
    expect(minutesKnowing(knowledge, 'low-supply', 'bring-mains-back')).toBeCloseTo(repair + acceptance, 6);
  });
});

function sum(minutes: readonly (number | undefined)[]): number {
  return minutes.reduce<number>((all, each) => all + (each ?? NaN), 0);
}

const base: Prompt = {
  ...{
    type: 'prompt',
    id: 'p1',
    purpose: 'check',
    kind: 'reading',
    step: 'aux-volts',
    ask: '',
    say: '',
    listen: '',
    caution: null,
  },
  site: {
    ...({ mains: 'on', battery: 'connected', others: 'on', device: 'rest' } as const),
    ...{ lifted: [], joined: [], meterIn: null, onTest: true },
  },
};

/** A conversation that says its lines whatever it hears. */
class Script implements Conversation {
  readonly heard: Input[] = [];
  constructor(private readonly lines: Message[][]) {}
  get ended(): boolean {
    return this.lines.length === 0;
  }
  open(): Promise<Message[]> {
    return Promise.resolve(this.lines.shift() ?? []);
  }
  send(input: Input): Promise<Message[]> {
    this.heard.push(input);
    return this.open();
  }
}

const site: SimulatedSite = {
  truth: { faults: ['joint-plus'], repair: 'remake-plus' },
  answer: ({ purpose }) => Promise.resolve(purpose === 'repair' ? { answer: 'done' } : { answer: '13.60 V' }),
};

describe('a walk through a session', () => {
  test('adds up the copper of a sum again, in feet or metres, by gauge or by mm2', async () => {
    // 22 AWG: 52.96 ohm per km at 20 degC; 1 mm2: 17.24 (ASTM B258 and IEC 60028, as tests/published has them).
    for (const [cable, takes, byHand, rounding] of [
      [
        '22 AWG, 120 ft each way, about 0.18 A',
        '0.7 V, give or take 0.1 V',
        2 * 0.05296 * 36.576 * 0.18,
        0.1,
      ],
      ['22 AWG, 36.6 m each way, 10 mA', '39 mV, give or take 6 mV', 2 * 0.05296 * 36.6 * 0.01, 1e-3],
      ['1 mm2, 50 m each way, 0.5 A', '0.9 V, give or take 0.1 V', 2 * 0.01724 * 50 * 0.5, 0.1],
    ] as const) {
      const copperAt = async (runOhms: number) => {
        const script = new Script([
          [
            {
              type: 'verdict',
              group: [],
              sums: ['Something else.', `${cable}: the copper takes ${takes}. So.`],
            },
            base,
          ],
          [{ type: 'end', ending: 'proved', site: base.site, session: 's' }],
        ]);
        return (await walk(script, { ...site, runOhms }, { seed: 1, minutesOf: () => 1 })).copper;
      };
      const amps = takes.includes('m') ? 0.01 : cable.startsWith('1') ? 0.5 : 0.18;
      const own = await copperAt(byHand / amps);
      const volts = parseFloat(takes) * (takes.includes('m') ? 1e-3 : 1);
      expect(own?.ratio).toBeCloseTo(volts / byHand, 2);
      expect(own?.rounding).toBeCloseTo(rounding / Math.sqrt(12) / byHand, 2);
      expect(own?.within).toBe(true);
      expect((await copperAt((1.4 * byHand) / amps))?.within).toBe(false);
    }
  });

  test('counts readings to the verdict, proof readings apart, and the minutes of each step', async () => {
    const verdict: Message = {
      type: 'verdict',
      group: outcome.verdict?.map((s) => ({ ...s, faults: [...s.faults] })) ?? [],
      sums: [],
    };
    const script = new Script([
      [base],
      [verdict, { ...base, id: 'p2', purpose: 'repair', kind: 'confirm', step: 'remake-plus' }],
      [{ ...base, id: 'p3', purpose: 'proof' }],
      [{ type: 'end', ending: 'proved', site: base.site, session: 's' }],
    ]);
    const found = await walk(script, site, {
      seed: 1,
      minutesOf: (step) => (step === 'remake-plus' ? 12 : undefined),
    });
    expect(found).toMatchObject({
      readings: 1,
      proofReadings: 1,
      minutes: 13,
      done: ['remake-plus'],
      ending: 'proved',
    });
    expect(found.verdict?.[0]?.repair).toBe('remake-plus');
    expect(found.copper).toBeNull();
    expect(script.heard).toHaveLength(3);
  });
  test('gives up a session that asks the same for ever', async () => {
    const script = new Script(Array.from({ length: 50 }, () => [base]));
    const found = await walk(script, site, { seed: 1, minutesOf: () => 1 });
    expect(found).toMatchObject({ ending: 'stuck', readings: 1 });
  });
});
