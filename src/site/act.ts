import type { Point, Site } from './site.ts';

export const actKinds = [
  'confirm-site',
  'mains-off',
  'mains-on',
  'battery-lift',
  'battery-connect',
  'others-off',
  'others-on',
  'lift',
  'land',
  'join',
  'unjoin',
  'meter-in',
  'meter-out',
  'send',
  'rest',
  'on-test',
  'off-test',
  'prove-meter',
  'prove-dead-dc',
  'prove-dead-ac',
  'prove-meter-again',
  'meter-off-ohms',
] as const;
export type ActKind = (typeof actKinds)[number];

/** An act as a journal names it, and its points; undefined where there is no such act. */
export function actOf(done: string): Pick<Act, 'kind' | 'what' | 'and'> | undefined {
  const [name, what, and] = done.split(' ');
  const kind = actKinds.find((each) => each === name);
  return kind && { kind, what, and };
}

/** Whether an act is answered by a reading: its pair has to be near zero. */
export function takesReading(kind: string): boolean {
  return kind === 'prove-dead-dc' || kind === 'prove-dead-ac';
}

/** Whether what was said says that an act or a repair is done. */
export function saysDone(said: string): boolean {
  return /^\W*(done|d|ok|okay|yes|y|ready|understood|good)\W*$/i.test(said);
}

/** One act at the site, and the state it leads to. `what` and `and` are the points it concerns. */
export interface Act {
  readonly kind: ActKind;
  readonly what?: Point;
  readonly and?: Point;
  readonly site: Site;
  /** Only on a site proved dead. */
  readonly dead: boolean;
}

/** What is known of the site beside its state: proofs hold only until something changes. */
export interface Standing {
  readonly site: Site;
  /** False after a resume: the real site may have been changed. */
  readonly known: boolean;
  /** Proofs taken since the power went, by proofOf(). */
  readonly proved: readonly string[];
}

/** What is to be reached. `ohms`: the pair that an ohms reading will touch, to be proved dead just before. */
export interface Target {
  readonly site: Site;
  readonly ohms?: readonly [Point, Point];
  /** Hands will be on the conductors: the site must be proved dead. */
  readonly dead?: boolean;
}

export interface Ground {
  /** The supply's own terminals, where the site is proved dead. */
  readonly proveDeadAt: readonly [Point, Point];
  /** A plus conductor may be lifted first and landed last with the rest landed; no other may while anything is fed. */
  isPlus(point: Point): boolean;
}
