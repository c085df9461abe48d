/** Ohm mm2/m of annealed copper at 20 degC: 1/58, the international standard (IEC 60028:1925; NBS Handbook 100). */
const resistivity = 1 / 58;
/** Per kelvin at 20 degC, same sources. */
const coefficient = 0.00393;

/** A conductor: metres one way, mm2, degC, and how many times copper's resistance its metal has (1 = copper, 1.6 copper-clad aluminium). */
export interface Conductor {
  length: number;
  mm2: number;
  celsius: number;
  factor: number;
}

/** Ohms of one conductor, end to end. */
export function conductorOhms({ length, mm2, celsius, factor }: Conductor): number {
  return ((resistivity * length) / mm2) * (1 + coefficient * (celsius - 20)) * factor;
}
