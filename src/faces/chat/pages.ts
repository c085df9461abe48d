import type { Prompt } from '../../dialogue/messages.ts';
import { choosesByNumber } from '../text/prompt.ts';

/** The number keys of one hand. */
const most = 9;
/** Of a longer list so many to a page; one more turns it. */
const perPage = most - 1;

/** The choice that turns the page. */
export const turn = 'turn-the-page';

/** Whether a list of choices is too long for one key each. */
export function hasPages(prompt: Prompt): boolean {
  return choosesByNumber(prompt) && (prompt.choices?.length ?? 0) > most;
}

/** The prompt with what one page of its list shows; whole where it needs no pages. Pages count from 0. */
export function onPage(prompt: Prompt, page: number): Prompt {
  const { choices } = prompt;
  if (!choices || !hasPages(prompt)) return prompt;
  const shown = choices.slice(page * perPage, (page + 1) * perPage);
  const label = pageAfter(prompt, page) === 0 ? 'Back to the first of them' : 'More of them';
  return { ...prompt, choices: [...shown, { id: turn, label }] };
}

/** The page that follows; the first one after the last. */
export function pageAfter({ choices = [] }: Prompt, page: number): number {
  return (page + 1) * perPage < choices.length ? page + 1 : 0;
}
