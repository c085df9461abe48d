import type { Answer } from './events.ts';

/** The place of an answer among the choices, -1 where it has none. An entry stands for its class, else for `other`. */
export function placeOf(choices: readonly { id: string }[], value: Answer): number {
  if (value.kind !== 'choice' && value.kind !== 'entry') return -1;
  const place = choices.findIndex(({ id }) => id === (value.kind === 'choice' ? value.id : value.class));
  return place < 0 && value.kind === 'entry' ? choices.findIndex(({ id }) => id === 'other') : place;
}
