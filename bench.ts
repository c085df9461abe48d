import type { OperatingPoint } from '../../circuit/netlist.ts';
import type { Prediction } from '../../diagnosis/model.ts';
import type { SiteCircuit } from './site-circuit.ts';
import type { Drawn } from './values.ts';

/** One draw with the faults still in it, and what has been solved of it. */
export class Bench {
  private readonly points: OperatingPoint[] = [];
  private readonly ripples: OperatingPoint[] = [];
  private readonly predictions: Prediction[] = [];

  constructor(
    readonly drawn: Drawn,
    /** Indexes of the model's faults. */
    readonly faults: readonly number[],
  ) {}

  /** The steady state at a state of the site, solved once. */
  point({ index, dc }: SiteCircuit): OperatingPoint {
    return (this.points[index] ??= dc.solve(this.drawn, undefined));
  }

  /** AC volts (RMS) at that state, solved once. */
  ripple(circuit: SiteCircuit): OperatingPoint {
    return (this.ripples[circuit.index] ??= circuit.ac.solve(this.drawn, this.point(circuit)));
  }

  predict({ index, predict }: Plan): Prediction {
    return (this.predictions[index] ??= predict(this));
  }
}

/** How one question is foretold, worked out once; `index` is its place among the model's. */
export interface Plan {
  readonly index: number;
  readonly predict: (bench: Bench) => Prediction;
}
