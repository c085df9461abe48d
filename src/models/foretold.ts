import { endsOf, loadsOf, pointsOf } from '../knowledge/references/circuit-parts.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';

/** Whether everything that a check touches is in a circuit: probes, lifted ends, links, the ammeter, the load of a lamp. */
export function isAt(circuit: Circuit, check: Check): boolean {
  const { lifted = [], joined = [], meterIn } = check.site;
  const probes = check.kind === 'reading' ? [check.red, check.black] : [];
  const points = pointsOf(circuit);
  const ends = endsOf(circuit);
  return (
    [...probes, ...joined.flat()].every((point) => points.has(point)) &&
    lifted.every((end) => ends.has(end)) &&
    (meterIn === undefined || meterIn in circuit.meterPoints) &&
    (!('shows' in check) || check.shows.rule !== 'lamp' || loadsOf(circuit).has(check.shows.load))
  );
}

/** What a flow of looks and facts alone stands on: nothing to draw, nothing to solve. */
export const noCircuit: Circuit = {
  id: 'none',
  title: '',
  ground: 'none',
  parameters: {},
  elements: [],
  proveDeadAt: ['none.plus', 'none.minus'],
  meterPoints: {},
};
