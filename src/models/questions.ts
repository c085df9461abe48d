import type { Question } from '../diagnosis/model.ts';
import type { Check, FactCheck, ReadingCheck } from '../knowledge/schema/check.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { siteFor, siteKey } from '../site/state.ts';
import { sizesOf } from './parameters.ts';

/** What a check asks, as the diagnosis knows it: equal keys are the same question. */
export function questionOf(check: Check, circuit: Circuit, knowledge: Knowledge): Question {
  const site = siteKey(siteFor(check.site, false));
  switch (check.kind) {
    case 'reading': {
      const { quantity, red, black, take, by } = check;
      const key = `${quantity} ${red} ${black} ${take}${by === 'probes' ? '' : ` ${by}`} | ${site}`;
      return { key, answers: 'value', span: spanOf(check, knowledge) };
    }
    case 'observation':
    case 'entry': {
      const key =
        check.shows.rule === 'lamp' && check.kind === 'observation'
          ? `look ${check.of} | ${site}`
          : `look ${check.id}`;
      return { key, answers: check.choices.map(({ id }) => id) };
    }
    case 'fact':
      return factQuestion(check, circuit);
  }
}

function factQuestion(check: FactCheck, circuit: Circuit): Question {
  const key = `fact ${check.parameter}`;
  const { answer } = check;
  if (answer.kind === 'choice') return { key, answers: answer.choices.map(({ id }) => id) };
  if (answer.kind === 'size') {
    const sizes = sizesOf(circuit, check.parameter);
    return { key, answers: 'value', span: [sizes[0] ?? 0.1, sizes.at(-1) ?? 2] };
  }
  const spread = circuit.parameters[check.parameter];
  return {
    key,
    answers: 'value',
    span: spread && 'range' in spread ? [spread.range[0], 5 * spread.range[1]] : [0, 1000],
  };
}

/** What a person could read at two points at all. */
function spanOf({ quantity, red, black }: ReadingCheck, { terminals }: Knowledge): readonly [number, number] {
  if (quantity === 'dc-amps') return [0, 3];
  if (quantity === 'ohms') return [0, 1e4];
  const ends = [terminals[red], terminals[black]].flatMap((terminal) => terminal?.plausible ?? []);
  const high = ends.length > 0 ? Math.max(...ends) : 16;
  return quantity === 'ac-volts'
    ? [0, Math.max(high, 3)]
    : [ends.length > 0 ? Math.min(...ends, -1) : -1, high];
}
