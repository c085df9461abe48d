import type { ElementShape } from '../src/circuit/netlist.ts';
import { compile } from '../src/circuit/topology.ts';
import type { Figure } from './figure.ts';

const sizes = [4, 8, 16, 32, 64];

/** Multiply-adds of one operating point of a run with 4 to 64 devices along it, and how they grow. */
export function solverGrowth(): Figure[] {
  return [
    // The same watts in all over the same copper in all, so that only the number of devices differs.
    ...series('a run that carries its devices', 4),
    ...series('a run that must shed some of them', 40),
  ];
}

function series(called: string, watts: number): Figure[] {
  const counts = sizes.map((devices) => operations(devices, watts));
  const [few = NaN] = counts;
  const [least = NaN, most = NaN] = [sizes[0], sizes.at(-1)];
  return [
    ...sizes.map((devices, i): Figure => {
      const what = `${called}: ${devices} devices`;
      return { what, value: counts[i] ?? NaN, unit: 'multiply-adds' };
    }),
    {
      what: `${called}: each device of ${most} over each of ${least} (1 is linear)`,
      value: (counts.at(-1) ?? NaN) / few / (most / least),
      unit: 'times',
    },
  ];
}

function operations(devices: number, watts: number): number {
  const along = Array.from({ length: devices }, (_, d) => d + 1);
  const shapes: ElementShape[] = [
    { kind: 'supply', id: 'aux', a: 'p0', b: 'm0' },
    ...along.flatMap((d): ElementShape[] => [
      { kind: 'resistor', id: `plus${d}`, a: `p${d - 1}`, b: `p${d}` },
      { kind: 'resistor', id: `minus${d}`, a: `m${d}`, b: `m${d - 1}` },
      { kind: 'load', id: `load${d}`, a: `p${d}`, b: `m${d}` },
    ]),
  ];
  const each = along.flatMap(() => [2 / devices, 2 / devices, watts / devices, 8, 14]);
  return compile(shapes, 'm0').solve(Float64Array.from([13.6, 0.1, 3, Infinity, 1, ...each])).operations;
}
