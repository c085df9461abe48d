import { uniform } from '../diagnosis/draws.ts';
import type { Fault } from '../knowledge/schema/fault.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { formOf, formsOf } from '../models/parameters.ts';
import { drawn } from './luck.ts';
import { meterAt, ModelSite } from './site.ts';

/** One invented site, by its flow and its seed. */
export interface DrillPlan {
  readonly flow: Flow;
  readonly seed: number;
  readonly fault: Fault;
  /** The form that the fault takes, in words, where it can take several. */
  readonly form: string | null;
  readonly site: ModelSite;
}

/** So many sites of one seed are looked at for one where somebody would notice anything. */
const attempts = 40;

/** The site that everybody with this seed meets. RangeError where nothing in the flow can be mended by whoever is there. */
export function planDrill(knowledge: Knowledge, flow: Flow, seed: number): DrillPlan {
  const found = pick(mendable(knowledge, flow), seed);
  if (!found) throw new RangeError(`flow "${flow.id}" has no fault that is mended on the site`);
  const meter = meterAt(knowledge);
  const planned = (attempt: number): DrillPlan => {
    const luck = drawn(meter, seed, attempt);
    const site = new ModelSite({ knowledge, flow, fault: found.id, luck });
    return { flow, seed, fault: found, form: formWords(found, luck.share('form')), site };
  };
  for (let attempt = 0; attempt < attempts; attempt++) {
    const plan = planned(attempt);
    if (plan.site.isNoticed) return plan;
  }
  return planned(0);
}

/** The flow that a seed means where none is named: any that has something to mend. */
export function flowOf(knowledge: Knowledge, seed: number): Flow | undefined {
  const flows = Object.values(knowledge.flows).filter((flow) => mendable(knowledge, flow).length > 0);
  return flows[Math.floor(uniform(seed, 'flow') * flows.length)];
}

/** Faults that are mended by whoever is there, and lead nowhere else. */
export function mendable({ faults, repairs }: Knowledge, flow: Flow): Fault[] {
  return flow.faults
    .flatMap((id) => faults[id] ?? [])
    .filter(({ repair, leadsTo }) => leadsTo === undefined && repairs[repair]?.way === 'mend');
}

function pick(faults: readonly Fault[], seed: number): Fault | undefined {
  let left = uniform(seed, 'fault') * faults.reduce((sum, { weight }) => sum + weight, 0);
  return faults.find(({ weight }) => (left -= weight) < 0);
}

function formWords(fault: Fault, share: number): string | null {
  const form = formsOf(fault)[formOf(fault, share)];
  return form && 'title' in form && typeof form.title === 'string' ? form.title : null;
}
