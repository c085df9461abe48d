import { Branches, Ports } from './branches.ts';
import { Elimination } from './elimination.ts';
import { conductance } from './elements.ts';
import { startLines } from './lines.ts';
import type { ElementShape } from './netlist.ts';
import { orderOf } from './order.ts';

/** Siemens from every node to ground, so that a floating node has volts: none. */
const leak = 1e-12;

/** The circuit as equations: the linear part eliminated once per set of values, then solved for any lines of the ports. */
export class Network {
  readonly ports: Ports;
  readonly fuses: Branches;
  /** Load ports that hold their cut-off volts (see collapseAmps). */
  readonly collapsing: Uint8Array;
  operations = 0;
  readonly elimination: Elimination;
  private readonly resistors: Branches;
  private readonly sources: Branches;
  /** Coefficients of the late places as the linear part leaves them. */
  readonly lateG: Float64Array;
  readonly lateC: Float64Array;
  readonly lateStart: number;
  /** The same coefficients in the elimination, where the lines of the ports are added. */
  private readonly nowG: Float64Array;
  private readonly nowC: Float64Array;
  /** The late places are linear .. places-1. */
  readonly linear: number;
  readonly places: number;
  values: Float64Array = new Float64Array(0);
  private readonly earlyCost: number;
  private readonly lateCost: number;

  constructor(
    shapes: readonly ElementShape[],
    offsets: Int32Array,
    ends: readonly (readonly [number, number])[],
    nodes: number,
  ) {
    const nonLinear = new Array<boolean>(nodes).fill(false);
    shapes.forEach((shape, e) => {
      if (shape.kind === 'load' || shape.kind === 'supply' || shape.kind === 'diode')
        for (const node of ends[e] ?? []) nonLinear[node] = true;
    });
    const order = orderOf(nodes, ends, nonLinear);
    this.elimination = new Elimination(order);
    this.ports = new Ports(shapes, offsets, ends, order);
    this.resistors = new Branches(['resistor'], shapes, offsets, ends, order);
    this.sources = new Branches(['source'], shapes, offsets, ends, order);
    this.fuses = new Branches(['fuse'], shapes, offsets, ends, order);
    this.collapsing = new Uint8Array(this.ports.supplies);
    this.places = nodes - 1;
    this.linear = order.linear;
    this.lateStart = order.first[this.linear] ?? 0;
    this.lateG = new Float64Array(order.neighbour.length - this.lateStart);
    this.lateC = new Float64Array(this.lateG.length);
    const { g, c } = this.elimination;
    this.nowG = g.subarray(this.lateStart, this.lateStart + this.lateG.length);
    this.nowC = c.subarray(this.lateStart, this.lateStart + this.lateG.length);
    this.earlyCost = this.elimination.cost(0, this.linear);
    this.lateCost = this.elimination.cost(this.linear, this.places);
  }

  /** Takes in a set of values and which fuses have tripped (by fuse, not element), and starts every line anew. */
  feed(values: Float64Array, tripped: Float64Array): void {
    const { elimination, resistors, sources, fuses } = this;
    const { g, c } = elimination;
    const { first } = elimination.order;
    this.values = values;
    this.collapsing.fill(0);
    g.fill(0);
    c.fill(0);
    for (let k = 0; k < this.places; k++) g[(first[k + 1] ?? 0) - 1] = leak;
    for (let i = 0; i < resistors.count; i++)
      this.stamp(resistors, i, conductance(values[resistors.offset[i] ?? 0] ?? 0), 0);
    for (let i = 0; i < fuses.count; i++) {
      const o = (fuses.offset[i] ?? 0) + (tripped[i] === 1 ? 2 : 0);
      this.stamp(fuses, i, conductance(values[o] ?? 0), 0);
    }
    for (let i = 0; i < sources.count; i++) {
      const o = sources.offset[i] ?? 0;
      const siemens = conductance(values[o + 1] ?? 0);
      this.stamp(sources, i, siemens, -siemens * (values[o] ?? 0));
    }
    elimination.forward(0, this.linear);
    this.operations += this.earlyCost;
    this.lateG.set(this.nowG);
    this.lateC.set(this.nowC);
    startLines(this.ports, values);
  }

  /** Finds the volts of the early places, which `solve` has no need of, and copies all to `out`, by place. */
  finish(out: Float64Array): void {
    this.elimination.back(0, this.linear);
    out.set(this.elimination.volts);
  }

  /** Puts volts found earlier back. */
  restore(volts: Float64Array): void {
    this.elimination.volts.set(volts);
    this.readPorts();
  }

  /** Ohms between two places on the lines as they stand; falling ones lie flat if they leave no stable circuit. */
  ohmsBetween(a: number, b: number): number {
    if (!this.factor()) {
      this.ports.g.forEach((g, p) => (this.ports.g[p] = Math.max(g, 0)));
      this.factor();
    }
    return this.elimination.ohmsBetween(a, b);
  }

  placeOf(node: number): number {
    return this.elimination.order.place[node] ?? 0;
  }

  private stamp(branches: Branches, i: number, siemens: number, amps: number): void {
    const { g, c } = this.elimination;
    const s = branches.coefficient[i] ?? 0;
    g[s] = (g[s] ?? 0) + siemens;
    c[s] = (c[s] ?? 0) + amps * (branches.sign[i] ?? 1);
  }

  private factor(): boolean {
    const { g, c } = this.elimination;
    const { ports } = this;
    this.nowG.set(this.lateG);
    this.nowC.set(this.lateC);
    const { count, coefficient, sign } = ports;
    for (let p = 0; p < count; p++) {
      const s = coefficient[p] ?? 0;
      g[s] = (g[s] ?? 0) + (ports.g[p] ?? 0);
      c[s] = (c[s] ?? 0) + (ports.c[p] ?? 0) * (sign[p] ?? 1);
    }
    this.operations += this.lateCost;
    return this.elimination.forward(this.linear, this.places);
  }

  /** Volts of the late places and the ports on the lines as they stand. False when those leave no stable circuit. */
  solve(): boolean {
    if (!this.factor()) return false;
    this.elimination.back(this.linear, this.places);
    this.readPorts();
    return true;
  }

  readPorts(): void {
    const { volts } = this.elimination;
    const { ports } = this;
    for (let p = 0; p < ports.count; p++)
      ports.volts[p] = (volts[ports.near[p] ?? 0] ?? 0) - (volts[ports.far[p] ?? 0] ?? 0);
  }
}
