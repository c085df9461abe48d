import { initialTransition, transition, type SnapshotFrom } from 'xstate';
import {
  compileFlow,
  unbegun,
  type BriefDoes,
  type Ending,
  type MachineEvent,
  type Step,
} from '../dialogue/machine.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Answer, Event } from './events.ts';

export type Machine = ReturnType<typeof compileFlow>;
export type Snapshot = SnapshotFrom<Machine>;

/** One answer in force, with the repairs that had been done when it was given. */
export interface Told {
  readonly id: string;
  readonly step: string;
  readonly value: Answer;
  readonly after: readonly string[];
  readonly proof: boolean;
}

/** Everything that follows from the events in force. */
export interface State {
  /** The flow that the session is in, and every flow that it has been in, in order. */
  readonly flow: Flow;
  readonly flows: readonly string[];
  readonly snapshot: Snapshot;
  /** Answers to briefing questions and checks, by step, the newest in force. */
  readonly told: readonly Told[];
  /** Ids of answers that were challenged, and of those that stand. */
  readonly challenged: ReadonlySet<string>;
  readonly stands: ReadonlySet<string>;
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
  const void_ = voided(events);
  const edited = edits(events, void_);
  const asked = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  let flow = start;
  const flows = [flow.id];
  let machine = machineOf(knowledge, flow);
  let snapshot: Snapshot = initialTransition(machine, unbegun)[0];
  const told: Told[] = [];
  const challenged = new Set<string>();
  const stands = new Set<string>();
  const notes: string[] = [];
  const acts: string[] = [];
  const found: string[] = [];
  let sums: readonly string[] = [];
  const send = (event: MachineEvent): void => {
    if (snapshot.status === 'done') return;
    if (!snapshot.can(event))
      throw new RangeError(`${event.type} cannot follow in state ${String(snapshot.value)}`);
    snapshot = transition(machine, snapshot, event)[0];
  };
  for (const event of events) {
    switch (event.event) {
      case 'asked': {
        const { asked: what } = event;
        const pending = snapshot.context.pending;
        if (what.kind === 'repair' && what.retakes !== undefined && !void_.has(what.retakes)) break;
        if (what.kind === 'repair' && what.found !== undefined) found.push(what.found);
        if (what.kind === 'repair') sums = what.sums ?? [];
        const step = stepOf(what);
        // Asked again after an undo that was itself undone: the answer is there.
        if (step?.kind === 'check' && snapshot.context.closed.includes(step.id)) break;
        if (step && !sameStep(step, pending))
          send({ type: 'CHOSEN', step, proofs: what.kind === 'repair' ? what.proofs : [] });
        break;
      }
      case 'answered': {
        if (void_.has(event.id) || event.edits !== undefined) break;
        const what = asked.get(event.of);
        const { id, value } = edited.get(event.id) ?? event;
        if (!what || what.kind === 'transition' || what.kind === 'refer') break;
        const { context } = snapshot;
        told.push({
          id,
          step: what.step,
          value,
          after: [...new Set(context.repaired)].sort(),
          proof: what.kind === 'proof',
        });
        if (what.kind === 'brief') {
          send({ type: 'BRIEFED', id: what.step, does: briefDoes(knowledge, what.step, value) });
        } else if (what.kind === 'proof') {
          send({ type: 'PROVED', id: what.step, passed: event.passed === true });
        } else if (what.kind === 'check') {
          send({ type: value.kind === 'cannot' ? 'CANNOT' : 'ANSWERED', id: what.step });
        }
        break;
      }
      case 'did': {
        const what = asked.get(event.of);
        if (what?.kind === 'repair') send({ type: 'REPAIRED', id: what.step });
        else {
          const [kind, point, and] = event.done.split(' ');
          send({ type: 'DID', act: { kind: kind as never, what: point, and }, site: event.site });
        }
        acts.push(event.done);
        break;
      }
      case 'challenged':
        challenged.add(event.of);
        break;
      case 'stands':
        stands.add(event.of);
        break;
      case 'noted':
        notes.push(event.text);
        break;
      case 'resumed':
        if (snapshot.status !== 'done') send({ type: 'RESUMED' });
        break;
      case 'crossed': {
        const to = knowledge.flows[event.flow];
        if (!to) throw new RangeError(`there is no flow "${event.flow}" to go on with`);
        const { briefed, standing, closed, repaired } = snapshot.context;
        flow = to;
        if (event.found !== undefined) found.push(event.found);
        flows.push(flow.id);
        machine = machineOf(knowledge, flow);
        snapshot = initialTransition(machine, { briefed, standing, closed, repaired })[0];
        break;
      }
      case 'ended':
        if (event.ending === 'stopped' && snapshot.status !== 'done') break;
        break;
      default:
    }
  }
  return {
    flow,
    flows,
    snapshot,
    told,
    challenged,
    stands,
    notes,
    found,
    sums,
    acts,
    ended: snapshot.context.ending,
  };
}

const machines = new WeakMap<Flow, Machine>();

/** A flow's machine, compiled once. */
function machineOf(knowledge: Knowledge, flow: Flow): Machine {
  const known = machines.get(flow) ?? compileFlow(knowledge, flow);
  machines.set(flow, known);
  return known;
}

type Answered = Extract<Event, { event: 'answered' }>;

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

type AskedWhat = Extract<Event, { event: 'asked' }>['asked'];

function stepOf(asked: AskedWhat): Step | null {
  if (asked.kind === 'check') return { kind: 'check', id: asked.step };
  if (asked.kind === 'repair') return { kind: 'repair', id: asked.step };
  if (asked.kind === 'refer') return { kind: 'refer' };
  return null;
}

function sameStep(a: Step, b: Step | null): boolean {
  return b !== null && a.kind === b.kind && ('id' in a ? a.id : '') === ('id' in b ? b.id : '');
}

function briefDoes(knowledge: Knowledge, id: string, value: Answer): BriefDoes {
  const choice = knowledge.brief[id]?.choices.find((c) => value.kind === 'choice' && c.id === value.id);
  return choice?.does ?? 'go-on';
}
