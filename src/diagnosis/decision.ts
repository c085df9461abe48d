/**
 * The choice of the next step as a finite problem: weighted cases, each mended by one repair; checks, each with the
 * likelihood of every outcome in every case; and minutes for everything. Nothing here knows circuits or words.
 */
export interface DecisionProblem {
  /** Probability of each case; they need not sum to one, what is missing is "not on the list" and only referral ends it. */
  readonly weights: Float64Array;
  /** Index of the repair that mends each case; -1 when none does. */
  readonly mendedBy: Int32Array;
  readonly checks: readonly DecisionCheck[];
  readonly repairs: readonly DecisionRepair[];
  readonly minutes: Minutes;
}

/** What has a name, and where given a place of its own that settles ties before the name does. */
export interface Named {
  readonly id: string;
  readonly order?: number;
}

/** Whether one goes before another that is as good: by place, then by name. */
export function byPlace(a: Named, b: Named): number {
  return (a.order ?? 0) - (b.order ?? 0) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

export interface DecisionCheck extends Named {
  /** outcomes x cases, row by row: likelihood[outcome * cases + case]. */
  readonly likelihood: Float64Array;
  readonly outcomes: number;
  /** Index of the situation (site state and place) in which it is taken. */
  readonly situation: number;
  readonly minutes: number;
}

export interface DecisionRepair extends Named {
  readonly situation: number;
  /** Minutes of the repair and of its proof. */
  readonly minutes: number;
  /** Chance that it mends its case. */
  readonly success: number;
  /** Minutes lost, beside its own, where it was not the right one; the usual ones where left out. */
  readonly wrong?: number | undefined;
}

export interface Minutes {
  readonly situations: number;
  /** Where the site and the person are now. */
  readonly start: number;
  /** from * situations + to: safe isolation, transitions and walking. */
  readonly move: Float64Array;
  /** From each situation back to in service. */
  readonly restore: Float64Array;
  /** Minutes of a referral, beside putting the site back. */
  readonly refer: number;
  /** Minutes lost by a repair that was not the right one, beside its own, where it names no minutes of its own. */
  readonly wrong: number;
}

export type Choice =
  | { readonly kind: 'check'; readonly index: number; readonly minutes: number }
  | { readonly kind: 'repair'; readonly index: number; readonly minutes: number }
  | { readonly kind: 'refer'; readonly minutes: number };
