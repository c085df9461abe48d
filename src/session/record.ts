import type { Work } from '../diagnosis/model.ts';
import { bandOf, mendedPredictions } from '../dialogue/bands.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { parseQuantity } from '../quantities/parse.ts';
import { recordWords } from '../wording/record.ts';
import { bandWords } from '../wording/values.ts';
import type { Answer } from './events.ts';
import { quantityOf } from './show.ts';
import type { Visit } from './visit.ts';

/** What is left for the office: readings, sums, verdict, repair, proof, notes. */
export function* recordOf(visit: Visit): Work<string> {
  const { knowledge, flow, state, ledger, sums } = visit;
  const { told, notes, snapshot, found } = state;
  const { repaired, ending } = snapshot.context;
  const good = yield* goodBands(visit);
  return recordWords(knowledge, flow, {
    told: told.map(({ step, value, proof, taken }) => ({
      step,
      taken,
      said: saidWords(knowledge, step, value),
      proof,
      good: good.get(step),
    })),
    repaired,
    found,
    verdict: sums,
    notes,
    ledger,
    ending,
  }).join('\n');
}

/** Where each reading would lie on a good site, as this one is known now, by its check. */
function* goodBands({ knowledge, state, mind }: Visit): Work<ReadonlyMap<string, string>> {
  const { checks } = knowledge;
  const read = [...new Set(state.told.map(({ step }) => step))].filter(
    (id) => checks[id]?.kind === 'reading',
  );
  if (read.length === 0) return new Map();
  const { model, belief } = yield* mind.think({ ...state, told: state.told.filter(({ proof }) => !proof) });
  const foretold = read.filter((id) => model.foretells(id));
  const questions = foretold.map((id) => model.question(id));
  const good = yield* mendedPredictions(belief.suspects, questions);
  return new Map(
    foretold.flatMap((id, i): [string, string][] => {
      const check = checks[id];
      const band = bandOf(good[i] ?? []);
      return check?.kind === 'reading' && band ? [[id, bandWords(band, check.quantity)]] : [];
    }),
  );
}

/** A number as it was typed, with its unit. */
function numberWords(knowledge: Knowledge, step: string, said: string): string {
  const quantity = quantityOf(knowledge, step);
  const parsed = quantity === null ? null : parseQuantity(said, quantity);
  return parsed?.ok ? parsed.understood : said;
}

/** An answer as it was said: the typed text, or the label of the choice. */
export function saidWords(knowledge: Knowledge, step: string, value: Answer): string {
  if (value.kind === 'entry') return value.said;
  if (value.kind === 'number') return numberWords(knowledge, step, value.said);
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
