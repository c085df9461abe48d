import type { Question } from '../../diagnosis/model.ts';
import type { Check, FactCheck, ReadingCheck } from '../../knowledge/schema/check.ts';
import type { Circuit } from '../../knowledge/schema/circuit.ts';
import type { Fault } from '../../knowledge/schema/fault.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { siteFor, siteKey } from '../../site/state.ts';
import { rangeOf } from './parameters.ts';

/** Volts when a terminal says nothing of its own. */
const anyVolts = [-16, 16] as const;

/** The question that a check asks, under a name that is the same in every flow. */
export function questionOf(check: Check, knowledge: Knowledge, circuit: Circuit, faults: readonly Fault[]): Question {
  const site = siteKey(siteFor(check.site, false));
  switch (check.kind) {
    case 'reading': {
      const { quantity, red, black, take } = check;
      return { key: `${quantity} ${red} ${black} ${take} | ${site}`, answers: 'value', span: spanOf(check, knowledge) };
    }
    case 'observation':
    case 'entry': {
      const lamp = check.kind === 'observation' && check.shows.rule === 'lamp';
      return { key: lamp ? `look ${check.of} | ${site}` : `look ${check.id}`, answers: check.choices.map(({ id }) => id) };
    }
    case 'fact':
      return factQuestion(check, circuit, faults);
  }
}

function factQuestion({ parameter, answer }: FactCheck, circuit: Circuit, faults: readonly Fault[]): Question {
  const key = `fact ${parameter}`;
  if (answer.kind === 'choice') return { key, answers: answer.choices.map(({ id }) => id) };
  return { key, answers: 'value', span: rangeOf(parameter, circuit, faults) };
}

/** V, A or ohm that a person could read at a pair at all. Common practice, no source. */
function spanOf({ quantity, red, black }: ReadingCheck, { terminals }: Knowledge): readonly [number, number] {
  switch (quantity) {
    case 'dc-amps':
      return [0, 3];
    case 'ohms':
      return [0, 1e4];
    case 'ac-volts':
      return [0, 25];
    case 'dc-volts': {
      const bounds = [red, black].map((point) => terminals[point]?.plausible ?? anyVolts);
      return [Math.min(...bounds.map(([low]) => low)), Math.max(...bounds.map(([, high]) => high))];
    }
  }
}
