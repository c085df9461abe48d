import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';

/** What of a session goes to the office. */
export interface Recorded {
  /** `good`: where a reading would lie on a good site. */
  readonly told: readonly { step: string; said: string; proof: boolean; good: string | undefined }[];
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
  const line = ({ step, said, proof, good }: Recorded['told'][number]): string => {
    const title = knowledge.checks[step]?.title ?? knowledge.brief[step]?.ask ?? step;
    const asked = title.endsWith('?') ? title : `${title}:`;
    return `- ${proof ? 'proof, ' : ''}${asked} ${said}${good === undefined ? '' : ` (good: ${good})`}`;
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
