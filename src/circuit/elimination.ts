import type { Order } from './order.ts';

/**
 * The star-mesh rule in typed arrays. A coefficient stands for one branch, from the node eliminated earlier to the
 * later one: it carries g (V_from - V_to) + c amperes. Taking node k away joins each two neighbours i, j by
 * g_i g_j / S siemens and (g_i c_j - c_i g_j) / S amperes, S being the sum of all g at k. While every g is positive
 * nothing is subtracted from S, which keeps full precision from micro-ohms to giga-ohms (Grassmann, Taksar and Heyman
 * 1985 do the same for Markov chains). Currents stay with their branch, so that a floating source keeps its volts.
 */
export class Elimination {
  readonly order: Order;
  /** Siemens and amperes of each coefficient. What joins a node to itself has an index past the end, where nothing is kept. */
  readonly g: Float64Array;
  readonly c: Float64Array;
  /** Volts by place, ground (0 V) last. */
  readonly volts: Float64Array;
  /** 1/S, and the amperes leaving a node at 0 V, when it was taken away. */
  private readonly inverse: Float64Array;
  private readonly surplus: Float64Array;

  constructor(order: Order) {
    const places = order.first.length;
    this.order = order;
    this.g = new Float64Array(order.neighbour.length);
    this.c = new Float64Array(order.neighbour.length);
    this.volts = new Float64Array(places);
    this.inverse = new Float64Array(places);
    this.surplus = new Float64Array(places);
  }

  /** Takes away the places from .. to-1. False at the first S that is not positive: not a stable circuit. */
  forward(from: number, to: number): boolean {
    const { g, c, inverse, surplus } = this;
    const { first, between, firstPair } = this.order;
    let pair = firstPair[from] ?? 0;
    for (let k = from; k < to; k++) {
      const start = first[k] ?? 0;
      const end = first[k + 1] ?? 0;
      let sum = 0;
      let out = 0;
      for (let p = start; p < end; p++) {
        sum += g[p] ?? 0;
        out += c[p] ?? 0;
      }
      if (!(sum > 0)) return false;
      const over = 1 / sum;
      inverse[k] = over;
      surplus[k] = out;
      for (let p = start; p < end; p++) {
        const gp = (g[p] ?? 0) * over;
        const cp = (c[p] ?? 0) * over;
        for (let q = p + 1; q < end; q++) {
          const t = between[pair++] ?? 0;
          const gq = g[q] ?? 0;
          g[t] = (g[t] ?? 0) + gp * gq;
          c[t] = (c[t] ?? 0) + gp * (c[q] ?? 0) - cp * gq;
        }
      }
    }
    return true;
  }

  /** Volts of the places to-1 down to from; the later ones must be known. */
  back(from: number, to: number): void {
    const { g, volts, inverse, surplus } = this;
    const { first, neighbour } = this.order;
    for (let k = to - 1; k >= from; k--) {
      const end = first[k + 1] ?? 0;
      let sum = -(surplus[k] ?? 0);
      for (let p = first[k] ?? 0; p < end; p++) sum += (g[p] ?? 0) * (volts[neighbour[p] ?? 0] ?? 0);
      volts[k] = sum * (inverse[k] ?? 0);
    }
  }

  /** Ohms between two places, sources at rest: the volts that 1 A in at one and out at the other makes. Keeps `volts`. */
  ohmsBetween(a: number, b: number): number {
    const { g, inverse } = this;
    const { first, neighbour } = this.order;
    const x = new Float64Array(first.length);
    x[a] = 1;
    x[b] = -1;
    for (let k = 0; k < x.length; k++) {
      const share = (x[k] ?? 0) * (inverse[k] ?? 0);
      const end = first[k + 1] ?? 0;
      for (let p = first[k] ?? 0; p < end; p++) {
        const j = neighbour[p] ?? 0;
        x[j] = (x[j] ?? 0) + (g[p] ?? 0) * share;
      }
    }
    // Ground, which has no ohms of its own to itself, comes out at 0 V.
    for (let k = x.length; k-- > 0;) {
      const end = first[k + 1] ?? 0;
      let sum = x[k] ?? 0;
      for (let p = first[k] ?? 0; p < end; p++) sum += (g[p] ?? 0) * (x[neighbour[p] ?? 0] ?? 0);
      x[k] = sum * (inverse[k] ?? 0);
    }
    return (x[a] ?? 0) - (x[b] ?? 0);
  }

  /** Multiply-adds of taking away the places from .. to-1 and finding their volts. */
  cost(from: number, to: number): number {
    const { first, firstPair } = this.order;
    const pairs = (firstPair[to] ?? 0) - (firstPair[from] ?? 0);
    const coefficients = (first[to] ?? 0) - (first[from] ?? 0);
    return 3 * (pairs + coefficients);
  }
}
