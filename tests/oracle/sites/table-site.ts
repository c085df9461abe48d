import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Fault } from '../../../src/knowledge/schema/fault.ts';
import type { Flow } from '../../../src/knowledge/schema/flow.ts';
import type { Knowledge } from '../../../src/knowledge/schema/knowledge.ts';
import { Chance } from './chance.ts';
import type { SimulatedSite } from './simulated-site.ts';
import { truths } from './truths/by-flow.ts';
import type { Shown, Shows, Truth } from './truths/truth.ts';
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
 * A site of a flow that stands on tables alone. What it shows is written by hand, fault by fault, and the knowledge's
 * tables are never looked at; a site keeps showing the same. Now and then a person says something else: any of the
 * other answers, and each time anew.
 */
export class TableSite implements SimulatedSite {
  readonly truth: { faults: readonly string[]; repair: string };
  private readonly knowledge: Knowledge;
  private readonly seed: number;
  private readonly wrong: number;
  private readonly good: Shows;
  /** What is wrong, and where that leads to another flow what lies behind it. */
  private present: readonly Present[];
  /** What was wrong at first: checks of the past answer from it after the repair too. */
  private readonly began: readonly Present[];
  private readonly asked = new Map<string, number>();

  constructor({ knowledge, flow, seed, wide = false, fault }: TableSiteOptions) {
    this.knowledge = knowledge;
    this.seed = seed;
    this.wrong = wide ? wrongAnswers.wide : wrongAnswers.fair;
    const named = fault === undefined ? undefined : knowledge.faults[fault];
    const first = named ?? drawn(knowledge, flowOf(knowledge, flow), seed);
    this.truth = { faults: [first.id], repair: first.repair };
    this.present = behind(knowledge, flow, first, seed);
    this.began = this.present;
    this.good = Object.assign(
      {},
      ...[...this.present].reverse().map(({ flow }) => truthOf(flow).good),
    ) as Shows;
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
    const shown = this.showing(step);
    // Another flow has taken over, and its circuit is not simulated here.
    if (!check || !('choices' in check) || shown === undefined) return { do: 'stop' };
    const right = one(shown, new Chance(this.seed, 'true', step));
    const chance = this.chance('said', step);
    const others = check.choices.filter(({ id }) => id !== right);
    const wrong = Object.fromEntries(others.map(({ id }) => [id, 1]));
    const said = chance.happens(this.wrong) ? chance.pick(wrong) : right;
    return { answer: check.kind === 'entry' ? typedAs(check.classifier, said) : said };
  }

  /** What the fault that lies deepest shows, or what a good site shows. */
  private showing(step: string): Shown | undefined {
    const lasts = this.began.some(({ flow }) => truthOf(flow).lasting.includes(step));
    const shows = (lasts ? this.began : this.present).findLast(
      (each) => each.shows[step] !== undefined,
    )?.shows;
    return (shows ?? this.good)[step];
  }

  private mend(step: string, cures: readonly string[]): void {
    const cured = this.present.findIndex(({ fault }) => cures.includes(fault.id));
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

/** A fault of a flow in the form that this site has. */
interface Present {
  readonly flow: string;
  readonly fault: Fault;
  readonly shows: Shows;
}

/** The answer that this site shows, of those that it may. */
export function one(shown: Shown, chance: Chance): string {
  return typeof shown === 'string' ? shown : chance.pick(shown);
}

function truthOf(flow: string): Truth {
  const truth = truths[flow];
  if (!truth) throw new RangeError(`nobody has written what sites of the flow "${flow}" show`);
  return truth;
}

/** A fault, and one of the flow that it leads to, and so on. */
function behind(knowledge: Knowledge, flow: string, fault: Fault, seed: number): Present[] {
  const forms = truthOf(flow).faults[fault.id] ?? [];
  const shows = forms[Math.floor(new Chance(seed, 'form', fault.id).share() * forms.length)];
  if (!shows) throw new RangeError(`nobody has written what a site with "${fault.id}" shows`);
  const present = { flow, fault, shows };
  const next = fault.leadsTo === undefined ? undefined : knowledge.flows[fault.leadsTo];
  if (!next || next.circuit !== undefined) return [present];
  return [present, ...behind(knowledge, next.id, drawn(knowledge, next, seed), seed)];
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
