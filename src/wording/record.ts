import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';

/** One answer. `good`: where a reading would lie on a good site; `taken`: a proof a little outside that was taken all the same. */
interface ToldLine {
  readonly step: string;
  readonly said: string;
  readonly proof: boolean;
  readonly taken?: boolean | undefined;
  readonly good: string | undefined;
}

/** What of a session goes to the office. */
export interface Recorded {
  readonly told: readonly ToldLine[];
  readonly repaired: readonly string[];
  /** What was found, in words: the faults behind each repair that was decided on, with how sure that was. */
  readonly found: readonly string[];
  readonly verdict: readonly string[];
  readonly notes: readonly string[];
  /** How the site stands, in words. */
  readonly ledger: readonly string[];
  readonly ending: string | null;
}

/** The record left for the office: what was reported, read, done and proved, and how the site stands. */
export function recordWords(knowledge: Knowledge, flow: Flow, recorded: Recorded): string[] {
  const line = ({ step, said, proof, taken, good }: ToldLine): string => {
    const title = knowledge.checks[step]?.title ?? knowledge.brief[step]?.ask ?? step;
    const asked = title.endsWith('?') ? title : `${title}:`;
    const marks = [
      ...(good === undefined ? [] : [`good: ${good}`]),
      ...(taken ? ['a little outside, the same twice, taken as proved'] : []),
    ];
    return `- ${proof ? 'proof, ' : ''}${asked} ${said}${marks.length > 0 ? ` (${marks.join('; ')})` : ''}`;
  };
  const { told, repaired, found, verdict, notes, ledger, ending } = recorded;
  return [
    `Record: ${flow.title}`,
    ...told.map(line),
    ...[...new Set(found)].map((text) => `- found: ${text}`),
    ...verdict.map((text) => `- ${text}`),
    ...repaired.map((id) => `- done: ${knowledge.repairs[id]?.title ?? id}`),
    ...notes.map((text) => `- note: ${text}`),
    `- site ${ending === null ? 'now' : 'at the end'}: ${ledger.join(', ')}`,
    ...(ending === null ? [] : [`- ending: ${ending}`]),
  ];
}
