import { readKnowledge } from '../knowledge/compiled.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { loadDrawing, type Draw } from './drawing.ts';
import { chooseFace, loadFace, type Face, type FaceName } from './face.ts';
import { sessionsWith, type Sessions } from './stored.ts';

export interface Shown {
  face?: FaceName;
  ascii?: boolean;
}

export interface Opened {
  readonly show: Face;
  readonly draw: Draw | undefined;
  readonly knowledge: Knowledge;
  readonly sessions: Sessions;
}

/** The face that was asked for, what it draws with, the knowledge and its sessions: loaded at once, before anything is asked. */
export async function opened({ face, ascii }: Shown): Promise<Opened> {
  const chosen = chooseFace(face);
  const [show, draw, { knowledge, hash }] = await Promise.all([
    loadFace(chosen),
    loadDrawing(chosen, ascii),
    readKnowledge(),
  ]);
  return { show, draw, knowledge, sessions: sessionsWith(knowledge, hash) };
}
