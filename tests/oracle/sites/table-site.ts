import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Check } from '../../../src/knowledge/schema/check.ts';
import type { Fault } from '../../../src/knowledge/schema/fault.ts';
import type { Flow } from '../../../src/knowledge/schema/flow.ts';
import type { Knowledge } from '../../../src/knowledge/schema/knowledge.ts';
import { Chance } from './chance.ts';
import type { SimulatedSite } from './simulated-site.ts';
import { typedAs } from './typed-as.ts';

export interface TableSiteOptions {
  knowledge: Knowledge;
  /** A flow without a circuit. */
  flow: string;
  seed: number;
  /** Twice as many answers wrong. */
  wide?: boolean;
  /** Left out: as often as it is met. */
  fault?: string;
}

/** One answer in ten is not what the site shows. On wide sites two. */
const wrongAnswers = { fair: 0.1, wide: 0.2 };

/**
 * A site of any flow that stands on tables alone. What it shows is drawn from the knowledge's own tables, and then now
 * and then said wrong, so it measures what wrong answers cost and not whether the tables are true.
 */
export class TableSite implements SimulatedSite {
  readonly truth: { faults: readonly string[]; repair: string };
  private readonly knowledge: Knowledge;
  private readonly seed: number;
  private readonly wrong: number;
  /** What is wrong, and where that leads to another flow what lies behind it. */
  private present: readonly Fault[];
  private readonly asked = new Map<string, number>();

  constructor({ knowledge, flow, seed, wide = false, fault }: TableSiteOptions) {
    this.knowledge = knowledge;
    this.seed = seed;
    this.wrong = wide ? wrongAnswers.wide : wrongAnswers.fair;
    const named = fault === undefined ? undefined : knowledge.faults[fault];
    const first = named ?? drawn(knowledge, flowOf(knowledge, flow), seed);
    this.truth = { faults: [first.id], repair: first.repair };
    this.present = behind(knowledge, first, seed);
  }

  answer(prompt: Prompt): Promise<Input> {
    return Promise.resolve(this.said(prompt));
  }

  private said({ purpose, step, cures }: Prompt): Input {
    switch (purpose) {
      case 'brief': {
        const choices = this.knowledge.brief[step]?.choices ?? [];
        const fine =
          choices.find(({ does }) => does === 'on-test') ?? choices.find(({ does }) => does === 'go-on');
        return { answer: fine?.id ?? '' };
      }
      case 'fact':
      case 'check':
      case 'proof':
        return this.shown(step);
      case 'repair':
        this.mend(step, cures ?? []);
        return { answer: 'done' };
      case 'set-site':
      case 'restore':
        return { answer: 'done' };
      default:
        return { do: 'stop' };
    }
  }

  private shown(step: string): Input {
    const check = this.knowledge.checks[step];
    // Another flow has taken over, and its circuit is not simulated here.
    if (!check || !('shows' in check) || check.shows.rule !== 'table') return { do: 'stop' };
    const chance = this.chance('shows', step);
    const right = chance.pick(rowOf(check.shows, this.present));
    const others = check.choices.filter(({ id }) => id !== right);
    const wrong = Object.fromEntries(others.map(({ id }) => [id, 1]));
    const said = chance.happens(this.wrong) ? chance.pick(wrong) : right;
    return { answer: check.kind === 'entry' ? typedAs(check.classifier, said) : said };
  }

  private mend(step: string, cures: readonly string[]): void {
    const cured = this.present.findIndex(({ id }) => cures.includes(id));
    const success = this.knowledge.repairs[step]?.success ?? 0;
    // What lies deepest is what is wrong; mended, it takes with it all that came of it.
    if (cured === this.present.length - 1 && this.chance('mends', step).happens(success)) this.present = [];
  }

  /** Chance that hangs on what is asked and how often it was asked before, and on nothing else. */
  private chance(what: string, step: string): Chance {
    const count = (this.asked.get(step) ?? 0) + 1;
    this.asked.set(step, count);
    return new Chance(this.seed, what, step, count);
  }
}

type Table = Extract<Extract<Check, { shows: unknown }>['shows'], { rule: 'table' }>;

/** The row of the fault that lies deepest of those that the table names. */
function rowOf(table: Table, present: readonly Fault[]): Readonly<Record<string, number>> {
  const deepest = present.findLast(({ id }) => table.faults[id] !== undefined);
  const named = deepest && table.faults[deepest.id];
  return named ?? (present.length > 0 ? table.any : undefined) ?? table.default;
}

/** A fault, and one of the flow that it leads to, and so on. */
function behind(knowledge: Knowledge, fault: Fault, seed: number): Fault[] {
  const next = fault.leadsTo === undefined ? undefined : knowledge.flows[fault.leadsTo];
  if (!next || next.circuit !== undefined) return [fault];
  return [fault, ...behind(knowledge, drawn(knowledge, next, seed), seed)];
}

/** A fault of a flow, as often as it is met. */
function drawn(knowledge: Knowledge, flow: Flow, seed: number): Fault {
  const weights = Object.fromEntries(flow.faults.map((id) => [id, knowledge.faults[id]?.weight ?? 0]));
  const fault = knowledge.faults[new Chance(seed, 'fault', flow.id).pick(weights)];
  if (!fault) throw new RangeError(`the flow "${flow.id}" has no faults`);
  return fault;
}

function flowOf({ flows }: Knowledge, id: string): Flow {
  const flow = flows[id];
  if (!flow || flow.circuit !== undefined)
    throw new RangeError(`"${id}" is no flow that stands on tables alone.`);
  return flow;
}
