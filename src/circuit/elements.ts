/** What each element does at given volts. `x` is the value array and `o` where the element's own values start in it. */

/** Ohms below this count as this: a perfect joint. */
const leastOhms = 1e-6;
/** A load whose cut-off is lower counts as having this one, so that its current stays finite. */
const leastCutoff = 1e-3;
/** Volts of the Boltzmann constant times 300.15 K over the elementary charge (CODATA 2018). */
const thermalVolts = 8.617333262e-5 * 300.15;
/** Past this many thermal volts a diode's curve rises no more, so that it stays finite: no circuit gets there, an iteration might. */
const steepest = 200;

/** Siemens of a resistance; Infinity is open. */
export function conductance(ohms: number): number {
  return 1 / Math.max(ohms, leastOhms);
}

/** The straight pieces a supply is made of, by falling volts. */
export const supplyPiece = { off: 0, regulated: 1, limited: 2, raw: 3 } as const;

/** The piece of a supply that rules at `v` volts. */
export function supplyPieceAt(x: Float64Array, o: number, v: number): number {
  const regulated = ((x[o] ?? 0) - v) * conductance(x[o + 1] ?? 0);
  const limit = x[o + 2] ?? 0;
  const raw = rawAmps(x, o, v);
  const least = Math.min(regulated, limit, raw);
  if (least <= 0) return supplyPiece.off;
  if (least === regulated) return supplyPiece.regulated;
  return least === limit ? supplyPiece.limited : supplyPiece.raw;
}

/** The piece by which a supply goes off: the one whose volts end first. */
export function supplyTopPiece(x: Float64Array, o: number): number {
  return (x[o] ?? 0) <= (x[o + 3] ?? 0) ? supplyPiece.regulated : supplyPiece.raw;
}

/** Amperes out of the supply's `a` at `v` volts across it. */
export function supplyAmps(x: Float64Array, o: number, v: number): number {
  const regulated = ((x[o] ?? 0) - v) * conductance(x[o + 1] ?? 0);
  return Math.max(0, Math.min(regulated, x[o + 2] ?? 0, rawAmps(x, o, v)));
}

/** Siemens of a piece. */
export function supplySlope(x: Float64Array, o: number, piece: number): number {
  if (piece === supplyPiece.regulated) return conductance(x[o + 1] ?? 0);
  return piece === supplyPiece.raw ? conductance(x[o + 4] ?? 0) : 0;
}

/** Amperes that a piece, made endless, would give at 0 V. */
export function supplyShortAmps(x: Float64Array, o: number, piece: number): number {
  if (piece === supplyPiece.regulated) return (x[o] ?? 0) * conductance(x[o + 1] ?? 0);
  if (piece === supplyPiece.raw) return (x[o + 3] ?? 0) * conductance(x[o + 4] ?? 0);
  return piece === supplyPiece.limited ? (x[o + 2] ?? 0) : 0;
}

function rawAmps(x: Float64Array, o: number, v: number): number {
  const volts = x[o + 3] ?? 0;
  return volts === Infinity ? Infinity : (volts - v) * conductance(x[o + 4] ?? 0);
}

/** Amperes through a diode at `v` volts, anode against cathode. */
export function diodeAmps(x: Float64Array, o: number, v: number): number {
  return (x[o] ?? 0) * Math.expm1(Math.min(v / (thermalVolts * (x[o + 1] ?? 1)), steepest));
}

/** Siemens of a diode at `v` volts. */
export function diodeSlope(x: Float64Array, o: number, v: number): number {
  const emission = thermalVolts * (x[o + 1] ?? 1);
  return ((x[o] ?? 0) / emission) * Math.exp(Math.min(v / emission, steepest));
}

/** Volts at which a diode's curve rises by an ampere a volt, well up its bend: above them an iteration steps by its amperes. */
export function diodeKnee(x: Float64Array, o: number): number {
  const emission = thermalVolts * (x[o + 1] ?? 1);
  return emission * Math.log(emission / (x[o] ?? 0));
}

/**
 * Where to take a diode's next tangent when the last, taken at `from` volts, led to `to` volts. Upwards the junction
 * limiting of SPICE 2; downwards, where a step would else gain no more than a thermal voltage, the volts at which the
 * diode has the amperes of the tangent, or 0 V when those flow backwards.
 */
export function diodeLimited(x: Float64Array, o: number, from: number, to: number): number {
  const emission = thermalVolts * (x[o + 1] ?? 1);
  const rise = (to - from) / emission;
  if (rise < -0.5 && from > 0) return rise > -1 ? from + emission * Math.log1p(rise) : Math.min(to, 0);
  const knee = diodeKnee(x, o);
  if (to <= knee || rise <= 2) return to;
  return from <= 0 ? emission * Math.log(to / emission) : from + emission * Math.log1p(rise);
}

/** Watts, lowest running volts and starting volts of a load. */
export const loadWatts = (x: Float64Array, o: number): number => x[o] ?? 0;
export const loadCutoff = (x: Float64Array, o: number): number => Math.max(x[o + 1] ?? 0, leastCutoff);
export const loadStart = (x: Float64Array, o: number): number => Math.max(x[o + 2] ?? 0, loadCutoff(x, o));

/**
 * A cycling load at the moment it collapses. Its own capacitor gives what the line cannot, so the line sees its
 * terminals held at the cut-off volts, and gives watts / cutoff amperes at the most.
 */
export function collapseAmps(x: Float64Array, o: number, v: number): number {
  const ramp = (v - loadCutoff(x, o)) * collapseSlope;
  return Math.max(0, Math.min(ramp, loadWatts(x, o) / loadCutoff(x, o)));
}

/** Siemens by which a collapsing load holds its volts. */
export const collapseSlope = 1e3;
