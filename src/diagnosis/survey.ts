import { draws, setKey, uniform } from './draws.ts';
import { isRare, type Hypothesis } from './hypotheses.ts';
import { importance } from './importance.ts';
import type { BeliefOptions, Model, Work } from './model.ts';
import { nested } from './nested.ts';
import { errors, explained, score, straight, tempered } from './scoring.ts';
import type { Item, Scale, Scored } from './scoring.ts';
import { logSumExp } from './vectors.ts';
import { effectiveSize } from './weights.ts';

/** A hypothesis with the draws that carry it. */
export interface Surveyed {
  readonly scale: Scale;
  readonly scored: readonly Scored[];
  /** ln probability density of the evidence under the hypothesis, without its prior. */
  readonly logEvidence: number;
  /** Drawn from the posterior and equally weighted, or from the prior and to be weighted by likelihood. */
  readonly from: 'prior' | 'posterior';
}

/** All hypotheses against the same evidence. */
export interface Survey {
  readonly model: Model;
  readonly items: readonly Item[];
  readonly options: BeliefOptions;
  /** ln prior times evidence of "not on this list": something to be measured against even when nothing listed fits. */
  readonly unlisted: number;
}

/** A set that cannot come within this many nats of the best, one part in 150, is left with its plain draws. */
const negligible = 5;
/** Share of the draws that must count, below which a set is sampled again. */
const thin = 1 / 12;
/** So many draws give a bound that is good to a nat or so. */
const handful = 10;
/** Predictions between two yields. */
const predictionsBySlice = 200;
/** Of what is rare so many draws are looked at before the rest is worth making. */
const firstLook = 60;

/**
 * Weighs every hypothesis by draws from its prior. Those whose weight too few draws carry are sampled again,
 * the most promising first, until what remains cannot matter.
 */
export function* survey(all: readonly Hypothesis[], context: Survey): Work<Surveyed[]> {
  const found: { surveyed: Surveyed; reach: Reach }[] = [];
  let leader = context.unlisted;
  for (const hypothesis of all) {
    const rare = isRare(hypothesis);
    let surveyed = yield* weigh(hypothesis, context, rare ? firstLook : context.options.draws);
    if (rare && reach(surveyed).most > leader - negligible) {
      surveyed = yield* weigh(hypothesis, context, context.options.draws);
    }
    found.push({ surveyed, reach: reach(surveyed) });
    leader = Math.max(leader, assured(surveyed));
  }
  const result = found.map(({ surveyed }) => surveyed);
  const doubtful = [...found.entries()]
    .filter(([, { reach }]) => reach.thin)
    .sort(([, a], [, b]) => b.reach.most - a.reach.most);
  for (const [index, { surveyed, reach }] of doubtful) {
    if (reach.most < leader - negligible) break;
    const again = yield* sampleAgain(surveyed, leader, context);
    if (!again) continue;
    result[index] = again;
    leader = Math.max(leader, assured(again));
  }
  return result;
}

/** ln prior times evidence. */
export function standing(surveyed: Surveyed): number {
  return surveyed.scale.hypothesis.logPrior + surveyed.logEvidence;
}

/** The same without the draw that weighs most, where the draws are of the prior: one lucky draw leads nobody. */
function assured(surveyed: Surveyed): number {
  const { scale, scored, from } = surveyed;
  if (from === 'posterior' || scored.length === 1) return standing(surveyed);
  const [, ...rest] = scored.map(({ logLikelihood }) => logLikelihood).sort((a, b) => b - a);
  return scale.hypothesis.logPrior + logSumExp(rest) - Math.log(scored.length);
}

function* weigh(hypothesis: Hypothesis, context: Survey, count: number): Work<Surveyed> {
  const { model, items, options } = context;
  const scale = { hypothesis, items };
  const scored: Scored[] = [];
  const slice = sliceOf(context);
  for (const draw of draws(model, options.seed, hypothesis, count)) {
    scored.push(score(scale, draw));
    if (scored.length % slice === 0) yield;
  }
  yield;
  const logEvidence = logSumExp(scored.map(({ logLikelihood }) => logLikelihood)) - Math.log(scored.length);
  return { scale, scored, logEvidence, from: 'prior' };
}

/** What the draws of a set can tell of its evidence. */
interface Reach {
  /** Too few draws carry the weight somewhere on the way from the prior to the whole evidence. */
  readonly thin: boolean;
  /** ln prior times an upper bound of the evidence: as far up the ladder as a handful of draws still counts. */
  readonly most: number;
}

const ladder = Array.from({ length: 15 }, (_, i) => 2 ** (i - 14));

/** A set without parameters has one draw, which is all of it. */
function reach(surveyed: Surveyed): Reach {
  const { scale, scored } = surveyed;
  if (scored[0]?.point.length === 0) return { thin: false, most: standing(surveyed) };
  // Many draws for which an answer is an outlier can hide that few come near to what fits every answer.
  const ways = [
    climb(scored.map((draw) => (power) => tempered(scale, draw, power))),
    climb(scored.map((draw) => straight(scale, draw))),
  ].filter(({ thin }) => thin);
  if (ways.length === 0) return { thin: false, most: standing(surveyed) };
  return { thin: true, most: scale.hypothesis.logPrior + Math.max(...ways.map(({ most }) => most)) };
}

/** ln likelihoods of all draws, up the ladder of powers. */
function climb(logAt: readonly ((power: number) => number)[]): Reach {
  let isThin = false;
  let most = Infinity;
  for (const power of ladder) {
    const logs = logAt.map((log) => log(power));
    const size = effectiveSize(logs);
    isThin ||= size < Math.max(handful, thin * logs.length);
    if (size < handful && most < Infinity) break;
    most = logSumExp(logs) - Math.log(logs.length);
  }
  return { thin: isThin, most };
}

/** What comes and goes explains an answer in two ways, so that its ways are many: closing in would lose some. */
function* sampleAgain(surveyed: Surveyed, leader: number, context: Survey): Work<Surveyed | null> {
  const { scale, scored } = surveyed;
  const { hypothesis } = scale;
  const { model, options } = context;
  const { faults, intermittent } = hypothesis;
  const asked = {
    start: scored,
    count: Math.max(80, isRare(hypothesis) ? options.draws / 2 : options.draws),
    key: Math.floor(uniform(setKey(options.seed, hypothesis), 'again') * 2 ** 32),
    weigh: (point: Float64Array) =>
      score(scale, { point, instance: model.instance(faults, point, intermittent) }),
    log: (draw: Scored, power: number) => tempered(scale, draw, power),
    hopeless: (most: number) => hypothesis.logPrior + most < leader - negligible,
    slice: sliceOf(context),
  };
  const found = intermittent
    ? yield* nested(asked)
    : yield* importance({
        ...asked,
        errors: (draw) => errors(scale, draw),
        explained: (draw, power) => explained(scale, draw, power),
      });
  if (!found) return null;
  const { particles, logEvidence } = found;
  return { scale, scored: particles, logEvidence, from: 'posterior' };
}

function sliceOf({ items }: Survey): number {
  return Math.max(1, Math.ceil(predictionsBySlice / (items.length + 1)));
}
