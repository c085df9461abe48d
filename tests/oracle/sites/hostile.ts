import { Chance } from './chance.ts';
import { clumsy, reluctant } from './hostile-answers.ts';
import { lowSupply, LowSupplySite, type LowSupplyOptions, type Symptom, type Twist } from './low-supply.ts';
import { oneOff } from './low-supply-told.ts';
import type { SimulatedSite } from './simulated-site.ts';

/** A hostile site is a fair one but for the one thing that its kind says. */
type Hostile = (options: LowSupplyOptions) => SimulatedSite;

/** Some one thing, by the site, that is not as it was told. */
const toldWrong: readonly Twist[] = [
  {
    told: (p, step, seed) =>
      step === 'run-size' ? oneOff(p.runSize, new Chance(seed, 'one off').happens(0.5)) : undefined,
  },
  {
    told: (p, step, seed) =>
      step === 'run-length'
        ? `${(p.runLength * (new Chance(seed, 'a third off').happens(0.5) ? 0.7 : 1.3)).toFixed(1)} m`
        : undefined,
  },
  { unsaid: () => ({ runCelsius: 50 }) },
  // What the papers give the output and what it gives: common practice, no source.
  { unsaid: ({ chargerLimit }) => ({ chargerLimit: 0.6 * chargerLimit }) },
  // IACS: copper-clad aluminium of 15 % copper conducts about 63 % of what copper does (ASTM B566, from memory).
  { unsaid: () => ({ runFactor: 1.6 }) },
];

/** Nobody who wrote down what can be wrong thought of these. */
const offTheList: Symptom = {
  ...lowSupply,
  faults: {
    'diode-left-in': { weight: 1, repair: '', set: { diodeInPlus: true }, ranges: { runLength: [30, 60] } },
    'mains-hum': { weight: 1, repair: '', ranges: { hum: [2.5, 5] } },
    // A unit set to let go early: another unit is a cure too.
    'lets-go-early': {
      weight: 1,
      repair: 'change-unit',
      ranges: { unitCutoff: [12.6, 12.9], unitStart: [13.1, 13.3] },
    },
  },
};

/** How it was landed, which cable was drawn, or how long it has had power: that stays as it is from reading to reading. */
const stays = [
  'run-too-long',
  'copper-clad',
  'reversed',
  'wrong-output',
  'commons-apart',
  'not-started',
  'supply-fine',
];

const comingAndGoing: Symptom = {
  ...lowSupply,
  faults: Object.fromEntries(Object.entries(lowSupply.faults).filter(([id]) => !stays.includes(id))),
};

const twisted =
  (twist: (seed: number) => Twist, symptom?: Symptom): Hostile =>
  (options) =>
    new LowSupplySite({ ...options, symptom: symptom ?? options.symptom, twist: twist(options.seed) });

/** By the name of its kind. */
export const hostile: Readonly<Record<string, Hostile>> = {
  'told-wrong': twisted((seed) => toldWrong[seed % toldWrong.length] ?? {}),
  clumsy: (options) => clumsy(new LowSupplySite(options), options.seed),
  reluctant: (options) => reluctant(new LowSupplySite(options), options.seed),
  'two-faults': twisted(() => ({ second: true })),
  'off-the-list': twisted(() => ({}), offTheList),
  intermittent: twisted(() => ({ present: 0.6 }), comingAndGoing),
};
