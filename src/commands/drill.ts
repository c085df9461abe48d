import { drill } from '../drill/drill.ts';
import { flowOf, mendable, planDrill } from '../drill/draw.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { Refusal } from '../store/refusal.ts';
import { hold } from './hold.ts';
import { tellingFrom } from './names.ts';
import { opened, type Shown } from './opened.ts';

export interface DrillOptions extends Shown {
  seed?: number;
}

/** Numbers that are drawn are short, so that a trainer can call them out. */
const seeds = 10_000;

/** Plays a visit to an invented site: the flow named, or one that the seed draws. */
export async function drillCommand(
  id: string | undefined,
  { seed = Math.floor(Math.random() * seeds), ...options }: DrillOptions,
): Promise<number> {
  const { show, draw, knowledge, sessions } = await opened(options);
  const flow = flowFor(knowledge, id, seed);
  const plan = planDrill(knowledge, flow, seed);
  const call = sessions.begin({ seat: 'trainer', seed, flow: flow.id, drill: true });
  const conversation = drill({ knowledge, plan, conversation: call.conversation });
  return hold(show, { ...call, conversation }, tellingFrom(knowledge, 'trainer', draw), {
    knowledge,
    sessions,
  });
}

function flowFor(knowledge: Knowledge, id: string | undefined, seed: number): Flow {
  const flow = id === undefined ? flowOf(knowledge, seed) : knowledge.flows[id];
  if (flow && mendable(knowledge, flow).length > 0) return flow;
  const flows = Object.values(knowledge.flows).filter((each) => mendable(knowledge, each).length > 0);
  throw new Refusal(
    `There is no drill for "${id ?? ''}". There are: ${flows.map((each) => each.id).join(', ')}`,
    2,
  );
}
