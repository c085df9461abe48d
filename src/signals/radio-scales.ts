/** A level in dBm: `dbm` is the lower edge of what it can be, `words` the range. */
export interface Figure {
  readonly dbm: number;
  readonly words: string;
}

/** The level of a +CSQ rssi index, 0 to 31: -113 dBm and 2 dB a step (3GPP TS 27.007, 8.5). */
export function csqFigure(index: number): Figure {
  const dbm = -113 + 2 * index;
  if (index === 0) return { dbm, words: `${dbm} dBm or less` };
  return { dbm, words: index === 31 ? `${dbm} dBm or more` : `${dbm} dBm` };
}

/**
 * The level of a reported RSRP index; undefined when it is not on the scale. 4G: 0 to 97, index n is from n - 141 to
 * n - 140 dBm (3GPP TS 36.133, table 9.1.4-1). 5G: n - 157 (3GPP TS 38.133, its ends from memory).
 */
export function rsrpFigure(index: number, newRadio: boolean): Figure | undefined {
  const [offset, last] = newRadio ? [157, 126] : [141, 97];
  if (index < 0 || index > last) return undefined;
  const dbm = index - offset;
  if (index === 0) return { dbm, words: `below ${dbm + 1} dBm` };
  return { dbm, words: index === last ? `${dbm} dBm or more` : `${dbm} to ${dbm + 1} dBm` };
}
