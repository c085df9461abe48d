import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { recordWords } from '../wording/record.ts';
import type { Answer } from './events.ts';
import type { Visit } from './visit.ts';

/** What is left for the office: readings, sums, verdict, repair, proof, notes. */
export function recordOf({ knowledge, flow, state, site, sums }: Visit): string {
  const { told, notes, snapshot, found } = state;
  const { repaired, ending } = snapshot.context;
  return recordWords(knowledge, flow, {
    told: told.map(({ step, value, proof }) => ({ step, said: saidWords(knowledge, step, value), proof })),
    repaired,
    found,
    verdict: sums,
    notes,
    site,
    ending,
  }).join('\n');
}

/** An answer as it was said: the typed text, or the label of the choice. */
export function saidWords(knowledge: Knowledge, step: string, value: Answer): string {
  if (value.kind === 'number' || value.kind === 'entry') return value.said;
  if (value.kind !== 'choice') return value.kind === 'unknown' ? 'not known' : 'could not be taken';
  const shown = [knowledge.brief[step], knowledge.checks[step]].flatMap(
    (each): { id: string; label: string }[] =>
      each && 'choices' in each
        ? each.choices
        : each && 'answer' in each && each.answer.kind === 'choice'
          ? each.answer.choices
          : [],
  );
  return shown.find(({ id }) => id === value.id)?.label ?? value.id;
}
