import type { Message, Prompt } from '../../src/dialogue/messages.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin, quick } from './player.ts';

export type Session = ReturnType<typeof begin>;

/** Called at every prompt, before it is answered, with what came since the answer before. */
type At = (session: Session, prompt: Prompt, since: readonly Message[]) => Promise<void> | void;

/**
 * A call from a technician with a meter about a site with these faults: what is done is told in the words that are
 * listened for. With `order`, these checks are asked one after
 * the other, and not what is worth most; it goes on until `last` is asked.
 */
export async function phoneVisit(
  faults: string[],
  at: At,
  { order, last }: { order?: string[]; last?: string } = {},
): Promise<Session> {
  const from = order ? ordered(quick, order) : smallWith([...faults, ...others], joints);
  const strategy = order ? 'fixed' : 'best';
  const session = begin(1, undefined, from, usual, { seat: 'phone', strategy });
  const answer = answering(faults, from);
  let since = await session.open();
  for (let turn = 0; turn < 120 && !session.conversation.ended; turn++) {
    const prompt = session.prompt();
    await at(session, prompt, since);
    if (prompt.step === last) break;
    const said = prompt.step === 'call-back' ? '555 0142' : answer(prompt);
    since = await session.send({ answer: prompt.kind === 'confirm' ? prompt.listen : said });
  }
  return session;
}

const usual = 'low-supply';

/** What else could be wrong where the order of the checks does not matter, and where a joint shows itself. */
const others = ['mains-absent', 'joint-plus', 'unit-dead'];
const joints = ['splice-minus-joint', 'panel-minus-joint', 'unit-minus-joint'];

function ordered(knowledge: Knowledge, order: string[]): Knowledge {
  const flow = knowledge.flows[usual];
  if (!flow) throw new Error(`no flow ${usual}`);
  const checks = [...order, ...flow.checks.filter((id) => !order.includes(id))];
  const few = smallWith(['supply-fine', 'joint-plus', 'unit-heavy']);
  const [short] = Object.values(few.flows);
  // No repair can be done, so that every check has its turn, whatever is believed.
  const repairs = Object.fromEntries(
    Object.entries(knowledge.repairs).map(([id, repair]) => [id, { ...repair, needs: { 'what-feeds': [] } }]),
  );
  return { ...few, repairs, flows: { [usual]: { ...flow, ...short, checks } } };
}
