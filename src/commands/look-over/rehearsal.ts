import type { Command, Input, Message, Prompt } from '../../dialogue/messages.ts';
import type { Flow } from '../../knowledge/schema/flow.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { converse } from '../../session/conversation.ts';
import type { Event, Seat } from '../../session/events.ts';
import { rungChecks } from '../../wording/rungs.ts';
import { modelSite } from './model-site.ts';

/** What is told together, under a heading, as it is told on one seat. */
export interface Scene {
  readonly title: string;
  readonly seat: Seat;
  readonly messages: readonly Message[];
}

/** A visit and two calls, played with the program itself to a site that is modelled: everything that they have to say. */
export async function rehearse(knowledge: Knowledge, hash: string): Promise<Scene[]> {
  const { flow, fault } = richest(knowledge);
  const stage = (seat: Seat, begin?: Flow, resume?: Event[]): Stage =>
    new Stage(knowledge, hash, seat, begin?.id, resume);
  return [
    ...(await opening(stage('board'), flow)),
    ...(await visit(stage('board', flow), modelSite(knowledge, flow, fault))),
    ...(await call(stage('phone', flow), modelSite(knowledge, flow, fault))),
    ...(await outside(knowledge, stage('phone', flow))),
  ];
}

/** The flow with most volts along its run, and its heaviest fault that leads nowhere else. */
function richest(knowledge: Knowledge): { flow: Flow; fault: string } {
  const flows = Object.values(knowledge.flows);
  const rungs = (flow: Flow): number => rungChecks(knowledge, flow, new Map()).length;
  const flow = flows.reduce((a, b) => (rungs(b) > rungs(a) ? b : a));
  const own = flow.faults.flatMap((id) => {
    const fault = knowledge.faults[id];
    return fault && fault.leadsTo === undefined && knowledge.repairs[fault.repair]?.dead ? [fault] : [];
  });
  const [first, ...others] = own;
  if (!first) throw new RangeError(`no fault of "${flow.id}" can be played`);
  return { flow, fault: others.reduce((a, b) => (b.weight > a.weight ? b : a), first).id };
}

/** One conversation, and what it says. */
class Stage {
  readonly events: Event[];
  private readonly conversation;
  private asked: Prompt | null = null;

  constructor(
    readonly knowledge: Knowledge,
    hash: string,
    readonly seat: Seat,
    flow: string | undefined,
    resume: Event[] = [],
  ) {
    this.events = [...resume];
    const journal = { id: 'look-over', append: (event: Event) => void this.events.push(event) };
    this.conversation = converse({ knowledge, hash, version: '0', seat, seed: 1, flow, journal });
  }

  get prompt(): Prompt {
    if (!this.asked) throw new RangeError('nothing is asked');
    return this.asked;
  }

  get ended(): boolean {
    return this.conversation.ended;
  }

  open(): Promise<Message[]> {
    return this.heard(this.conversation.open());
  }

  answer(answer: string): Promise<Message[]> {
    return this.send({ answer });
  }

  send(input: Input): Promise<Message[]> {
    return this.heard(this.conversation.send(input));
  }

  scene(title: string, messages: readonly Message[]): Scene {
    return { title, seat: this.seat, messages };
  }

  private async heard(saying: Promise<Message[]>): Promise<Message[]> {
    const messages = await saying;
    this.asked = messages.findLast((message) => message.type === 'prompt') ?? this.asked;
    return messages;
  }
}

async function opening(stage: Stage, flow: Flow): Promise<Scene[]> {
  return [
    stage.scene('What is wrong', await stage.open()),
    stage.scene('What that may be', await stage.answer(flow.title)),
  ];
}

/** Every kind of step once, and everything that a person can ask for meanwhile. */
async function visit(stage: Stage, site: (prompt: Prompt) => string): Promise<Scene[]> {
  const scenes: Scene[] = [];
  const seen = new Set<string>();
  let messages = await stage.open();
  let asides = false;
  for (let turn = 0; turn < most; turn++) {
    const { prompt } = stage;
    const kind = `${prompt.purpose}, ${prompt.kind}`;
    const told = messages.some(({ type }) => type === 'verdict' || type === 'end');
    if (!seen.has(kind) || told) scenes.push(stage.scene(told ? 'Verdict, and how it ends' : kind, messages));
    seen.add(kind);
    if (stage.ended) break;
    const answer = site(prompt);
    if (
      !asides &&
      stage.events.filter(({ event }) => event === 'answered').length > enough &&
      prompt.reading
    ) {
      scenes.push(...(await asked(stage)));
      asides = true;
    }
    messages = await stage.answer(answer);
  }
  return scenes;
}

/** Answers after which there is something to tell of. */
const enough = 7;
/** More turns than any visit takes. */
const most = 80;

const asides: readonly Command[] = ['why', 'again', 'ladder', 'ledger', 'story', 'close', 'record', 'edit'];

async function asked(stage: Stage): Promise<Scene[]> {
  const scenes: Scene[] = [];
  for (const word of asides) {
    scenes.push(stage.scene(`/${word}`, notices(await stage.send({ do: word }))));
  }
  scenes.push(stage.scene('/note', notices(await stage.send({ do: 'note', text: 'Dog in the yard.' }))));
  scenes.push(stage.scene('An answer that is none', notices(await stage.answer('twelve or so'))));
  scenes.push(stage.scene('A dangerous reading', await stage.answer('120 V')));
  await stage.answer('slip');
  scenes.push(stage.scene('Changing an answer', await stage.send({ do: 'edit', text: '1' })));
  await stage.send({ do: 'back' });
  scenes.push(stage.scene('/undo', notices(await stage.send({ do: 'undo' }))));
  scenes.push(stage.scene('/redo', notices(await stage.send({ do: 'redo' }))));
  return scenes;
}

/** A caller who may open the cabinet, up to a reading and its read-back. */
async function call(stage: Stage, site: (prompt: Prompt) => string): Promise<Scene[]> {
  const scenes = [stage.scene('Phone: the first question', await stage.open())];
  let readings = 0;
  for (let turn = 0; turn < most && readings < 2 && !stage.ended; turn++) {
    const isReading = stage.prompt.reading !== undefined;
    const before = stage.prompt;
    const messages = await stage.answer(site(before));
    if (isReading) readings++;
    if (isReading || stage.prompt.reading) scenes.push(stage.scene('Phone: a reading', messages));
    if (turn === 0) scenes.push(stage.scene('Phone: said back', messages));
  }
  scenes.push(stage.scene('Phone: why', notices(await stage.send({ do: 'why' }))));
  scenes.push(stage.scene('Phone: story', notices(await stage.send({ do: 'story' }))));
  return scenes;
}

/** A caller who may not open it: the order for a visit. */
async function outside(knowledge: Knowledge, stage: Stage): Promise<Scene[]> {
  let messages = await stage.open();
  for (let turn = 0; turn < most && !stage.ended; turn++) {
    const { prompt } = stage;
    const choices = knowledge.brief[prompt.step]?.choices ?? [];
    const does = ['outside', 'notice', 'go-on', 'on-test'].flatMap((word) =>
      choices.filter((c) => c.does === word),
    );
    const answer =
      prompt.kind === 'confirm' ? 'done' : (does[0]?.id ?? prompt.choices?.at(-1)?.id ?? '555 0142');
    const isAsked = ['fact', 'check'].includes(prompt.purpose);
    messages = await (isAsked ? stage.send({ do: 'cannot' }) : stage.answer(answer));
    const goesOn = ['brief', 'fact', 'check'].includes(stage.prompt.purpose);
    if (!goesOn) return [stage.scene('Phone: somebody has to come', messages)];
  }
  return [stage.scene('Phone: the end', messages)];
}

function notices(messages: readonly Message[]): Message[] {
  return messages.filter(({ type }) => type !== 'prompt');
}
