import type { Size } from './low-supply-ranges.ts';

/** Ohm mm2/m at 20 degC: the international annealed copper standard (IEC 60028:1925). */
const annealedCopper = 1 / 58;
/** Per kelvin (IEC 60028:1925). */
const perKelvin = 0.00393;

/** Ohms of a length of copper: metres one way, degC. */
export function copperOhms(metres: number, size: Size, celsius: number): number {
  return ((annealedCopper * metres) / areaOf(size)) * (1 + perKelvin * (celsius - 20));
}

/** mm2; gauges by the formula of ASTM B258: 0.127 mm times the 39th root of 92 for each gauge under 36. */
export function areaOf(size: Size): number {
  const number = parseFloat(size);
  if (!size.endsWith('AWG')) return number;
  const diameter = 0.127 * 92 ** ((36 - number) / 39);
  return (Math.PI / 4) * diameter ** 2;
}
