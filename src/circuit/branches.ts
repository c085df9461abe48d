import type { ElementKind, ElementShape } from './netlist.ts';
import type { Order } from './order.ts';

/** Elements of some kinds, as parallel arrays: where each is wired and where its values start. */
export class Branches {
  readonly count: number;
  readonly element: Int32Array;
  readonly offset: Int32Array;
  /** Places of `a` and `b` in the order of elimination. */
  readonly near: Int32Array;
  readonly far: Int32Array;
  /** The coefficient the element adds to, and +1 if that runs from `a` to `b`, -1 if the other way. */
  readonly coefficient: Int32Array;
  readonly sign: Float64Array;

  constructor(
    kinds: readonly ElementKind[],
    shapes: readonly ElementShape[],
    offsets: Int32Array,
    ends: readonly (readonly [number, number])[],
    order: Order,
  ) {
    const chosen = kinds.flatMap((kind) => [...shapes.keys()].filter((e) => shapes[e]?.kind === kind));
    const wired = chosen.map((e) => ends[e] ?? ([0, 0] as const));
    this.count = chosen.length;
    this.element = Int32Array.from(chosen);
    this.offset = Int32Array.from(chosen, (e) => offsets[e] ?? 0);
    this.near = Int32Array.from(wired, ([a]) => order.place[a] ?? 0);
    this.far = Int32Array.from(wired, ([, b]) => order.place[b] ?? 0);
    this.coefficient = Int32Array.from(wired, ([a, b]) => order.coefficient(a, b));
    this.sign = Float64Array.from(wired, (_, i) => ((this.near[i] ?? 0) < (this.far[i] ?? 0) ? 1 : -1));
  }
}

/**
 * Non-linear elements, each standing for the moment as a straight line: g v + c amperes from `a` to `b` at v volts.
 * Loads come first, then supplies, then diodes.
 */
export class Ports extends Branches {
  readonly supplies: number;
  readonly diodes: number;
  readonly g: Float64Array;
  readonly c: Float64Array;
  readonly volts: Float64Array;
  /** Volts at which a diode's line touches its curve. */
  readonly touch: Float64Array;
  /** Which piece of its characteristic the line of a supply or a collapsing load lies on. */
  readonly piece: Int8Array;

  constructor(
    shapes: readonly ElementShape[],
    offsets: Int32Array,
    ends: readonly (readonly [number, number])[],
    order: Order,
  ) {
    super(['load', 'supply', 'diode'], shapes, offsets, ends, order);
    const of = (kind: ElementKind): number => shapes.filter((shape) => shape.kind === kind).length;
    this.supplies = of('load');
    this.diodes = this.supplies + of('supply');
    this.g = new Float64Array(this.count);
    this.c = new Float64Array(this.count);
    this.volts = new Float64Array(this.count);
    this.touch = new Float64Array(this.count);
    this.piece = new Int8Array(this.count);
  }
}
