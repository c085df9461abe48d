/** What is asked for. Base units: V, A, ohm, m, mm2, min; `number` has none. */
export type QuantityKind =
  'dc-volts' | 'ac-volts' | 'dc-amps' | 'ohms' | 'length' | 'size' | 'minutes' | 'number';

/** Which units a person is used to; it bears on lengths and conductor sizes only. */
export type System = 'metric' | 'american';

/** What every part that reads or writes a quantity needs to know of its kind. */
export interface KindFacts {
  /** The unit in which values of this kind are kept. */
  readonly unit: string;
  /** What is asked, inside a sentence: "DC volts". */
  readonly asked: string;
  /** Examples far from what a healthy site shows, so that an error message leads nobody. */
  readonly example: string;
  /** Whether a meter can show OL for it. */
  readonly overRange: boolean;
  readonly negative: boolean;
}

/** Facts of each kind. */
export const kinds: Readonly<Record<QuantityKind, KindFacts>> = {
  'dc-volts': { unit: 'V', asked: 'DC volts', example: '5.2 V', overRange: true, negative: true },
  'ac-volts': { unit: 'V', asked: 'AC volts', example: '9.4 V', overRange: true, negative: false },
  'dc-amps': { unit: 'A', asked: 'DC amps', example: '0.27 A', overRange: true, negative: true },
  ohms: { unit: 'ohm', asked: 'ohms', example: '47 ohm', overRange: true, negative: false },
  length: { unit: 'm', asked: 'a length', example: '60 ft or 18 m', overRange: false, negative: false },
  size: {
    unit: 'mm2',
    asked: 'a conductor size',
    example: '18 AWG or 0.75 mm2',
    overRange: false,
    negative: false,
  },
  minutes: { unit: 'min', asked: 'a time', example: '10 min', overRange: false, negative: false },
  number: { unit: '', asked: 'a plain number', example: '7', overRange: false, negative: true },
};
