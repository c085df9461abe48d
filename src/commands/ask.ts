import { readFile } from 'node:fs/promises';
import { tellingLater, type Telling } from '../faces/text/telling.ts';
import { atSite } from '../knowledge/at-site.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { SiteFile } from '../knowledge/schema/site-file.ts';
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
  /** The path of a file that says what is printed at the site and what it does not have. */
  siteFile?: string;
}

/** Begins a session: with the flow named, or with the one that the words mean, or by asking what is wrong. */
export async function askCommand(words: string[], options: AskOptions): Promise<number> {
  const { flow, face, seat, seed, ascii, siteFile: path } = options;
  const chosen = chooseFace(face);
  const show = await loadFace(chosen);
  const load = (): Promise<Loaded> => loadAll(chosen, seat, ascii);
  if (flow === undefined && words.length === 0 && seat !== 'phone' && path === undefined)
    return askAtOnce(show, options, load);
  const loaded = await load();
  const { sessions } = loaded;
  const siteFile = path === undefined ? undefined : await siteFileAt(path, loaded.knowledge);
  const knowledge = siteFile ? atSite(loaded.knowledge, siteFile) : loaded.knowledge;
  if (flow !== undefined && !knowledge.flows[flow]) {
    throw new Refusal(`There is no flow "${flow}". There are: ${Object.keys(knowledge.flows).join(', ')}`, 2);
  }
  const heard = words.length > 0 ? words.join(' ') : undefined;
  const call = sessions.begin({ seat, seed, flow, words: heard, siteFile });
  return hold(show, call, loaded.tell(knowledge), { knowledge, sessions });
}

interface Loaded {
  readonly knowledge: Knowledge;
  readonly sessions: Sessions;
  tell(knowledge: Knowledge): Telling;
}

async function loadAll(face: FaceName, seat: AskOptions['seat'], ascii?: boolean): Promise<Loaded> {
  const [{ readKnowledge }, { sessionsWith }, { tellingFrom }, draw] = await Promise.all([
    import('../knowledge/compiled.ts'),
    import('./stored.ts'),
    import('./names.ts'),
    loadDrawing(face, ascii),
  ]);
  const { knowledge, hash } = await readKnowledge();
  const tell = (known: Knowledge): Telling => tellingFrom(known, seat, draw);
  return { knowledge, sessions: sessionsWith(knowledge, hash), tell };
}

/** Throws a Refusal for a file that cannot be read, and a KnowledgeError for what is wrong in it. */
async function siteFileAt(path: string, knowledge: Knowledge): Promise<SiteFile> {
  const { readSiteFile } = await import('../knowledge/site-file.ts');
  const text = await readFile(path, 'utf8').catch(() => undefined);
  if (text === undefined)
    throw new Refusal(`There is no site file ${path}. Name a .yaml file that is there.`, 2);
  return readSiteFile(knowledge, { path, text });
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
    telling = loaded.tell(loaded.knowledge);
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
