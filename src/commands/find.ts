import { readKnowledge } from '../knowledge/compiled.ts';
import { printable } from '../wording/printable.ts';
import { findFlows } from '../knowledge/find.ts';

/** Says which flows the words may mean, best first. 1 when none does. */
export async function findCommand(words: string[], { json }: { json?: boolean }): Promise<number> {
  const { knowledge } = await readKnowledge();
  const found = findFlows(knowledge, words.join(' '));
  if (json) console.log(JSON.stringify(found.map(({ flow, score }) => ({ flow: flow.id, score }))));
  else if (found.length === 0)
    console.log(`No flow is about "${printable(words.join(' '))}". Try other words for what is wrong.`);
  else found.forEach(({ flow: { id, title } }) => console.log(`${id}: ${title}`));
  return found.length === 0 ? 1 : 0;
}
