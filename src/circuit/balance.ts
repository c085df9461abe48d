import { collapseAmps, diodeAmps, supplyAmps } from './elements.ts';
import { followLines } from './lines.ts';
import type { Network } from './network.ts';

/** Steps to try at full length, and then shortened ones: nearly all circuits that need these settle within 40. */
const freeSteps = 20;
const shortSteps = 100;
/** After so many steps, volts so far below 0 at a load say that nothing can give the amperes it is held to. */
const overdrawnSteps = 6;
const overdrawnVolts = -1e6;

/** Brings supplies, diodes and collapsing loads onto their characteristics by Newton's method; loads follow the caller's lines. */
export class Balance {
  private readonly network: Network;
  /** Volts by place from which a shortened step starts. */
  private readonly origin: Float64Array;

  constructor(network: Network) {
    this.network = network;
    this.origin = new Float64Array(network.places + 1);
  }

  /**
   * Solves the circuit. Where the loads' lines ask for more than there is, volts far below zero.
   * @returns false when there is no stable point; never when no load's line falls (g >= 0)
   */
  solve(): boolean {
    const { network } = this;
    for (let step = 0; step < freeSteps; step++) {
      if (!network.solve()) return false;
      if (this.follow(true)) return true;
      if (step >= overdrawnSteps && this.overdrawn()) return true;
    }
    const { ports } = network;
    for (let p = 0; p < ports.supplies; p++) if ((ports.g[p] ?? 0) < 0) return false;
    this.descend();
    return true;
  }

  private follow(bounded: boolean): boolean {
    const { ports, values, collapsing } = this.network;
    return followLines(ports, values, collapsing, bounded);
  }

  private overdrawn(): boolean {
    const { ports, collapsing } = this.network;
    for (let p = 0; p < ports.supplies; p++)
      if (collapsing[p] === 0 && (ports.c[p] ?? 0) > 0 && (ports.volts[p] ?? 0) < overdrawnVolts) return true;
    return false;
  }

  /**
   * For when free steps go round in circles. The circuit's content (the sum over branches of the integral of amperes
   * over volts, Millar 1951) is convex when no line falls: a Newton step to its least value along the way always gains.
   * It starts from 0 V everywhere, for the free steps may have led to absurd volts.
   */
  private descend(): void {
    const { network, origin } = this;
    const { volts } = network.elimination;
    origin.fill(0);
    network.restore(origin);
    this.follow(false);
    for (let step = 0; step < shortSteps; step++) {
      network.solve();
      if (this.follow(false)) return;
      const reach = this.reach();
      if (reach < 1) {
        for (let k = 0; k < volts.length; k++) {
          const from = origin[k] ?? 0;
          volts[k] = from + reach * ((volts[k] ?? 0) - from);
        }
        network.readPorts();
        this.follow(false);
      }
      origin.set(volts);
    }
  }

  /** How much of the step from `origin` to the present volts to take, 0 .. 1: where the content stops falling. */
  private reach(): number {
    if (!(this.climb(1) > 0)) return 1;
    let low = 0;
    let high = 1;
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2;
      if (this.climb(middle) > 0) high = middle;
      else low = middle;
    }
    return high;
  }

  /** Slope of the content along the step, at the share t of it. */
  private climb(t: number): number {
    const { origin } = this;
    const { ports, lateG, lateC, lateStart, linear, places } = this.network;
    const { volts, order } = this.network.elimination;
    let slope = 0;
    for (let k = linear; k < places; k++) {
      for (let s = order.first[k] ?? 0; s < (order.first[k + 1] ?? 0); s++) {
        const j = order.neighbour[s] ?? 0;
        const from = (origin[k] ?? 0) - (origin[j] ?? 0);
        const step = (volts[k] ?? 0) - (volts[j] ?? 0) - from;
        slope += ((lateG[s - lateStart] ?? 0) * (from + t * step) + (lateC[s - lateStart] ?? 0)) * step;
      }
    }
    for (let p = 0; p < ports.count; p++) {
      const from = (origin[ports.near[p] ?? 0] ?? 0) - (origin[ports.far[p] ?? 0] ?? 0);
      const step = (ports.volts[p] ?? 0) - from;
      if (step !== 0) slope += this.portAmps(p, from + t * step) * step;
    }
    return slope;
  }

  private portAmps(p: number, v: number): number {
    const { ports, values, collapsing } = this.network;
    const o = ports.offset[p] ?? 0;
    if (p >= ports.diodes) return diodeAmps(values, o, v);
    if (p >= ports.supplies) return -supplyAmps(values, o, v);
    return collapsing[p] === 1 ? collapseAmps(values, o, v) : (ports.c[p] ?? 0);
  }
}
