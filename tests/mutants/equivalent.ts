import type { Edit } from './edits.ts';
import { inTheCircuit } from './equivalent-circuit.ts';
import { inTheDiagnosis } from './equivalent-diagnosis.ts';

/** Edits that change nothing a person could notice, for one reason; each by file, or by file and function. */
export interface Harmless {
  readonly why: string;
  readonly edits: readonly (readonly [where: string, before: string, after: string])[];
}

/** Why an edit is no mistake, if that is known. */
export function equivalence({ file, within, before, after }: Edit): string | undefined {
  const isThis = ([where, b, a]: Harmless['edits'][number]): boolean =>
    [file, `${file} ${within}`].some((each) => each.endsWith(where)) && b === before && a === after;
  return [...inTheCircuit, ...inTheDiagnosis].find(({ edits }) => edits.some(isThis))?.why;
}
