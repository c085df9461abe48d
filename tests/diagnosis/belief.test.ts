import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { believe, byRepair, entropy } from '../../src/diagnosis/belief.ts';
import type {
  Belief,
  BeliefOptions,
  Evidence,
  Model,
  Suspect,
  Prediction,
  Steady,
} from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { tableModel } from '../../src/models/table.ts';
import { feed, feedRepairs, lampIs, reading, usual, volts } from './toys.ts';

const of = (
  evidence: readonly Evidence[],
  options: Partial<BeliefOptions> = {},
  model: Model = feed,
): Belief => finish(believe(model, evidence, feedRepairs, { ...usual, ...options }));

function probability(belief: Belief, ...ids: string[]): number {
  const faults = ids.map((id) => feed.faults.findIndex((fault) => fault.id === id));
  return belief.suspects.find((suspect) => suspect.faults.join() === faults.join())?.probability ?? 0;
}

const numbers = (belief: Belief): number[] => [
  ...belief.suspects.map((s) => s.probability),
  belief.unlisted,
  belief.logEvidence,
];

const someEvidence = fc.array(
  fc.oneof(
    fc.record({
      key: fc.constantFrom('supply', 'middle', 'end'),
      answer: fc.oneof(
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.constantFrom(0, 13.6, 230, -50, Infinity),
      ),
      after: fc.constantFrom<readonly string[]>([], ['remake-joint'], ['remake-joint', 'replace-load']),
    }),
    fc.record({ lit: fc.boolean(), after: fc.constantFrom<readonly string[]>([], ['remake-joint']) }),
  ),
  { maxLength: 6 },
);
const made = (drawn: typeof someEvidence extends fc.Arbitrary<infer T> ? T : never): Evidence[] =>
  drawn.map((one) =>
    'lit' in one ? lampIs(one.lit ? 'lit' : 'dark', one.after) : reading(one.key, one.answer, one.after),
  );

describe('a belief', () => {
  it('sums to one and is never NaN, whatever was answered', () => {
    fc.assert(
      fc.property(
        someEvidence,
        fc.constantFrom(0, 0.015),
        fc.constantFrom(0, 0.02),
        (drawn, outlier, unlisted) => {
          const belief = of(made(drawn), { outlier, unlisted, draws: 40 });
          const all = [belief.unlisted, ...belief.suspects.map((suspect) => suspect.probability)];
          expect(all.every((p) => p >= 0 && p <= 1 + 1e-9)).toBe(true);
          expect(all.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9);
          for (const suspect of belief.suspects) {
            expect(suspect.draws.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(
              suspect.probability,
              9,
            );
          }
          expect(entropy(belief)).not.toBeNaN();
          expect(belief.odd).toHaveLength(drawn.length);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('does not depend on the order of the answers, to the last bit', () => {
    fc.assert(
      fc.property(someEvidence, (drawn) => {
        const evidence = made(drawn);
        const [one, other] = [of(evidence, { draws: 40 }), of([...evidence].reverse(), { draws: 40 })];
        expect(numbers(other)).toEqual(numbers(one));
        expect([...other.odd].reverse()).toEqual(one.odd);
      }),
      { numRuns: 40 },
    );
  });

  it('after an answer is taken back is the belief of never having heard it', () => {
    fc.assert(
      fc.property(someEvidence, fc.nat(), (drawn, which) => {
        const evidence = made(drawn);
        const fresh: Model = { ...feed };
        const without = evidence.filter((_, i) => i !== which % Math.max(1, evidence.length));
        of(evidence, { draws: 40 });
        expect(numbers(of(without, { draws: 40 }))).toEqual(numbers(of(without, { draws: 40 }, fresh)));
      }),
      { numRuns: 25 },
    );
  });

  it('without evidence is the prior', () => {
    const belief = of([]);
    expect(belief.unlisted).toBeCloseTo(0.02, 12);
    expect(probability(belief, 'joint')).toBeCloseTo(0.98 * (3 / 8), 12);
    expect(belief.logEvidence).toBeCloseTo(0, 12);
  });

  it('differs between seeds by the error of so many draws, and by less the more there are', () => {
    const evidence = [reading('supply', 13.5), reading('end', 12.1)];
    const spread = (draws: number): number => {
      const joint = Array.from({ length: 24 }, (_, seed) =>
        probability(of(evidence, { seed, draws }), 'joint'),
      );
      const mean = joint.reduce((sum, p) => sum + p / joint.length, 0);
      return Math.sqrt(joint.reduce((sum, p) => sum + (p - mean) ** 2 / joint.length, 0));
    };
    const few = spread(60);
    expect(few).toBeLessThan(0.05);
    expect(spread(800)).toBeLessThan(few / 3);
  });
});

describe('evidence', () => {
  it('a healthy supply and a low end accuse the joint or the load, not the supply', () => {
    const both = of([reading('supply', 13.6), reading('end', 9)]);
    expect(probability(both, 'joint') + probability(both, 'heavy-load')).toBeGreaterThan(0.95);
    expect(probability(both, 'low-supply')).toBeLessThan(0.05);
  });

  it('that nothing on the list can show leaves "not on this list" certain', () => {
    const table = tableModel(
      [{ id: 'f', weight: 1, repair: 'r' }],
      [
        { faults: ['f'], answers: { lamp: 0 } },
        { faults: [], answers: { lamp: 1 } },
      ],
    );
    const impossible = of([lampIs('lit')], { outlier: 0 }, table);
    expect(impossible.unlisted).toBe(1);
    expect(of([lampIs('lit')], { outlier: 0, unlisted: 0 }, table).unlisted).toBe(1);
    expect(of([reading('end', NaN)]).unlisted).not.toBeNaN();
  });

  it("in nobody's tail is not odd; mains volts on a low-voltage terminal are", () => {
    expect(of([reading('supply', 13.6), reading('end', 12.9)]).odd).toEqual([false, false]);
    expect(of([reading('supply', 230), reading('end', 12.9)]).odd).toEqual([true, false]);
    // Each could be, but not both: the supply feeds the end.
    expect(of([reading('supply', 9.4), reading('end', 13.4), reading('middle', 13.45)]).odd).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('that is wrong once does not hide the fault that all the rest points to', () => {
    const honest = [reading('supply', 13.6), reading('middle', 11.3), reading('end', 9)];
    const belief = of([...honest, lampIs('lit')]);
    expect(belief.odd).toEqual([false, false, false, true]);
    expect(probability(belief, 'joint') + probability(belief, 'heavy-load')).toBeGreaterThan(0.9);
  });
});

describe('a fault that comes and goes', () => {
  /** The feed with a joint that is there in every other reading, in a tenth of the sites where it is bad. */
  const wavering: Model = {
    ...feed,
    faults: feed.faults.map((fault) => (fault.id === 'joint' ? { ...fault, intermittent: 0.1 } : fault)),
    instance: (faults, draw, intermittent = false) => {
      const [there, away] = [feed.instance(faults, draw), feed.instance([], draw)];
      const steady = (prediction: Prediction): Steady =>
        prediction.kind === 'either' ? prediction.there : prediction;
      return {
        isIntermittent: intermittent,
        predict: (question, healed) =>
          intermittent && healed.length === 0
            ? {
                kind: 'either',
                there: steady(there.predict(question, [])),
                away: steady(away.predict(question, [])),
                chance: 0.5,
              }
            : there.predict(question, healed),
      };
    },
  };
  const comesAndGoes = (belief: Belief): number =>
    belief.suspects
      .flatMap(({ draws }) => draws)
      .reduce((sum, { instance, weight }) => sum + (instance.isIntermittent ? weight : 0), 0);

  it('is as likely as ever before anything is read, a tenth of it as one that comes and goes', () => {
    const [before, usually] = [of([], {}, wavering), of([])];
    expect(probability(before, 'joint')).toBeCloseTo(probability(usually, 'joint'), 12);
    expect(comesAndGoes(before)).toBeCloseTo(0.1 * probability(before, 'joint'), 12);
    expect(before.suspects).toHaveLength(feed.faults.length);
  });

  it('explains a low reading among good ones, where a steady one needs a slip', () => {
    const readings = [13.1, 8.4, 13.1, 8.4].map((volts) => reading('end', volts));
    const found = of([reading('supply', 13.6), ...readings], {}, wavering);
    expect(probability(found, 'joint')).toBeGreaterThan(0.9);
    expect(comesAndGoes(found)).toBeGreaterThan(0.9);
    expect(comesAndGoes(of([reading('supply', 13.6), reading('end', 8.4)], {}, wavering))).toBeLessThan(0.1);
  });
});

describe('a repair', () => {
  const low = [reading('supply', 13.6), reading('middle', 11.3), reading('end', 9)];

  it('that was not done leaves single faults only', () => {
    expect(of(low).suspects.every(({ faults }) => faults.length === 1)).toBe(true);
  });

  it('is not needed to think of two faults once a reading that nothing explained stands', () => {
    // Half the volts at the supply and half of those lost on the run: more than any one fault of these takes.
    const both = (stood: boolean): Belief =>
      of([reading('supply', 9.1), { ...reading('middle', 7.6), stood }, { ...reading('end', 6.1), stood }]);
    expect(both(false).suspects.every(({ faults }) => faults.length === 1)).toBe(true);
    expect(probability(both(true), 'joint', 'low-supply')).toBeGreaterThan(0.5);
    expect(byRepair(both(true), feed)[0]?.probability).toBeGreaterThan(0.5);
  });

  it('that failed its proof brings in a second fault beside the one it cured', () => {
    // The joint was remade; now the run is good but the supply has sunk as well.
    const belief = of([
      ...low,
      reading('supply', 9.1, ['remake-joint']),
      reading('end', 8.8, ['remake-joint']),
    ]);
    expect(belief.suspects.some(({ faults }) => faults.length === 2)).toBe(true);
    expect(probability(belief, 'joint', 'heavy-load')).toBeLessThan(0.05);
    const pairs = belief.suspects.filter(({ faults }) => faults.length === 2);
    expect(pairs.every(({ faults }) => faults.includes(0))).toBe(true);
  });

  it('that two pairs share comes before those in which they differ, however common these are', () => {
    const model: Model = {
      ...feed,
      faults: [
        { id: 'thin', weight: 5, repair: 'more-copper' },
        { id: 'clad', weight: 5, repair: 'other-cable' },
        { id: 'short', weight: 1, repair: 'clear-pair' },
      ],
    };
    const instance = feed.instance([0], new Float64Array(feed.dimensions([0])));
    const suspect = (faults: number[], probability: number): Suspect => ({
      faults,
      probability,
      draws: [{ instance, healed: [], weight: probability }],
    });
    const suspects = [suspect([0, 2], 0.5), suspect([1, 2], 0.3), suspect([0], 0.15)];
    expect(byRepair({ suspects, unlisted: 0.05, logEvidence: 0, odd: [] }, model)).toEqual([
      { repair: 'clear-pair', probability: 0.8 },
      { repair: 'more-copper', probability: 0.15 },
    ]);
  });

  it('moves the blame to what is left: the second fault of the pair, or the first again', () => {
    const two: Evidence[] = [
      ...low.map((item) => ({
        ...item,
        answer: item.question.key === 'end' ? 6.5 : item.question.key === 'middle' ? 8.3 : 10.1,
      })),
      reading('supply', 10.1, ['remake-joint']),
      reading('end', 9.8, ['remake-joint']),
    ];
    const belief = of(two);
    expect(probability(belief, 'joint', 'low-supply')).toBeGreaterThan(0.8);
    expect(byRepair(belief, feed)[0]?.repair).toBe('replace-supply');

    const again = of([
      ...low,
      reading('end', 9, ['remake-joint']),
      reading('middle', 11.3, ['remake-joint']),
    ]);
    const shares = Object.fromEntries(byRepair(again, feed).map(({ repair, probability: p }) => [repair, p]));
    // Nothing changed: the repair did not take (1 in 10), or it was the load.
    expect((shares['remake-joint'] ?? 0) + (shares['replace-load'] ?? 0)).toBeGreaterThan(0.9);
  });

  it('tosses one coin, not one for each reading: healed readings and unhealed ones do not mix', () => {
    const table = tableModel(
      [
        { id: 'f', weight: 1, repair: 'r' },
        { id: 'g', weight: 1, repair: 's' },
      ],
      [
        { faults: ['f'], answers: { lamp: 0 } },
        { faults: ['g'], answers: { lamp: [0.5, 0.5] } },
        { faults: [], answers: { lamp: 1 } },
      ],
    );
    const mixed = [lampIs('dark', ['r']), lampIs('lit', ['r'])];
    const belief = finish(
      believe(table, mixed, [{ id: 'r', success: 0.5 }], { ...usual, outlier: 0, unlisted: 0, second: 0 }),
    );
    expect(belief.suspects.map((suspect) => suspect.probability)).toEqual([0, 1]);
  });

  it('done twice has two chances', () => {
    const table = tableModel(
      [
        { id: 'f', weight: 1, repair: 'r' },
        { id: 'g', weight: 1, repair: 's' },
      ],
      [
        { faults: ['f'], answers: { lamp: 0 } },
        { faults: ['g'], answers: { lamp: 0 } },
        { faults: [], answers: { lamp: 1 } },
      ],
    );
    const options = { ...usual, outlier: 0, unlisted: 0, second: 0 };
    const after = (...done: string[]): number[] =>
      finish(believe(table, [lampIs('dark', done)], [{ id: 'r', success: 0.8 }], options)).suspects.map(
        (s) => s.probability,
      );
    expect(after('r')[0]).toBeCloseTo(0.2 / 1.2, 12);
    expect(after('r', 'r')[0]).toBeCloseTo(0.04 / 1.04, 12);
  });

  it('whose chance of success is not given is an error that names it', () => {
    expect(() =>
      of(
        [reading('end', 9, ['paint-the-box'])],
        {},
        { ...feed, faults: feed.faults.map((f) => ({ ...f, repair: 'paint-the-box' })) },
      ),
    ).toThrow('repair "paint-the-box" was done, but its chance of success is not given');
  });
});

describe('sampling again', () => {
  it('agrees with a hundred thousand plain draws where three hundred are too few', () => {
    // Three tight readings of a four-number site: of 300 draws of the joint hardly one comes near.
    const evidence = [
      reading('supply', 13.57),
      reading('middle', 12.2),
      reading('end', 10.83),
      lampIs('lit'),
    ];
    const plain = bruteForce(evidence, 100_000);
    const fine = of(evidence, { draws: 3000 });
    fine.suspects.forEach((suspect, i) =>
      expect(Math.abs(suspect.probability - (plain.posterior[i] ?? 0))).toBeLessThan(0.05),
    );
    expect(Math.abs(fine.logEvidence - plain.logEvidence)).toBeLessThan(0.1);
    // Three hundred draws, sampled again, on the average of eight seeds.
    const seeds = Array.from({ length: 8 }, (_, seed) => of(evidence, { seed }));
    feed.faults.forEach((_, i) => {
      const mean = seeds.reduce((sum, each) => sum + (each.suspects[i]?.probability ?? 0) / seeds.length, 0);
      expect(Math.abs(mean - (plain.posterior[i] ?? 0))).toBeLessThan(0.05);
    });
    const belief = of(evidence);
    // The draws it leaves are of the posterior: their mean prediction at the end is what was read there.
    const leader = belief.suspects.reduce((a, b) => (b.probability > a.probability ? b : a));
    const mean = leader.draws.reduce((sum, { instance, weight }) => {
      const prediction = instance.predict(volts('end'), []);
      return sum + (prediction.kind === 'value' ? (weight * prediction.value) / leader.probability : NaN);
    }, 0);
    expect(Math.abs(mean - 10.83)).toBeLessThan(0.1);
  });

  it('makes no instances for a set that cannot matter', () => {
    let instances = 0;
    const counted: Model = {
      ...feed,
      instance: (faults, draw) => (instances++, feed.instance(faults, draw)),
    };
    const evidence = [reading('supply', 9.3), reading('end', 8.9), lampIs('dark')];
    of(evidence, {}, counted);
    const once = instances;
    // Four sets and the healthy site by plain draws; only what may lead is worth more.
    expect(once).toBeLessThan(4 * 300 + 1 + 2 * 600 * 10);
    of([], {}, counted);
    expect(instances).toBe(once);
  });
});

/** The posterior by plain pseudo-random draws and the definition of the likelihood, sharing no code with the product. */
function bruteForce(
  evidence: readonly Evidence[],
  draws: number,
): { posterior: number[]; logEvidence: number } {
  let state = 12345;
  const random = (): number => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return state / 2 ** 32;
  };
  const unlistedDensity = (item: Evidence): number => {
    if (item.question.answers !== 'value') return 0.5;
    const healthy = feed.instance([], new Float64Array(4).fill(0.5)).predict(item.question, []);
    if (healthy.kind !== 'value') throw new Error('a number was expected');
    const [width, middle, x] = [22.5, 7.5, item.answer];
    const bell = (mean: number, sd: number): number =>
      Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
    const flat = x > -3.75 && x < 18.75 ? 1 / width : 0;
    const tail = width / (Math.PI * (width ** 2 + (x - middle) ** 2));
    return (
      0.15 * bell(0, width / 400) +
      0.15 * bell(healthy.value, Math.max(3 * healthy.spread, width / 400)) +
      0.55 * flat +
      0.05 * tail
    );
  };
  const unlisted = evidence.map(unlistedDensity);
  const weights = feed.faults.map((fault, f) => {
    let sum = 0;
    for (let n = 0; n < draws; n++) {
      const site = feed.instance([f], Float64Array.of(random(), random(), random(), random()));
      let likelihood = 1;
      evidence.forEach((item, i) => {
        const prediction = site.predict(item.question, []);
        const p =
          prediction.kind === 'choice'
            ? (prediction.odds[item.answer] ?? 0)
            : prediction.kind === 'value'
              ? Math.exp(-0.5 * ((item.answer - prediction.value) / prediction.spread) ** 2) /
                (prediction.spread * Math.sqrt(2 * Math.PI))
              : 0;
        likelihood *= 0.985 * p + 0.015 * (unlisted[i] ?? 0);
      });
      sum += likelihood / draws;
    }
    return (0.98 * fault.weight * sum) / 8;
  });
  const nobody = unlisted.reduce((product, q) => product * q, 0.02);
  const all = weights.reduce((sum, w) => sum + w, nobody);
  return { posterior: weights.map((w) => w / all), logEvidence: Math.log(all) };
}
