import type { Check } from '../knowledge/schema/check.ts';
import type { Answer } from './events.ts';

/** An answer as the diagnosis counts it: a number, Infinity for over-range, or the index of the choice. */
export function numberOf(check: Check, value: Answer): number {
  if (value.kind === 'number') return value.value === 'OL' ? Infinity : value.value;
  const choices =
    'choices' in check
      ? check.choices
      : check.kind === 'fact' && check.answer.kind === 'choice'
        ? check.answer.choices
        : [];
  const index = placeOf(choices, value);
  if (index < 0) throw new RangeError(`"${JSON.stringify(value)}" answers nothing that "${check.id}" offers`);
  return index;
}

/** The place of an answer among the choices, -1 where it has none. An entry stands for its class, else for `other`. */
export function placeOf(choices: readonly { id: string }[], value: Answer): number {
  if (value.kind !== 'choice' && value.kind !== 'entry') return -1;
  const place = choices.findIndex(({ id }) => id === (value.kind === 'choice' ? value.id : value.class));
  return place < 0 && value.kind === 'entry' ? choices.findIndex(({ id }) => id === 'other') : place;
}
