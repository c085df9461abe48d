/** What a site truly shows of a check: always one answer, or one of some, each as likely as its weight. */
export type Shown = string | Readonly<Record<string, number>>;

/** What a site shows, by check. */
export type Shows = Readonly<Record<string, Shown>>;

/**
 * What sites of a flow show, written by hand from the trade and not from the knowledge's tables: what is good, and under
 * each fault what is not as on a good site. A fault has one form or more, each as often met as the next; a site has one.
 */
export interface Truth {
  readonly good: Shows;
  readonly faults: Readonly<Record<string, readonly Shows[]>>;
  /** Checks of the past, or of what no repair changes: a mended site answers them as before. */
  readonly lasting: readonly string[];
}

/** The first three times in four; the others share what is left. */
export function mostly(usual: string, ...others: readonly string[]): Shown {
  return { [usual]: 3 * others.length, ...either(...others) };
}

/** Each as often as the next. */
export function either(...answers: readonly string[]): Readonly<Record<string, number>> {
  return Object.fromEntries(answers.map((answer) => [answer, 1]));
}
