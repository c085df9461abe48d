import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conductorOhms } from '../../src/circuit/copper.ts';
import type { ElementKind, Topology } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, tangle } from './draws.ts';
import { solved, stiff, type Part } from './solved.ts';

const ground = 'n0';
const seeds = fc.integer({ min: 0, max: 2 ** 31 });

/** A circuit of resistors and sources of some volts, by seed. */
function linear(seed: number, sources: number): { topology: Topology; values: Float64Array } {
  const draw = drawing(seed);
  const kinds = new Array<ElementKind>(sources).fill('source');
  const topology = compile(tangle(draw, draw.whole(3, 12), draw.whole(0, 8), kinds), ground);
  const values = new Float64Array(topology.size);
  topology.elements.forEach(({ kind }, e) =>
    values.set(
      kind === 'source' ? [draw.between(-30, 30), draw.decades(1e-2, 1e3)] : [draw.decades(1e-2, 1e6)],
      topology.offset(e),
    ),
  );
  return { topology, values };
}

const sourcesOf = (topology: Topology): number[] =>
  [...topology.elements.keys()].filter((e) => topology.elements[e]?.kind === 'source');

describe('superposition', () => {
  it('the volts of all sources are the sum of the volts of each with the others at 0 V', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 2, max: 4 }), (seed, count) => {
        const { topology, values } = linear(seed, count);
        const all = topology.solve(values).high.volts;
        const sum = new Float64Array(all.length);
        for (const only of sourcesOf(topology)) {
          const quiet = values.slice();
          for (const e of sourcesOf(topology)) if (e !== only) quiet[topology.offset(e)] = 0;
          topology.solve(quiet).high.volts.forEach((volts, k) => (sum[k] = (sum[k] ?? 0) + volts));
        }
        all.forEach((volts, k) => expect(Math.abs((sum[k] ?? NaN) - volts)).toBeLessThan(1e-9));
      }),
      { numRuns: 300 },
    );
  });

  it('twice the volts of every source give twice the volts everywhere and twice the amperes', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { topology, values } = linear(seed, 2);
        const twice = values.slice();
        for (const e of sourcesOf(topology))
          twice[topology.offset(e)] = 2 * (values[topology.offset(e)] ?? NaN);
        const [one, other] = [topology.solve(values).high, topology.solve(twice).high];
        one.volts.forEach((volts, k) =>
          expect(Math.abs((other.volts[k] ?? NaN) - 2 * volts)).toBeLessThan(1e-9),
        );
        topology.elements.forEach((_, e) => {
          const amps = one.amps(e);
          expect(Math.abs(other.amps(e) - 2 * amps)).toBeLessThan(1e-9 + 1e-6 * Math.abs(amps));
        });
      }),
      { numRuns: 200 },
    );
  });
});

describe('reciprocity', () => {
  /** Amperes through the second of two branches when the first has 10 V in it, both of 1 ohm. */
  it('10 V in one branch drive through another what 10 V there drive through the first', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { topology, values } = linear(seed, 2);
        const [first = -1, second = -1] = sourcesOf(topology);
        const through = (driven: number, read: number): number => {
          const turned = values.slice();
          turned[topology.offset(driven)] = 10;
          turned[topology.offset(read)] = 0;
          return topology.solve(turned).high.amps(read);
        };
        const [there, back] = [through(first, second), through(second, first)];
        expect(Math.abs(there - back)).toBeLessThan(1e-9 + 1e-6 * Math.abs(there));
      }),
      { numRuns: 300 },
    );
  });

  it('the ohms between two points are the same from either side, and no more than those of any branch between them', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { topology, values } = linear(seed, 1);
        const point = topology.solve(values);
        topology.elements.forEach((shape, e) => {
          const [a, b] = [topology.node(shape.a), topology.node(shape.b)];
          if (a === b) return;
          const ohms = point.thevenin(a, b);
          expect(Math.abs(point.thevenin(b, a) / ohms - 1)).toBeLessThan(1e-9);
          const own = values[topology.offset(e) + (shape.kind === 'source' ? 1 : 0)] ?? NaN;
          expect(ohms).toBeLessThan(own * (1 + 1e-9));
        });
      }),
      { numRuns: 200 },
    );
  });
});

describe('more copper', () => {
  const length = fc.double({ min: 1, max: 120, noNaN: true });
  const area = fc.double({ min: 0.1, max: 2.5, noNaN: true });
  const more = fc.double({ min: 1, max: 5, noNaN: true });
  const watts = fc.array(fc.double({ min: 0.1, max: 4, noNaN: true }), { minLength: 1, maxLength: 4 });

  /** Units one behind the other along a run on 13.6 V, each with a length of plus and minus conductor of its own. */
  function run(metres: number, mm2: number, units: readonly number[], celsius: number) {
    const ohms = conductorOhms({ length: metres, mm2, celsius, factor: 1 });
    const parts = units.flatMap((each, i): Part[] => [
      ['resistor', `plus-${i}`, i === 0 ? 'plus' : `p${i - 1}`, `p${i}`, ohms],
      ['resistor', `minus-${i}`, `m${i}`, i === 0 ? 'gnd' : `m${i - 1}`, ohms],
      ['load', `unit-${i}`, `p${i}`, `m${i}`, each, 6, 9],
    ]);
    const circuit = solved(stiff(13.6), ...parts);
    return {
      volts: units.map((_, i) => circuit.volts(`p${i}`, `m${i}`)),
      on: units.map((_, i) => circuit.state(`unit-${i}`) === 'on'),
    };
  }

  it('never means more drop: units that run still run, each with as many volts or more', () => {
    fc.assert(
      fc.property(length, area, more, watts, (metres, mm2, times, units) => {
        const [thin, thick] = [run(metres, mm2, units, 20), run(metres, mm2 * times, units, 20)];
        if (!thin.on.every(Boolean)) return;
        expect(thick.on).toEqual(thin.on);
        thin.volts.forEach((volts, i) => expect(thick.volts[i]).toBeGreaterThan(volts - 1e-9));
      }),
      { numRuns: 500 },
    );
  });

  it('nor does a shorter or a cooler run', () => {
    fc.assert(
      fc.property(length, area, more, watts, (metres, mm2, times, units) => {
        const far = run(metres, mm2, units, 40);
        if (!far.on.every(Boolean)) return;
        for (const nearer of [
          run(metres / times, mm2, units, 40),
          run(metres, mm2, units, 40 - 10 * times),
        ]) {
          expect(nearer.on).toEqual(far.on);
          far.volts.forEach((volts, i) => expect(nearer.volts[i]).toBeGreaterThan(volts - 1e-9));
        }
      }),
      { numRuns: 300 },
    );
  });
});
