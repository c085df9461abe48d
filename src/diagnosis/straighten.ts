import { Bias } from './bias.ts';
import { bareDensity, isOn, onto, wide, type Chart } from './chart.ts';
import { lowDiscrepancy, uniform } from './draws.ts';
import type { Importance, Sample, Weighed } from './importance.ts';
import type { Work } from './model.ts';
import { normal } from './proposal.ts';
import { descend, settle, slopes, type Place, type Placed, type Ridge } from './ridge.ts';
import { at, logSumExp, total } from './vectors.ts';
import { effectiveSize, resample } from './weights.ts';

/** Draws from which ridges are looked for. */
const starts = 6;
/** Draws of a batch as a share of those asked for, and the most batches. */
const batch = 0.5;
const mostBatches = 4;
/** Shares that must count for no more batches to be made, and for the outcome to be worth anything. */
const enough = 0.25;
const fewest = 0.05;
/** The first batches may be so many nats short of the evidence. */
const short = 3;
/** Least share of the draws that all charts have alike. */
const alike = 1 / 3;

interface Drawn<S> {
  readonly placed: Placed<S>;
  /** The chart that it was drawn with; null for a draw of the prior. */
  readonly from: Chart<S> | null;
  /** ln density of each chart without its bias. */
  readonly bare: readonly number[];
}

/** Draws weighed so far; `made` counts those that led nowhere too. */
interface Tally<S> {
  readonly samples: S[];
  readonly logs: number[];
  made: number;
}

/**
 * Evidence and posterior draws where the answers leave only a narrow, bent ridge: as many coordinates as there are
 * close answers are solved for, given all the others, which straightens the ridge, so that the others can be drawn
 * nearly as the prior has them. Draws are weighed against the mixture of the charts, one for each set of coordinates
 * that is settled somewhere, and of the prior; each batch against its own, so that none is weighed by what it led to.
 * Null where no ridge is found, where it is hopeless, or where too few draws count.
 * Sources: Chorin & Tu, "Implicit sampling for particle filters", 2009; Veach & Guibas, "Optimally combining sampling
 * techniques", 1995.
 */
export function* straighten<S extends Sample>(
  cloud: readonly S[],
  power: number,
  asked: Importance<S>,
): Work<Weighed<S> | null> {
  const { start, key } = asked;
  const charts = yield* chartsOf(cloud, power, asked);
  if (charts.length === 0) return null;
  const tally: Tally<S> = { samples: [], logs: [], made: 0 };
  for (let round = 0; round < mostBatches; round++) {
    const count = Math.ceil(batch * asked.count);
    const drawn = yield* draw(charts, round, count, asked);
    if (round === 0) drawn.push(...(yield* ofPrior(charts, asked)));
    const logs = weights(drawn, charts, count, round === 0 ? start.length : 0, asked);
    tally.samples.push(...drawn.map(({ placed }) => placed.sample));
    tally.logs.push(...logs);
    tally.made += count + (round === 0 ? start.length : 0);
    if (round > 0 && asked.hopeless(logSumExp(tally.logs) - Math.log(tally.made) + short)) return null;
    if (round > 0 && effectiveSize(tally.logs) >= enough * asked.count) break;
    adapt(charts, drawn, logs);
  }
  const { samples, logs, made } = tally;
  if (effectiveSize(logs) < fewest * asked.count) return null;
  const particles = resample(samples, logs, asked.count, uniform(key, 'particles'));
  return { logEvidence: logSumExp(logs) - Math.log(made), particles };
}

/** Ridges near draws of the cloud; none when the best that is found is hopeless. */
function* chartsOf<S extends Sample>(
  cloud: readonly S[],
  power: number,
  asked: Importance<S>,
): Work<Chart<S>[]> {
  const place = placing(asked);
  const charts: Chart<S>[] = [];
  let most = Math.max(...cloud.map((sample) => asked.log(sample, 1)));
  for (let k = 0; k < starts; k++) {
    const sample = cloud[Math.floor(((k + 0.5) * cloud.length) / starts)];
    if (!sample) continue;
    const answers = asked.explained(sample, power);
    const start = { sample, point: sample.point, errors: asked.errors(sample) };
    const on = yield* descend(start, answers, place);
    most = Math.max(most, asked.log(on.sample, 1));
    if (k > 1 && asked.hopeless(most)) return [];
    const close = answers.filter((answer) => isOn({ answers: [answer], settled: [] }, on.errors));
    if (2 * close.length >= answers.length) yield* chart(on, answers, charts, place);
  }
  for (const each of charts) each.share = 1 / charts.length;
  return charts;
}

/** Adds the chart of a point on a ridge, unless it has it. */
function* chart<S>(
  on: Placed<S>,
  answers: readonly number[],
  charts: Chart<S>[],
  place: Place<S>,
): Work<void> {
  const every = [...on.point.keys()];
  const j = yield* slopes(on, answers, every, place);
  const ridge = settle(j, answers, every.length);
  if (ridge.answers.length === 0 || !isOn(ridge, on.errors)) return;
  const known = charts.find((other) => nameOf(other.ridge) === nameOf(ridge));
  const own = known?.ridge ?? ridge;
  const anchor = { placed: on, slopes: part(j, answers, every, own) };
  if (known) known.anchors.push(anchor);
  else charts.push({ ridge, anchors: [anchor], tried: [], bias: Bias.none, share: 0 });
}

function nameOf({ answers, settled }: Ridge): string {
  return `${answers.toSorted().join()} ${settled.toSorted().join()}`;
}

/** Those of the slopes of some answers by some coordinates that a ridge is about. */
function part(
  j: Float64Array,
  answers: readonly number[],
  coordinates: readonly number[],
  ridge: Ridge,
): Float64Array {
  const cells = ridge.answers.flatMap((answer) =>
    ridge.settled.map((d) => answers.indexOf(answer) * coordinates.length + coordinates.indexOf(d)),
  );
  return Float64Array.from(cells, (cell) => at(j, cell));
}

function placing<S extends Sample>({ weigh, errors }: Importance<S>): Place<S> {
  return (point) => {
    const sample = weigh(point);
    return { sample, point, errors: errors(sample) };
  };
}

/** So many tries, in turn with each chart by its share; those that lead nowhere are left out. */
function* draw<S extends Sample>(
  charts: readonly Chart<S>[],
  round: number,
  count: number,
  asked: Importance<S>,
): Work<Drawn<S>[]> {
  const { key, start } = asked;
  const place = placing(asked);
  const sequence = lowDiscrepancy(
    Math.floor(uniform(key, 'straight') * 2 ** 32),
    start[0]?.point.length ?? 0,
  );
  const shares = charts.map(({ share }) => Math.log(share));
  const drawn: Drawn<S>[] = [];
  for (const [i, from] of resample(charts, shares, count, uniform(key, 'chart', round)).entries()) {
    const point = from.bias.draw(sequence(round * count + i));
    const chance = (use: number): number => uniform(key, 'onto', round, i, use);
    const wanted = from.ridge.answers.map((_, a) => wide * normal(chance(2 * a), chance(2 * a + 1)));
    const placed = yield* onto(point, wanted, from, place);
    const bare = placed ? yield* densities(placed, charts, place) : [];
    // Where no slope settles the answers, as while a load restarts, the chart has no density to weigh a draw by.
    const isFound = (bare[charts.indexOf(from)] ?? -Infinity) > -Infinity;
    from.tried.push({ point, isFound });
    if (placed && isFound) drawn.push({ placed, from, bare });
    yield;
  }
  return drawn;
}

function* ofPrior<S extends Sample>(charts: readonly Chart<S>[], asked: Importance<S>): Work<Drawn<S>[]> {
  const drawn: Drawn<S>[] = [];
  for (const sample of asked.start) {
    const placed = { sample, point: sample.point, errors: asked.errors(sample) };
    drawn.push({ placed, from: null, bare: yield* densities(placed, charts, placing(asked)) });
  }
  return drawn;
}

/** ln density of each chart at a point, without its bias; the point becomes an anchor of those that it is on. */
function* densities<S>(placed: Placed<S>, charts: readonly Chart<S>[], place: Place<S>): Work<number[]> {
  const near = charts.filter(({ ridge }) => isOn(ridge, placed.errors));
  if (near.length === 0) return charts.map(() => -Infinity);
  const coordinates = [...new Set(near.flatMap(({ ridge }) => ridge.settled))];
  const answers = [...placed.errors.keys()];
  const j = yield* slopes(placed, answers, coordinates, place);
  return charts.map((chart) => {
    if (!near.includes(chart)) return -Infinity;
    const anchor = { placed, slopes: part(j, answers, coordinates, chart.ridge) };
    const log = bareDensity(anchor, chart.ridge);
    if (log > -Infinity) chart.anchors.push(anchor);
    return log;
  });
}

/** ln weights of one batch against the mixture that it was drawn from. */
function weights<S extends Sample>(
  drawn: readonly Drawn<S>[],
  charts: readonly Chart<S>[],
  count: number,
  ofPrior: number,
  { log }: Importance<S>,
): number[] {
  const all = count + ofPrior;
  return drawn.map(({ placed, bare }) => {
    const each = charts.map(
      ({ share, bias }, c) => Math.log((share * count) / all) + at(bare, c) + bias.logDensity(placed.point),
    );
    return log(placed.sample, 1) - logSumExp([...each, Math.log(ofPrior / all)]);
  });
}

/** Draws more with the charts that carry the weight, and where their draws lead somewhere. */
function adapt<S>(charts: readonly Chart<S>[], drawn: readonly Drawn<S>[], logs: readonly number[]): void {
  const carried = charts.map((chart) =>
    Math.exp(logSumExp(logs.filter((_, i) => drawn[i]?.from === chart)) - logSumExp([...logs, -1e300])),
  );
  const all = total(carried);
  charts.forEach((chart, c) => {
    chart.share = all > 0 ? alike / charts.length + ((1 - alike) * at(carried, c)) / all : 1 / charts.length;
    const free = [...(chart.tried[0]?.point.keys() ?? [])].filter((d) => !chart.ridge.settled.includes(d));
    chart.bias = Bias.towards(chart.tried, free);
  });
}
