import { believe } from '../diagnosis/belief.ts';
import { choose, type Ranked } from '../diagnosis/choose.ts';
import { frame, type Frame, type FrameCheck } from '../diagnosis/frame.ts';
import { gains } from '../diagnosis/node.ts';
import type { Evidence, Work } from '../diagnosis/model.ts';
import type { Thought } from '../dialogue/thought.ts';
import { checkTarget, repairTarget } from '../dialogue/targets.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Flow, Meter } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { circuitModel, type FlowModel } from '../models/circuit.ts';
import { checksToAsk } from './checks-to-ask.ts';
import type { State, Told } from './fold.ts';
import { needsMet } from './needs.ts';
import { numberOf } from './number-of.ts';
import { isOutsideOnly } from './seat.ts';
import { Situations } from './situations.ts';
import { checksToTakeAgain } from './take-again.ts';

/** What could be done next, and what of it is best. */
export interface Counsel {
  readonly thought: Thought;
  readonly frame: Frame;
  readonly checks: readonly Check[];
  readonly repairs: readonly string[];
  readonly choice: Ranked;
}

/** The minds of one flow: belief and choice, pure functions of the state. */
export class Mind {
  private readonly thoughts = new Map<string, Thought>();
  private latest: { key: string; model: FlowModel } | null = null;

  constructor(
    private readonly knowledge: Knowledge,
    private readonly flow: Flow,
    private readonly seed: number,
  ) {}

  /** Probability of everything, given what has been told. */
  *think(state: State): Work<Thought> {
    const told = state.told.filter((each) => counts(this.knowledge, state.told, each));
    const stood = (each: Told): boolean => state.stands.has(each.id);
    const key = JSON.stringify(told.map((each) => [each.step, each.value, each.after, stood(each)]));
    const known = this.thoughts.get(key);
    if (known) return known;
    const facts = new Map<string, number>();
    for (const each of told) {
      const check = this.knowledge.checks[each.step];
      if (check?.kind === 'fact') facts.set(each.step, numberOf(check, each.value));
    }
    const { knowledge, seed } = this;
    const model = this.model(this.meter(state), facts);
    // What was told in another flow counts wherever this flow's model can say what it would have been.
    const rest = told.filter(({ step }) => knowledge.checks[step]?.kind !== 'fact' && model.foretells(step));
    const evidence = rest.flatMap((each): Evidence[] => {
      const check = knowledge.checks[each.step];
      if (!check) return [];
      const question = model.question(each.step);
      return [{ question, answer: numberOf(check, each.value), after: each.after, stood: stood(each) }];
    });
    const { outlier, again, unlisted, second, draws } = knowledge.costs;
    const repairs = Object.values(knowledge.repairs).map(({ id, success }) => ({ id, success }));
    const belief = yield* believe(model, evidence, repairs, {
      seed,
      draws,
      outlier,
      again,
      unlisted,
      second,
    });
    const steps = rest.map(({ step }) => step);
    const thought = { model, belief, evidence, steps, facts };
    const [oldest] = this.thoughts.keys();
    if (oldest !== undefined && this.thoughts.size >= thoughtsKept) this.thoughts.delete(oldest);
    this.thoughts.set(key, thought);
    return thought;
  }

  /** The next step with the fewest expected minutes to proved or referred. */
  *counsel(state: State, place: string): Work<Counsel> {
    const thought = yield* this.think(state);
    const again = checksToTakeAgain(this.knowledge, this.flow, state, thought);
    const checks = [...this.available(state), ...again];
    const repairs = this.repairs(state);
    const framed = yield* this.framed(thought, checks, repairs, state, place);
    const choice = yield* choose(framed.problem);
    return { thought, frame: framed, checks, repairs, choice };
  }

  /** What each check that can be asked with the site as it is would tell of the repair, in bits, whoever is to do it. */
  *telling(state: State, place: string): Work<{ check: Check; bits: number }[]> {
    const thought = yield* this.think(state);
    const ways = new Situations(this.knowledge, this.flow, state.snapshot.context, place);
    const checks = this.available(state).filter(({ id }) =>
      ways.isHere(checkTarget(this.knowledge, id, state.snapshot.context.standing.site)),
    );
    const framed = yield* this.framed(thought, checks, this.everyRepair(), state, place);
    const bits = gains(framed.problem);
    return checks.map((check, i) => ({ check, bits: bits[i] ?? 0 }));
  }

  private *framed(
    thought: Thought,
    checks: readonly Check[],
    repairs: readonly string[],
    state: State,
    place: string,
  ): Work<Frame> {
    const { knowledge } = this;
    const ways = new Situations(knowledge, this.flow, state.snapshot.context, place);
    const here = state.snapshot.context.standing.site;
    const framedChecks: FrameCheck[] = [];
    for (const [order, { id, place: at, minutes }] of checks.entries()) {
      // The first question at a state of the site wires the circuit as it is there.
      const question = thought.model.question(id);
      framedChecks.push({
        id,
        order,
        question,
        minutes,
        situation: ways.of(checkTarget(knowledge, id, here), at),
      });
      yield;
    }
    const framedRepairs = repairs.flatMap((id, order) => {
      const repair = knowledge.repairs[id];
      if (!repair) return [];
      const situation = ways.of(repairTarget(knowledge, id, here), repair.place);
      const minutes = repair.minutes + proofMinutes;
      return [{ id, order, situation, minutes, success: repair.success, wrong: repair.wrong }];
    });
    const limits = { cases: 240, bins: 8, outlier: knowledge.costs.outlier };
    return yield* frame(thought.belief, thought.model, framedChecks, framedRepairs, ways.minutes(), limits);
  }

  /** Repairs that can still be done, in the order of the flow's faults. */
  repairs(state: State): string[] {
    const { knowledge } = this;
    const { repaired } = state.snapshot.context;
    const outside = isOutsideOnly(knowledge, state);
    return this.everyRepair().filter((id) => {
      const repair = knowledge.repairs[id];
      const done = repaired.filter((each) => each === id).length;
      if (!repair || done >= mostTurns || (outside && !repair.outside)) return false;
      return needsMet(knowledge, state.told, repair);
    });
  }

  private everyRepair(): string[] {
    return [...new Set(this.flow.faults.flatMap((id) => this.knowledge.faults[id]?.repair ?? []))];
  }

  /** Checks that can still be asked, in the flow's order. */
  available(state: State): Check[] {
    const { closed } = state.snapshot.context;
    return checksToAsk(this.knowledge, this.flow, state).filter(
      (check) =>
        !closed.includes(check.id) && !(isTold(check) && state.told.some(({ step }) => step === check.id)),
    );
  }

  /** One model for as long as meter and facts are the same, so that what a draw has solved is not solved again. */
  private model(meter: Meter, facts: ReadonlyMap<string, number>): FlowModel {
    const key = JSON.stringify([meter.id, [...facts].sort()]);
    if (this.latest?.key !== key) {
      const { knowledge, flow } = this;
      this.latest = { key, model: circuitModel({ knowledge, flow, meter, facts }) };
    }
    return this.latest.model;
  }

  private meter(state: State) {
    const { brief, meters } = this.knowledge;
    const named = state.told.flatMap(({ step, value }) =>
      value.kind === 'choice' ? (brief[step]?.choices.find(({ id }) => id === value.id)?.meter ?? []) : [],
    );
    const meter = meters[named.at(-1) ?? ''] ?? Object.values(meters).at(-1);
    if (!meter) throw new RangeError('the knowledge has no meter');
    return meter;
  }
}

/** A thought holds thousands of draws, and whoever goes back seldom goes back far. */
const thoughtsKept = 8;

/** Minutes that reading the proofs takes. Common practice, no source. */
const proofMinutes = 2;

/** So many times a repair is done on one visit: what did not hold may not have been done well. Common practice, no source. */
const mostTurns = 2;

/** Whether somebody tells it: asked once, and not to know is an answer. */
function isTold(check: Check): boolean {
  return check.kind === 'fact' || (check.kind === 'observation' && check.told);
}

/** Whether an answer says something about the faults: not once what it needed has been told otherwise. */
function counts(knowledge: Knowledge, told: readonly Told[], { step, value }: Told): boolean {
  const check = knowledge.checks[step];
  if (!check || value.kind === 'unknown' || value.kind === 'cannot') return false;
  return needsMet(knowledge, told, check);
}
