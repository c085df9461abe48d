import { describe } from '../dialogue/describe.ts';
import { readKnowledge } from '../knowledge/compiled.ts';

/** Prints everything a program must know to play the site: on one line with `json`, else set out for reading. */
export async function describeCommand({ json }: { json?: boolean }): Promise<number> {
  const { knowledge } = await readKnowledge();
  console.log(JSON.stringify(describe(knowledge), null, json ? 0 : 2));
  return 0;
}
