import type { ElementKind, LoadState } from '../../src/circuit/netlist.ts';

/** kT/q at 300.15 K: the Boltzmann constant over the elementary charge, CODATA 2018. */
const thermalVolts = (1.380649e-23 * 300.15) / 1.602176634e-19;
/** Siemens by which a load that collapses holds its cut-off volts. */
const holding = 1e3;

/** In what state an element is; a cycling load is seen at the moment of its collapse. */
export interface Standing {
  readonly load: LoadState;
  readonly tripped: boolean;
}

/** Amperes of an element at `v` volts, written from its definition: out of `a` for sources and supplies, else in at `a`. */
export function ampsAt(kind: ElementKind, x: Float64Array, v: number, standing: Standing): number {
  const [first = NaN, second = NaN, third = NaN] = x;
  switch (kind) {
    case 'resistor':
      return v / Math.max(first, 1e-6);
    case 'source':
      return (first - v) / second;
    case 'supply':
      return Math.max(0, Math.min(...piecesAt(x, v)));
    case 'load':
      if (standing.load === 'on') return first / v;
      return standing.load === 'off' ? 0 : Math.min(Math.max(0, holding * (v - second)), first / second);
    case 'diode':
      return first * Math.expm1(v / (second * thermalVolts));
    case 'fuse':
      return v / (standing.tripped ? third : first);
  }
}

/** Amperes in at `a` that one volt more across an element brings; none where a supply is at a kink of its curve. */
export function siemensAt(
  kind: ElementKind,
  x: Float64Array,
  v: number,
  standing: Standing,
): number | undefined {
  const [first = NaN, second = NaN, third = NaN, , fifth = NaN] = x;
  switch (kind) {
    case 'resistor':
      return 1 / Math.max(first, 1e-6);
    case 'source':
      return 1 / second;
    case 'supply': {
      const pieces = [0, ...piecesAt(x, v)];
      const amps = ampsAt(kind, x, v, standing);
      const meeting = [...pieces.keys()].filter((i) => Math.abs((pieces[i] ?? NaN) - amps) < 1e-6);
      return meeting.length > 1 ? undefined : [0, 1 / second, 0, 1 / fifth][meeting[0] ?? NaN];
    }
    case 'load':
      return standing.load === 'on' ? -first / v ** 2 : 0;
    case 'diode':
      return (ampsAt(kind, x, v, standing) + first) / (second * thermalVolts);
    case 'fuse':
      return 1 / (standing.tripped ? third : first);
  }
}

/** What the regulator, its limit and the unregulated volts behind it would each give. */
function piecesAt(
  [volts = NaN, ohms = NaN, limit = NaN, rawVolts = NaN, rawOhms = NaN]: Float64Array,
  v: number,
) {
  return [(volts - v) / ohms, limit, rawVolts === Infinity ? Infinity : (rawVolts - v) / rawOhms];
}
