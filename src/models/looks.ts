import type { Prediction } from '../diagnosis/model.ts';
import type { Check, ObservationRule } from '../knowledge/schema/check.ts';
import { siteFor } from '../site/state.ts';
import { solved, type Bench, type Surroundings } from './bench.ts';
import { rippleAt } from './readings.ts';
import { valueIn, valueReader } from './wired-element.ts';

type Looked = Extract<Check, { choices: unknown; shows: unknown }>;
type Lamp = Extract<ObservationRule, { rule: 'lamp' }>;
type Table = Extract<ObservationRule, { rule: 'table' }>;

/** Volts over which dim shades into steady. */
const shade = 0.5;

/** What the lamp of a load shows: from its state, its volts, its ripple and the minutes since power. */
export function lampPredictor(
  check: Looked,
  lamp: Lamp,
  { circuit, wiring }: Surroundings,
): (bench: Bench) => Prediction {
  const site = siteFor(check.site, false);
  const wired = wiring(site);
  const element = circuit.elements.find((e) => e.id === lamp.load);
  if (element?.kind !== 'load')
    throw new RangeError(`check "${check.id}": "${lamp.load}" is no load of the circuit`);
  const index = wired.topology.element(lamp.load);
  const [plus, minus] = [wired.topology.node(element.plus), wired.topology.node(element.minus)];
  const ripple = rippleAt({ red: element.plus, black: element.minus }, wired);
  const cutoff = valueReader(circuit, site)(element.cutoff);
  const ids = Object.keys(circuit.parameters);
  const at = (id: string | undefined): number => (id === undefined ? -1 : ids.indexOf(id));
  const [since, needs, alive] = [
    at(lamp.starting?.since),
    at(lamp.starting?.needs),
    at(element.alive?.parameter),
  ];
  const odds = (shares: Record<string, number>): Prediction => misread(check, shares, lamp.misread);
  return (bench) => {
    const { draw } = bench;
    const point = solved(bench, wired);
    const state = point.loadState(index);
    if (alive >= 0 && draw[alive] !== element.alive?.is) return odds({ dark: 1 });
    if (state === 'cycling') return odds({ cycling: 0.8, blinking: 0.2 });
    const volts = (point.high.volts[plus] ?? 0) - (point.high.volts[minus] ?? 0);
    if (state === 'off' || volts <= 0) return odds({ dark: 1 });
    if (Math.SQRT2 * Math.abs(ripple(bench)) > volts - valueIn(cutoff, draw))
      return odds({ cycling: 0.8, blinking: 0.2 });
    if (since >= 0 && Number(draw[since]) < Number(draw[needs]))
      return odds({ blinking: 0.85, cycling: 0.15 });
    const steady = Math.min(Math.max((volts - lamp.dim) / shade + 0.5, 0), 1);
    return odds({ steady, dim: 1 - steady });
  };
}

function misread(check: Looked, shares: Record<string, number>, misreadShare: number): Prediction {
  const spread = misreadShare / check.choices.length;
  return {
    kind: 'choice',
    odds: check.choices.map(({ id }) => (1 - misreadShare) * (shares[id] ?? 0) + spread),
  };
}

/** What a table says of a look: the fault's row, or with two faults the likelier of each answer. */
export function tablePredictor(check: Looked, table: Table): (bench: Bench) => Prediction {
  return ({ faults }) => {
    const rows = faults.flatMap((id) => {
      const row = table.faults[id] ?? table.any;
      return row ? [row] : [];
    });
    const used = rows.length > 0 ? rows : [table.default];
    const odds = check.choices.map(({ id }) => Math.max(...used.map((row) => row[id] ?? 0)));
    const all = odds.reduce((sum, p) => sum + p, 0);
    return { kind: 'choice', odds: odds.map((p) => p / all) };
  };
}
