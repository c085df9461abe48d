import { tellingLater, type Telling } from '../faces/text/telling.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { askFirst } from '../session/first-question.ts';
import { Refusal } from '../store/refusal.ts';
import { loadDrawing } from './drawing.ts';
import { chooseFace, loadFace, type Face, type FaceName } from './face.ts';
import { hold, keepRecord, type Call } from './hold.ts';
import type { Sessions } from './stored.ts';
import { version } from './version.ts';

export interface AskOptions {
  flow?: string;
  face?: FaceName;
  seat: 'board' | 'phone' | 'trainer';
  seed?: number;
  /** Draw with ASCII characters only. */
  ascii?: boolean;
}

/** Begins a session: with the flow named, or with the one that the words mean, or by asking what is wrong. */
export async function askCommand(words: string[], options: AskOptions): Promise<number> {
  const { flow, face, seat, seed, ascii } = options;
  const chosen = chooseFace(face);
  const show = await loadFace(chosen);
  const load = (): Promise<Loaded> => loadAll(chosen, seat, ascii);
  if (flow === undefined && words.length === 0 && seat !== 'phone') return askAtOnce(show, options, load);
  const { knowledge, sessions, telling } = await load();
  if (flow !== undefined && !knowledge.flows[flow]) {
    throw new Refusal(`There is no flow "${flow}". There are: ${Object.keys(knowledge.flows).join(', ')}`, 2);
  }
  const call = sessions.begin({ seat, seed, flow, words: words.length > 0 ? words.join(' ') : undefined });
  return hold(show, call, telling, { knowledge, sessions });
}

interface Loaded {
  readonly knowledge: Knowledge;
  readonly sessions: Sessions;
  readonly telling: Telling;
}

async function loadAll(face: FaceName, seat: AskOptions['seat'], ascii?: boolean): Promise<Loaded> {
  const [{ readKnowledge }, { sessionsWith }, { tellingFrom }, draw] = await Promise.all([
    import('../knowledge/compiled.ts'),
    import('./stored.ts'),
    import('./names.ts'),
    loadDrawing(face, ascii),
  ]);
  const { knowledge, hash } = await readKnowledge();
  return { knowledge, sessions: sessionsWith(knowledge, hash), telling: tellingFrom(knowledge, seat, draw) };
}

/** Asks what is wrong straight away; whoever answers needs a while to type. */
async function askAtOnce(
  show: Face,
  { seat, seed }: AskOptions,
  load: () => Promise<Loaded>,
): Promise<number> {
  let telling: Telling | undefined;
  let call: Call | undefined;
  const first = askFirst(version, async () => {
    const loaded = await load();
    telling = loaded.telling;
    call = loaded.sessions.begin({ seat, seed });
    return call.conversation;
  });
  try {
    const code = await show(
      first,
      tellingLater(seat, () => telling),
    );
    if (call && telling) await keepRecord(call);
    return code;
  } finally {
    call?.journal.close();
  }
}
