import { readKnowledge } from '../knowledge/compiled.ts';
import { Refusal } from '../store/refusal.ts';
import { loadDrawing } from './drawing.ts';
import { chooseFace, loadFace, type FaceName } from './face.ts';
import { hold } from './hold.ts';
import { tellingFrom } from './names.ts';
import { sessionsWith } from './stored.ts';

export interface AskOptions {
  flow?: string;
  face?: FaceName;
  seat: 'board' | 'phone' | 'trainer';
  seed?: number;
  /** Draw with ASCII characters only. */
  ascii?: boolean;
}

/** Begins a session: with the flow named, or with the one that the words mean, or by asking what is wrong. */
export async function askCommand(
  words: string[],
  { flow, face, seat, seed, ascii }: AskOptions,
): Promise<number> {
  const chosen = chooseFace(face);
  const [show, draw, { knowledge, hash }] = await Promise.all([
    loadFace(chosen),
    loadDrawing(chosen, ascii),
    readKnowledge(),
  ]);
  if (flow !== undefined && !knowledge.flows[flow]) {
    throw new Refusal(`There is no flow "${flow}". There are: ${Object.keys(knowledge.flows).join(', ')}`, 2);
  }
  const sessions = sessionsWith(knowledge, hash);
  const call = sessions.begin({ seat, seed, flow, words: words.length > 0 ? words.join(' ') : undefined });
  return hold(show, call, tellingFrom(knowledge, seat, draw), { knowledge, sessions });
}
