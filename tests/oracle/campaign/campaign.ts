import { findRoot, loadKnowledge } from '../../../src/knowledge/load.ts';
import type { Knowledge } from '../../../src/knowledge/schema/knowledge.ts';
import { converse } from '../../../src/session/conversation.ts';
import type { Strategy } from '../../../src/session/strategy.ts';
import { sitesByFlow } from '../sites/by-flow.ts';
import { hostile } from '../sites/hostile.ts';
import type { SimulatedSite } from '../sites/simulated-site.ts';
import { TableSite } from '../sites/table-site.ts';
import { walk, type Outcome } from './run.ts';

export interface CampaignOptions {
  flow: string;
  sites: number;
  seed: number;
  wide: boolean;
  /** As many sites of each fault, instead of as often as it is met. */
  stratified: boolean;
  fault?: string;
  /** The kind of hostile site, where the sites are not fair. */
  hostile?: string;
  /** How the next step is chosen. */
  strategy: Strategy;
  verbose: boolean;
}

/** The knowledge of the source tree, never of the build. */
export function sourceKnowledge(): Knowledge {
  const root = findRoot(import.meta.dirname);
  if (root === undefined) throw new Error('no folder above this one holds knowledge/ and flows/');
  return loadKnowledge(root);
}

/** One site, and the conversation about it. `index` counts from 0. */
export async function oneSite(
  knowledge: Knowledge,
  options: CampaignOptions,
  index: number,
): Promise<Outcome> {
  const seed = options.seed + index;
  const site = makeSite(knowledge, options, seed, index);
  const conversation = converse({
    knowledge,
    hash: 'campaign',
    version: '0.0.0',
    seat: 'board',
    // Not the site's own number: what the session draws has nothing to do with what is wrong.
    seed: (seed * 7919 + 12345) % 2 ** 31,
    flow: options.flow,
    strategy: options.strategy,
    journal: { id: `site-${seed}`, append: () => undefined },
  });
  const hear = options.verbose ? (line: string) => console.log(line) : undefined;
  hear?.(`\n=== site ${seed}: ${site.truth.faults.join(', ')}, mended by ${site.truth.repair}`);
  return walk(conversation, site, { seed, minutesOf: minutesIn(knowledge), hear });
}

/** Minutes of a check, an act at the site or a repair, as the knowledge has them. */
function minutesIn({ checks, transitions, repairs }: Knowledge): (step: string) => number | undefined {
  const all = new Map<string, number>();
  for (const [id, { minutes }] of [
    ...Object.entries(checks),
    ...Object.entries(transitions),
    ...Object.entries(repairs),
  ])
    all.set(id, minutes);
  return (step) => all.get(step);
}

function makeSite(
  knowledge: Knowledge,
  { flow, wide, stratified, fault, hostile: kind }: CampaignOptions,
  seed: number,
  index: number,
): SimulatedSite {
  if (kind !== undefined) {
    const made = hostile[kind];
    if (!made || flow !== 'low-supply')
      throw new RangeError(`Hostile sites are of low-supply: ${Object.keys(hostile).join(', ')}.`);
    return made({ seed, wide, fault });
  }
  const known = knowledge.flows[flow];
  const tables = known && known.circuit === undefined ? known : undefined;
  const sites = sitesByFlow[flow];
  if (!sites && !tables) {
    const simulated = Object.keys(sitesByFlow).join(', ');
    throw new RangeError(
      `There is no simulated site for the flow "${flow}". There are: ${simulated}, and any flow without a circuit.`,
    );
  }
  const faults = sites?.faults ?? tables?.faults ?? [];
  if (fault !== undefined && !faults.includes(fault))
    throw new RangeError(`There is no fault "${fault}". There are: ${faults.join(', ')}.`);
  const next = fault ?? (stratified ? faults[index % faults.length] : undefined);
  return sites
    ? sites.site({ seed, wide, fault: next })
    : new TableSite({ knowledge, flow, seed, wide, fault: next });
}
