import { describe, expect, it } from 'vitest';
import type {
  ElementKind,
  ElementShape,
  LoadState,
  OperatingPoint,
  Solution,
  Topology,
} from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, fill, run, tangle, type Drawing } from '../circuit/draws.ts';
import { spiceNetlist, type States } from './spice/circuit.ts';
import { operatingPoint } from './spice/spice.ts';

const ground = 'n0';
const allOff: States = { load: () => 'off', tripped: () => false };

describe('against ngspice', () => {
  it('200 circuits of resistors and sources, a milliohm to 10 megohm: the same volts to a part in a million', async () => {
    const draw = drawing(20);
    const worst = new Worst();
    for (let i = 0; i < 200; i++) {
      const kinds = new Array<ElementKind>(draw.whole(1, 4)).fill('source');
      const topology = compile(tangle(draw, draw.whole(3, 20), draw.whole(0, 20), kinds), ground);
      const values = new Float64Array(topology.size);
      topology.elements.forEach(({ kind }, e) =>
        values.set(
          kind === 'source' ? [draw.between(-30, 30), draw.decades(1e-3, 1e3)] : [draw.decades(1e-3, 1e7)],
          topology.offset(e),
        ),
      );
      const spice = await operatingPoint(spiceNetlist(topology, ground, values, allOff));
      worst.compare(topology, topology.solve(values).high, spice, `circuit ${i}`, 1e-6, 1e-6);
    }
    expect(worst.share, worst.toString()).toBeLessThan(1);
  });

  it('200 runs of constant-power loads, diodes and a fuse on a battery: the same volts to 1 %, on the branch that the unloaded circuit leads to', async () => {
    const draw = drawing(21);
    const { worst, counts, unsettled } = await compareRuns(
      draw,
      200,
      () => run(draw, draw.whole(1, 5), ['source']),
      loadedUp,
    );
    expect(worst.share, worst.toString()).toBeLessThan(1);
    expect(counts.on).toBeGreaterThan(50);
    expect(counts.cycling).toBeGreaterThan(30);
    expect(unsettled).toBeLessThan(7);
  });

  it('200 runs on limited supplies: ngspice, with the very min() of a supply, is content with our answer to 1 %', async () => {
    const draw = drawing(22);
    const shapes = () => run(draw, draw.whole(1, 5), draw.one(['supply'], ['supply', 'source']));
    const { worst, counts, unsettled } = await compareRuns(draw, 200, shapes, ours);
    expect(worst.share, worst.toString()).toBeLessThan(1);
    expect(counts.on).toBeGreaterThan(50);
    expect(counts.cycling).toBeGreaterThan(30);
    expect(unsettled).toBeLessThan(7);
  });

  it('200 tangles of every kind of element: likewise', async () => {
    const draw = drawing(23);
    const kind = (): ElementKind => draw.one<ElementKind>('source', 'supply', 'load', 'diode', 'fuse');
    const kinds = (): ElementKind[] => ['supply', 'load', ...Array.from({ length: draw.whole(1, 4) }, kind)];
    const shapes = () => tangle(draw, draw.whole(3, 9), draw.whole(0, 4), kinds());
    const { worst, counts, unsettled } = await compareRuns(draw, 200, shapes, ours);
    expect(worst.share, worst.toString()).toBeLessThan(1);
    expect(counts.on).toBeGreaterThan(20);
    expect(unsettled).toBeLessThan(7);
  });
});

/** Volts by node from which ngspice sets out. */
type Start = (
  topology: Topology,
  values: Float64Array,
  states: States,
  end: Solution,
) => Promise<Map<string, number>>;

/** Ngspice's own unloaded circuit, then its own with a growing share of the watts: down the high branch. */
const loadedUp: Start = async (topology, values, states) => {
  let volts = new Map<string, number>();
  for (const share of [0, 0.01, 0.4]) {
    const some = values.slice();
    topology.elements.forEach(({ kind }, e) => {
      const watts = topology.offset(e);
      if (kind === 'load') some[watts] = share * (values[watts] ?? 0);
    });
    volts = await operatingPoint(spiceNetlist(topology, ground, some, states, volts)).catch(() => volts);
  }
  return volts;
};

/** Our answer: the kinks of a supply send ngspice round in circles from anywhere else. It still has to satisfy itself. */
const ours: Start = async (topology, _values, _states, end) =>
  new Map(topology.nodes.map((node) => [`v(${node})`, end.volts[topology.node(node)] ?? 0]));

/** Both ends of each operating point, in the discrete states our solver found. */
async function compareRuns(draw: Drawing, times: number, shapes: () => ElementShape[], start: Start) {
  const worst = new Worst();
  const counts: Record<LoadState, number> = { off: 0, on: 0, cycling: 0 };
  let unsettled = 0;
  for (let i = 0; i < times; i++) {
    const topology = compile(shapes(), ground);
    const values = new Float64Array(topology.size);
    fill(draw, topology, values);
    const point = topology.solve(values);
    topology.elements.forEach(({ kind }, e) => kind === 'load' && counts[point.loadState(e)]++);
    for (const end of new Set([point.high, point.low])) {
      const states = statesAt(point, end);
      // A load that holds its cut-off volts has kinks, as a supply has.
      const from = end === point.high ? start : ours;
      const spice = await from(topology, values, states, end)
        .then((volts) => operatingPoint(spiceNetlist(topology, ground, values, states, volts)))
        .catch(() => undefined);
      const where = `circuit ${i}, ${end === point.high ? 'high' : 'low'} end`;
      if (spice) worst.compare(topology, end, spice, where, 0.01, 1e-3);
      else unsettled++;
    }
  }
  return { worst, counts, unsettled };
}

function statesAt(point: OperatingPoint, end: Solution): States {
  return {
    tripped: (e) => point.tripped(e),
    load: (e) => (point.loadState(e) === 'cycling' && end === point.high ? 'off' : point.loadState(e)),
  };
}

/** The largest difference found, as a share of what is allowed. */
class Worst {
  share = 0;
  private where = 'none';

  compare(
    topology: Topology,
    ours: Solution,
    spice: Map<string, number>,
    circuit: string,
    relative: number,
    floor: number,
  ) {
    for (const node of topology.nodes) {
      if (node === ground) continue;
      const theirs = spice.get(`v(${node})`) ?? 0;
      const volts = ours.volts[topology.node(node)] ?? NaN;
      const share = Math.abs(volts - theirs) / (floor + relative * Math.abs(theirs));
      if (share <= this.share) continue;
      this.share = share;
      this.where = `${circuit}, ${node}: ${volts} V, ngspice ${theirs} V`;
    }
  }

  toString(): string {
    return `largest difference ${this.share} of the allowed, at ${this.where}`;
  }
}
