import { conductance, loadCutoff, loadStart, loadWatts } from './elements.ts';
import { setCollapsing, setLoad } from './lines.ts';
import type { LoadState } from './netlist.ts';
import { Balance } from './balance.ts';
import type { Network } from './network.ts';

/** Amperes by which a load's line may miss its watts. */
const enough = 1e-10;
const mostSteps = 60;
/** No low-voltage circuit shows this; it keeps the search finite where loads in series push each other up. */
const mostVolts = 1e4;

const off = 0;
const on = 1;
const cycling = 2;
export const loadStates: readonly LoadState[] = ['off', 'on', 'cycling'];

/**
 * Finds which loads run, which cycle and which fuses trip. The rule, for loads:
 * 1. All that find their cut-off volts on the unloaded circuit are on. While the loads that are on have no steady point
 *    at which each has its cut-off volts, the one furthest below its own goes off, and stays out of this step.
 * 2. Of those that are off and see their starting volts, the one with most to spare tries to start. It stays on if all
 *    that are on then have a steady point. Each tries once.
 * 3. One still off that sees its starting volts is cycling. At the low end of the cycle all of these hold their
 *    cut-off volts (see collapseAmps). A load that cannot stay on there goes off, and step 3 is done again.
 * For fuses: of the untripped ones that carry more than they may in the circuit so settled (its high end: the bursts of
 * a cycling load are too short to heat one), the one furthest above trips, and the loads settle anew.
 * It ends: steps 1 and 3 only ever turn loads off, step 2 tries each once, fuses only trip.
 */
export class Settling {
  readonly network: Network;
  private readonly balance: Balance;
  /** By load port: index into loadStates. */
  readonly state: Float64Array;
  /** By fuse: 1 once it has tripped. */
  readonly tripped: Float64Array;
  /** Volts by place. */
  readonly high: Float64Array;
  readonly low: Float64Array;
  private readonly tried: Uint8Array;
  /** Volts of each load with all of them off, and the point from which a steady one is sought. */
  private readonly open: Float64Array;
  private readonly at: Float64Array;
  private values: Float64Array = new Float64Array(0);

  constructor(network: Network, nodes: number) {
    const loads = network.ports.supplies;
    this.network = network;
    this.balance = new Balance(network);
    this.state = new Float64Array(loads);
    this.tried = new Uint8Array(loads);
    this.open = new Float64Array(loads);
    this.at = new Float64Array(loads);
    this.tripped = new Float64Array(network.fuses.count);
    this.high = new Float64Array(nodes);
    this.low = new Float64Array(nodes);
  }

  /** Settles a set of values into `state`, `tripped`, `high` and `low`. True when something cycles. */
  settle(values: Float64Array): boolean {
    this.values = values;
    this.tripped.fill(0);
    for (;;) {
      this.network.feed(values, this.tripped);
      this.startAll();
      this.shed();
      this.restart();
      const cycles = this.cycle();
      if (!this.tripOne()) return cycles;
    }
  }

  /** Before step 1: what the circuit shows unloaded, and who can be on there. */
  private startAll(): void {
    const { network, balance, values, state, open } = this;
    const { ports } = network;
    balance.solve();
    for (let p = 0; p < state.length; p++) {
      const o = ports.offset[p] ?? 0;
      const v = ports.volts[p] ?? 0;
      open[p] = v;
      state[p] = loadWatts(values, o) > 0 && v >= loadCutoff(values, o) ? on : off;
    }
  }

  /** Step 1. Leaves the steady point of the loads still on. */
  private shed(): void {
    for (let p = this.steady(this.open); p >= 0; p = this.steady(this.open)) this.state[p] = off;
  }

  /** Step 2. */
  private restart(): void {
    this.tried.fill(0);
    for (let p = this.readiest(); p >= 0; p = this.readiest()) {
      this.tried[p] = 1;
      this.state[p] = on;
      if (this.steady(this.open) < 0) continue;
      this.state[p] = off;
      this.shed();
    }
  }

  /** Step 3. */
  private cycle(): boolean {
    const { network, state, at } = this;
    for (;;) {
      network.finish(this.high);
      let cycles = false;
      for (let p = 0; p < state.length; p++) {
        at[p] = network.ports.volts[p] ?? 0;
        if (state[p] !== off || !(this.headroom(p) >= 0)) continue;
        state[p] = cycling;
        network.collapsing[p] = 1;
        setCollapsing(network.ports, this.values, p);
        cycles = true;
      }
      if (!cycles) return false;
      const dragged = this.steady(at);
      network.finish(this.low);
      network.collapsing.fill(0);
      if (dragged < 0) return true;
      state[dragged] = off;
      for (let p = 0; p < state.length; p++) if (state[p] === cycling) state[p] = off;
      this.shed();
    }
  }

  /** The load that is off, has not tried yet and has most volts above its start, or -1. */
  private readiest(): number {
    let best = -1;
    let most = 0;
    for (let p = 0; p < this.state.length; p++) {
      const spare = this.state[p] === off && this.tried[p] === 0 ? this.headroom(p) : -1;
      if (spare >= 0 && (best < 0 || spare > most)) {
        best = p;
        most = spare;
      }
    }
    return best;
  }

  /** Volts a load sees above its start; NaN where there is no load. */
  private headroom(p: number): number {
    const o = this.network.ports.offset[p] ?? 0;
    return loadWatts(this.values, o) > 0
      ? (this.network.ports.volts[p] ?? 0) - loadStart(this.values, o)
      : NaN;
  }

  /**
   * The high steady point of the loads that are on, sought from `from` volts down. A tangent to watts/volts lies below
   * it everywhere, so each step lands at or above the steady point, and a load found under its cut-off there has none.
   * Where the tangents leave no stable circuit, a step with the amperes held is taken instead: that too lands above.
   * @returns the load that collapses first, or -1
   */
  private steady(from: Float64Array): number {
    const { network, balance, state, at } = this;
    if (at !== from) at.set(from);
    for (let step = 0; step < mostSteps; step++) {
      this.drawFrom(at, true);
      if (!balance.solve()) {
        this.drawFrom(at, false);
        balance.solve();
      }
      const lowest = this.lowest();
      if (lowest < 0) return -1;
      if (this.margin(lowest) < 0) return lowest;
      if (this.onWatts()) return -1;
      for (let p = 0; p < state.length; p++) at[p] = network.ports.volts[p] ?? 0;
    }
    return this.lowest();
  }

  private drawFrom(at: Float64Array, tangent: boolean): void {
    const { network, state, values } = this;
    for (let p = 0; p < state.length; p++) {
      if (network.collapsing[p] === 1) continue;
      const o = network.ports.offset[p] ?? 0;
      const watts = state[p] === on ? loadWatts(values, o) : 0;
      const v = Math.min(Math.max(at[p] ?? 0, loadCutoff(values, o)), mostVolts);
      setLoad(network.ports, p, watts, v, tangent);
    }
  }

  /** Whether the lines of all loads that are on give their watts. */
  private onWatts(): boolean {
    const { ports } = this.network;
    for (let p = 0; p < this.state.length; p++) {
      if (this.state[p] !== on) continue;
      const v = ports.volts[p] ?? 0;
      const watts = loadWatts(this.values, ports.offset[p] ?? 0);
      if (!(Math.abs(watts / v - (ports.g[p] ?? 0) * v - (ports.c[p] ?? 0)) <= enough)) return false;
    }
    return true;
  }

  /** Of the loads that are on, the one with the least volts above its cut-off, or -1. */
  private lowest(): number {
    let lowest = -1;
    for (let p = 0; p < this.state.length; p++)
      if (this.state[p] === on && (lowest < 0 || this.margin(p) < this.margin(lowest))) lowest = p;
    return lowest;
  }

  private margin(p: number): number {
    const { ports } = this.network;
    return (ports.volts[p] ?? 0) - loadCutoff(this.values, ports.offset[p] ?? 0);
  }

  private tripOne(): boolean {
    const { fuses } = this.network;
    let worst = -1;
    let most = 1;
    for (let i = 0; i < fuses.count; i++) {
      const o = fuses.offset[i] ?? 0;
      const volts = (this.high[fuses.near[i] ?? 0] ?? 0) - (this.high[fuses.far[i] ?? 0] ?? 0);
      const excess = (Math.abs(volts) * conductance(this.values[o] ?? 0)) / (this.values[o + 1] ?? Infinity);
      if (this.tripped[i] === 0 && excess > most) {
        worst = i;
        most = excess;
      }
    }
    if (worst >= 0) this.tripped[worst] = 1;
    return worst >= 0;
  }
}
