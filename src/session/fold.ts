import { initialTransition, transition, type SnapshotFrom } from 'xstate';
import {
  compileFlow,
  timesAnswered,
  unbegun,
  type BriefDoes,
  type Ending,
  type MachineEvent,
} from '../dialogue/machine.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { actOf } from '../site/act.ts';
import { owed, sameStep, stepOf } from './asked-step.ts';
import type { Answer, Event } from './events.ts';
import { isOutsideOnly } from './seat.ts';

export type Machine = ReturnType<typeof compileFlow>;
export type Snapshot = SnapshotFrom<Machine>;

/** One answer in force, with the repairs that had been done when it was given. */
export interface Told {
  readonly id: string;
  readonly step: string;
  readonly value: Answer;
  readonly after: readonly string[];
  readonly proof: boolean;
  /** A proof a little outside its band that was taken all the same. */
  readonly taken?: boolean;
}

type Answered = Extract<Event, { event: 'answered' }>;
type AskedWhat = Extract<Event, { event: 'asked' }>['asked'];

/** Everything that follows from the events in force. */
export interface State {
  /** The flow that the session is in, and every flow that it has been in, in order. */
  readonly flow: Flow;
  readonly flows: readonly string[];
  readonly snapshot: Snapshot;
  /** Answers to briefing questions and checks, by step, the newest in force. */
  readonly told: readonly Told[];
  /** Ids of answers that were challenged, and of those that were taken again and stand. */
  readonly challenged: ReadonlySet<string>;
  readonly stands: ReadonlySet<string>;
  /** Of those challenged, what is not questioned any more: it stands, or nobody can take it again. */
  readonly settled: ReadonlySet<string>;
  readonly notes: readonly string[];
  /** What every verdict so far found, and the sums of the last one. */
  readonly found: readonly string[];
  readonly sums: readonly string[];
  /** The conductor ends in the order they were moved, and everything else that was done. */
  readonly acts: readonly string[];
  readonly ended: Ending | null;
}

/** Folds the events in force, in order. What was done always counts; what was said counts until it is taken back. */
export function fold(knowledge: Knowledge, start: Flow, events: readonly Event[]): State {
  const folding = new Folding(knowledge, start, events);
  for (const event of events) folding.take(event);
  return folding.state();
}

/** A state in the making. */
class Folding {
  private flow: Flow;
  private machine: Machine;
  private snapshot: Snapshot;
  private readonly flows: string[];
  private readonly told: Told[] = [];
  private readonly challenged = new Set<string>();
  private readonly stands = new Set<string>();
  private readonly settled = new Set<string>();
  private readonly notes: string[] = [];
  private readonly acts: string[] = [];
  private readonly found: string[] = [];
  private sums: readonly string[] = [];
  /** The last verdict's repair is not done yet. */
  private proposed = false;
  private readonly gone: ReadonlySet<string>;
  private readonly edited: ReadonlyMap<string, Answered>;
  private readonly questions: ReadonlyMap<string, AskedWhat>;

  constructor(
    private readonly knowledge: Knowledge,
    start: Flow,
    events: readonly Event[],
  ) {
    this.flow = start;
    this.flows = [start.id];
    this.machine = machineOf(knowledge, start);
    this.snapshot = initialTransition(this.machine, unbegun)[0];
    this.gone = voided(events);
    this.edited = edits(events, this.gone);
    this.questions = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  }

  state(): State {
    const { flow, flows, snapshot, told, challenged, stands, settled, notes, found, sums, acts } = this;
    const said = { told, challenged, stands, settled, notes };
    return { flow, flows, snapshot, ...said, found, sums, acts, ended: snapshot.context.ending };
  }

  take(event: Event): void {
    switch (event.event) {
      case 'asked':
        return this.ask(event.asked);
      case 'answered':
        return this.answer(event);
      case 'did':
        return this.act(event);
      case 'crossed':
        return this.cross(event);
      case 'resumed':
        return this.snapshot.status === 'done' || this.isUntouched()
          ? undefined
          : this.send({ type: 'RESUMED' });
      case 'challenged':
        return void this.challenged.add(event.of);
      case 'stands':
        this.settled.add(event.of);
        if (!event.unread) this.stands.add(event.of);
        return;
      case 'noted':
        return void this.notes.push(event.text);
      // What begins, ends or takes back a session moves nothing by itself.
      case 'started':
      case 'ended':
      case 'retracted':
      case 'reinstated':
    }
  }

  /** Nobody was asked to do anything there, and who may not open the cabinet cannot look how its inside stands. */
  private isUntouched(): boolean {
    return this.acts.length === 0 && isOutsideOnly(this.knowledge, { told: this.told });
  }

  private send(event: MachineEvent): void {
    if (this.snapshot.status === 'done') return;
    if (!this.snapshot.can(event))
      throw new RangeError(`${event.type} cannot follow in state ${String(this.snapshot.value)}`);
    this.snapshot = transition(this.machine, this.snapshot, event)[0];
  }

  private ask(what: AskedWhat): void {
    if (what.kind === 'repair') {
      if (what.retakes !== undefined && !this.gone.has(what.retakes)) return;
      this.withdraw();
      this.proposed = what.found !== undefined;
      if (what.found !== undefined) this.found.push(what.found);
      if (!what.closes) this.sums = what.sums ?? [];
    }
    const { context } = this.snapshot;
    const step = stepOf(what);
    // Asked again after an undo that was itself undone: the answer is there.
    if (what.kind === 'check' && timesAnswered(context, what.step) > (what.before ?? 0)) return;
    if (!step || sameStep(step, context.pending)) return;
    if (step.kind !== 'repair') this.withdraw();
    this.send({ type: 'CHOSEN', step, ...(what.kind === 'repair' ? owed(what) : {}) });
  }

  /** A verdict whose repair was not done is gone once something else is asked. */
  private withdraw(): void {
    if (!this.proposed) return;
    this.proposed = false;
    this.found.pop();
    this.sums = [];
  }

  private answer(event: Answered): void {
    const what = this.questions.get(event.of);
    if (this.gone.has(event.id) || event.edits !== undefined) return;
    if (!what || what.kind === 'transition' || what.kind === 'refer') return;
    const { step } = what;
    const { id, value, taken = false } = this.edited.get(event.id) ?? event;
    const after = [...this.snapshot.context.repaired].sort();
    this.told.push({ id, step, value, after, proof: what.kind === 'proof', taken });
    switch (what.kind) {
      case 'brief':
        return this.send({ type: 'BRIEFED', id: step, does: briefDoes(this.knowledge, step, value) });
      case 'proof':
        return this.send({ type: 'PROVED', id: step, passed: event.passed === true });
      case 'check':
        return this.send({ type: value.kind === 'cannot' ? 'CANNOT' : 'ANSWERED', id: step });
      case 'repair':
    }
  }

  private act({ of, done, site }: Extract<Event, { event: 'did' }>): void {
    const what = this.questions.get(of);
    if (what?.kind === 'repair') {
      this.proposed = false;
      this.send({ type: 'REPAIRED', id: what.step });
    } else {
      const act = actOf(done);
      if (!act) throw new RangeError(`nobody can do "${done}" at a site`);
      this.send({ type: 'DID', act, site });
    }
    this.acts.push(done);
  }

  private cross({ flow: id, found }: Extract<Event, { event: 'crossed' }>): void {
    const to = this.knowledge.flows[id];
    if (!to) throw new RangeError(`there is no flow "${id}" to go on with`);
    const { briefed, standing, closed, repaired } = this.snapshot.context;
    if (found !== undefined) this.found.push(found);
    this.flow = to;
    this.flows.push(to.id);
    this.machine = machineOf(this.knowledge, to);
    this.snapshot = initialTransition(this.machine, { briefed, standing, closed, repaired })[0];
  }
}

const machines = new WeakMap<Flow, Machine>();

/** A flow's machine, compiled once. */
function machineOf(knowledge: Knowledge, flow: Flow): Machine {
  const known = machines.get(flow) ?? compileFlow(knowledge, flow);
  machines.set(flow, known);
  return known;
}

/** For each first answer the newest in force that has taken its place. */
function edits(events: readonly Event[], gone: ReadonlySet<string>): ReadonlyMap<string, Answered> {
  const first = new Map<string, string>();
  const found = new Map<string, Answered>();
  for (const event of events) {
    if (event.event !== 'answered' || event.edits === undefined) continue;
    const root = first.get(event.edits) ?? event.edits;
    first.set(event.id, root);
    if (!gone.has(event.id)) found.set(root, event);
  }
  return found;
}

/** Ids of answers that have been taken back and not put back. */
export function voided(events: readonly Event[]): ReadonlySet<string> {
  const ids = new Set<string>();
  for (const event of events) {
    if (event.event === 'retracted') ids.add(event.of);
    if (event.event === 'reinstated') ids.delete(event.of);
  }
  return ids;
}

function briefDoes(knowledge: Knowledge, id: string, value: Answer): BriefDoes {
  const choice = knowledge.brief[id]?.choices.find((c) => value.kind === 'choice' && c.id === value.id);
  return choice?.does ?? 'go-on';
}
