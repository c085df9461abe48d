import { performance } from 'node:perf_hooks';
import { hash, lowDiscrepancy } from '../src/diagnosis/draws.ts';
import { loadKnowledge } from '../src/knowledge/load.ts';
import type { Circuit } from '../src/knowledge/schema/circuit.ts';
import type { Fault } from '../src/knowledge/schema/fault.ts';
import type { Knowledge } from '../src/knowledge/schema/knowledge.ts';
import { changesOf, distribution, formOf } from '../src/models/parameters.ts';
import type { Draw } from '../src/models/wired-element.ts';
import { wire, type Wiring } from '../src/models/wiring.ts';
import { inService, siteFor, siteKey } from '../src/site/state.ts';
import { denseEliminations } from './dense.ts';
import type { Figure } from './figure.ts';
import { measured } from './flow.ts';
import { mean, median } from './quantile.ts';

const draws = 64;
const turns = 25;

/**
 * One operating point of the measured flow's circuit, from a draw of its parameters to all its volts, over one dense
 * 12 x 12 elimination: timed in turns when warm, medians.
 */
export function solver(seed: number): Figure[] {
  const knowledge = loadKnowledge('.');
  const flow = knowledge.flows[measured];
  const circuit = knowledge.circuits[flow?.circuit ?? ''];
  if (!flow || !circuit) throw new Error('The flow that is measured has no circuit.');
  const faults = flow.faults.flatMap((id) => knowledge.faults[id] ?? []);
  const dense = denseEliminations(12);
  const served = wire(circuit, inService);
  const healthy = drawsOf(circuit, null, seed);
  const elsewhere = sitesOf(knowledge, flow.checks).map((site) => wire(circuit, site));
  const runs: (() => number)[] = [
    () => microseconds(() => dense(2000), 2000),
    () => solveAll([served], healthy),
    () => solveAll(elsewhere, healthy),
    ...faults.map((fault) => {
      const faulty = drawsOf(circuit, fault, seed);
      return () => solveAll([served], faulty);
    }),
  ];
  const [one = NaN, well = NaN, sites = NaN, ...withFault] = inTurns(runs);
  const slowest = Math.max(...withFault);
  const called = faults[withFault.indexOf(slowest)]?.id ?? '';
  const ratio = (what: string, micros: number, atMost?: number): Figure => ({
    what,
    value: micros / one,
    unit: 'times',
    atMost,
  });
  return [
    ratio(`${circuit.id}, good site, in service`, well, 5),
    ratio(`${circuit.id}, mean over its ${faults.length} faults, in service`, mean(withFault), 5),
    ratio(`${circuit.id}, slowest fault (${called})`, slowest),
    ratio(`${circuit.id}, good site, mean over the ${elsewhere.length} site states that checks need`, sites),
    { what: `${circuit.id}, good site, in service`, value: well, unit: 'us' },
    { what: 'one dense 12 x 12 elimination', value: one, unit: 'us' },
  ];
}

function drawsOf(circuit: Circuit, fault: Fault | null, seed: number): Draw[] {
  const parameters = Object.entries(circuit.parameters);
  const sequence = lowDiscrepancy(hash(seed, fault?.id ?? 'good'), parameters.length + 1);
  return Array.from({ length: draws }, (_, n) => {
    const point = sequence(n);
    const changes = fault ? changesOf(fault, formOf(fault, point[parameters.length] ?? 0)) : {};
    return parameters.map(([id, spread], i) =>
      distribution(changes[id] ?? spread, undefined).at(point[i] ?? 0),
    );
  });
}

/** Every state of the site that one of the checks is made in. */
function sitesOf(knowledge: Knowledge, checks: readonly string[]) {
  const sites = checks.flatMap((id) => {
    const check = knowledge.checks[id];
    return check ? [siteFor(check.site, false)] : [];
  });
  return [...new Map(sites.map((site) => [siteKey(site), site])).values()];
}

/** Microseconds of one operating point, on the average over all wirings and draws. */
function solveAll(wirings: readonly Wiring[], all: readonly Draw[]): number {
  const times = Math.ceil(512 / (wirings.length * all.length));
  return microseconds(
    () => {
      for (let i = 0; i < times; i++)
        for (const wiring of wirings) for (const draw of all) wiring.solve(draw);
    },
    times * wirings.length * all.length,
  );
}

function microseconds(work: () => void, times: number): number {
  const start = performance.now();
  work();
  return ((performance.now() - start) * 1000) / times;
}

/** Medians of runs taken in turns, the first turns only to warm up. */
function inTurns(runs: readonly (() => number)[]): number[] {
  const found = runs.map((): number[] => []);
  for (let turn = -5; turn < turns; turn++) {
    runs.forEach((run, r) => {
      const time = run();
      if (turn >= 0) found[r]?.push(time);
    });
  }
  return found.map(median);
}
