import { drill } from '../drill/drill.ts';
import { flowOf, mendable, planDrill } from '../drill/draw.ts';
import { readKnowledge } from '../knowledge/compiled.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { Refusal } from '../store/refusal.ts';
import { loadDrawing } from './drawing.ts';
import { chooseFace, loadFace, type FaceName } from './face.ts';
import { hold } from './hold.ts';
import { tellingFrom } from './names.ts';
import { sessionsWith } from './stored.ts';

export interface DrillOptions {
  seed?: number;
  face?: FaceName;
  ascii?: boolean;
}

/** Numbers that are drawn are short, so that a trainer can call them out. */
const seeds = 10_000;

/** Plays a visit to an invented site: the flow named, or one that the seed draws. */
export async function drillCommand(
  id: string | undefined,
  { seed = Math.floor(Math.random() * seeds), face, ascii }: DrillOptions,
): Promise<number> {
  const chosen = chooseFace(face);
  const [show, draw, { knowledge, hash }] = await Promise.all([
    loadFace(chosen),
    loadDrawing(chosen, ascii),
    readKnowledge(),
  ]);
  const flow = flowFor(knowledge, id, seed);
  const plan = planDrill(knowledge, flow, seed);
  const sessions = sessionsWith(knowledge, hash);
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
