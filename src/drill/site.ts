import { whileThere } from '../diagnosis/likelihood.ts';
import type { Instance, Prediction, Steady } from '../diagnosis/model.ts';
import type { Prompt } from '../dialogue/messages.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Flow, Meter } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { circuitModel, type FlowModel } from '../models/circuit.ts';
import { formatQuantity } from '../quantities/format.ts';
import { exampleOf } from '../signals/example.ts';
import { drillTells } from '../wording/drill.ts';
import { isSeen } from './noticed.ts';
import type { Luck } from './luck.ts';
import { meterWords } from './meter-words.ts';

export interface SiteOptions {
  readonly knowledge: Knowledge;
  readonly flow: Flow;
  /** The one thing that is wrong. */
  readonly fault: string;
  readonly luck: Luck;
}

/** What a site has to say to one prompt: as a person would type it, and in words. */
export interface Shown {
  readonly typed: string;
  readonly told: string;
}

/** A site made from the flow's own circuit and tables, with one fault: it answers every prompt until it is mended, and then. */
export class ModelSite {
  isMended = false;
  private readonly flows = new Map<string, Modelled>();
  private readonly own: Modelled;

  constructor(private readonly options: SiteOptions) {
    this.own = this.at(options.flow);
  }

  /** Somebody has done this repair; what it does not cure stays as it was. */
  repaired(repair: string): void {
    if (this.options.knowledge.faults[this.options.fault]?.repair === repair) this.isMended = true;
  }

  /** Whether the fault shows in what the flow is about, so that somebody would call for it. */
  get isNoticed(): boolean {
    const { flow } = this.options;
    return flow.acceptance.some((id) => isSeen(this.own.predict(id, false), this.own.predict(id, true)));
  }

  /** `which` tells one time that the same is asked from another. */
  shows(prompt: Prompt, which = ''): Shown {
    const { knowledge } = this.options;
    if (prompt.purpose === 'brief') return briefed(knowledge, prompt);
    if (asksOfDanger(prompt)) return { typed: prompt.choices?.[0]?.id ?? '', told: drillTells.noDanger };
    if (prompt.kind === 'confirm')
      return { typed: 'done', told: prompt.purpose === 'repair' ? drillTells.repair : drillTells.nothing };
    const check = knowledge.checks[prompt.step];
    if (check) return this.found(check, prompt, which);
    // What is read before dead work: the prompt's own site is isolated, so that nothing is there but the meter's error.
    return prompt.reading ? this.read(0, prompt.reading.quantity, `${prompt.step} ${which}`) : nothing;
  }

  private found(check: Check, { choices = [], flow }: Prompt, which: string): Shown {
    const prediction = whileThere(this.modelFor(check, flow).predict(check.id, this.isMended));
    const of = `${check.id}${this.isMended ? ' mended' : ''}`;
    if (prediction.kind === 'choice') {
      const picked = this.options.luck.pick(prediction.odds, of);
      return check.kind === 'entry' ? typedEntry(check, picked) : chosen(choices[picked]);
    }
    const value = this.within(prediction, of);
    if (check.kind === 'reading') return this.read(value, check.quantity, `${of} ${which}`);
    const quantity = check.kind === 'fact' && check.answer.kind === 'number' ? check.answer.quantity : 'size';
    const typed = formatQuantity(value, quantity);
    return { typed, told: drillTells.answer(typed) };
  }

  private read(value: number, quantity: keyof Meter['errors'], which: string): Shown {
    const typed = meterWords(this.options.luck.reads(value, quantity, which), quantity);
    return { typed, told: drillTells.meter(typed) };
  }

  /** A value as it stands at this site; where it never stands still, the one that is caught. */
  private within(prediction: Exclude<Steady, { kind: 'choice' }>, of: string): number {
    if (prediction.kind === 'value') return prediction.value;
    const { low, high } = prediction;
    return low + this.options.luck.share(`${of} caught`) * (high - low);
  }

  /** The site as the drill's own flow sees it, or the flow that asks: for what the first has no part in. */
  private modelFor(check: Check, asking: string | undefined): Modelled {
    const { knowledge } = this.options;
    const flow = knowledge.flows[asking ?? ''];
    return this.own.has(check) || !flow ? this.own : this.at(flow);
  }

  private at(flow: Flow): Modelled {
    const known = this.flows.get(flow.id) ?? new Modelled(this.options, flow);
    this.flows.set(flow.id, known);
    return known;
  }
}

/** The site in the eyes of one flow; a good one where the flow does not know the fault. */
class Modelled {
  private readonly model: FlowModel;
  private readonly instance: Instance;
  private readonly faults: readonly number[];

  constructor(
    { knowledge, fault, luck }: SiteOptions,
    private readonly flow: Flow,
  ) {
    this.model = circuitModel({ knowledge, flow, meter: meterAt(knowledge), facts: new Map() });
    const place = this.model.faults.findIndex(({ id }) => id === fault);
    this.faults = place < 0 ? [] : [place];
    const parameters = Object.keys(knowledge.circuits[flow.circuit ?? '']?.parameters ?? {});
    const numbers = [...parameters, 'form'].map((of) => luck.share(of));
    const length = this.model.dimensions(this.faults);
    this.instance = this.model.instance(this.faults, Float64Array.from(numbers.slice(0, length)));
    this.parameters = new Set(parameters);
  }

  private readonly parameters: ReadonlySet<string>;

  predict(check: string, isMended: boolean): Prediction {
    return this.instance.predict(this.model.question(check), isMended ? this.faults : []);
  }

  /** Whether a check is this flow's own, or is at points and parameters of its circuit. */
  has(check: Check): boolean {
    if (this.flow.checks.includes(check.id)) return true;
    if (check.kind === 'fact') return this.parameters.has(check.parameter);
    const isPhysical = check.kind === 'reading' || check.shows.rule === 'lamp';
    return isPhysical && this.model.foretells(check.id);
  }
}

const nothing: Shown = { typed: 'unknown', told: drillTells.nothing };

/** Whether a value was typed that could kill, and is asked about. */
export function asksOfDanger({ purpose, choices }: Prompt): boolean {
  return purpose === 'challenge' && choices !== undefined;
}

/** The meter of whoever answers the briefing as a site does; the first there is, where nobody asks. */
export function meterAt(knowledge: Knowledge): Meter {
  const answered = Object.keys(knowledge.brief).flatMap((id) => safeChoice(knowledge, id)?.meter ?? []);
  const meter = knowledge.meters[answered[0] ?? ''] ?? Object.values(knowledge.meters)[0];
  if (!meter) throw new RangeError('the knowledge has no meter');
  return meter;
}

/** The briefing of a site on which work can go on. */
function briefed(knowledge: Knowledge, { step }: Prompt): Shown {
  const choice = safeChoice(knowledge, step);
  const typed = choice?.id ?? '555 0142';
  return { typed, told: drillTells.answer(choice?.label ?? typed) };
}

function safeChoice({ brief }: Knowledge, step: string) {
  const choices = brief[step]?.choices ?? [];
  return choices.find(({ does }) => does === 'on-test') ?? choices.find(({ does }) => does === 'go-on');
}

function typedEntry(check: Extract<Check, { kind: 'entry' }>, picked: number): Shown {
  const among = check.choices.map(({ id }) => id);
  const typed = exampleOf(check.classifier, among[picked] ?? '', among);
  return { typed, told: drillTells.reads(typed) };
}

function chosen(choice: NonNullable<Prompt['choices']>[number] | undefined): Shown {
  return choice ? { typed: choice.id, told: drillTells.answer(choice.label) } : nothing;
}
