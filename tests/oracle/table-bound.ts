import type { Check } from '../../src/knowledge/schema/check.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { Chance } from './sites/chance.ts';
import { one } from './sites/table-site.ts';
import { truths } from './sites/truths/by-flow.ts';
import type { Shown, Shows } from './sites/truths/truth.ts';

/** Shares of sites whose right repair is the likeliest, every check answered once and one answer in ten wrong. */
export interface Bound {
  /** To whoever knows how the sites were made: nobody can do better (Bayes). */
  readonly best: number;
  /** To the knowledge's tables, each check taken by itself. */
  readonly tables: number;
}

type Tabled = Extract<Check, { choices: unknown; shows: unknown }>;

/** What can be known at most on sites of a flow that stands on tables. Checks whose needs are not met are not answered. */
export function tableBound(knowledge: Knowledge, flowId: string, sites: number, seed: number): Bound {
  const causes = causesOf(knowledge, flowId);
  const checks = (knowledge.flows[flowId]?.checks ?? []).flatMap((id) => {
    const check = knowledge.checks[id];
    return check && 'shows' in check && !knowledge.flows[flowId]?.acceptance.includes(id) ? [check] : [];
  });
  const hits = { best: 0, tables: 0 };
  for (let site = seed; site < seed + sites; site++) {
    const is = causes[Number(new Chance(site, 'cause').pick(weightsOf(causes)))];
    if (!is) throw new RangeError(`the flow "${flowId}" has no faults`);
    const said = answers(checks, is.shows, site);
    if (likeliest(causes, (cause) => byTruth(cause.shows, said)) === is.repair) hits.best++;
    if (likeliest(causes, (cause) => byTable(cause.fault, said)) === is.repair) hits.tables++;
  }
  return { best: hits.best / sites, tables: hits.tables / sites };
}

/** One form of one fault, as often as it is met. */
interface Cause {
  readonly fault: string;
  readonly repair: string;
  readonly weight: number;
  readonly shows: Shows;
}

function causesOf({ flows, faults }: Knowledge, flowId: string): Cause[] {
  const truth = truths[flowId];
  return (flows[flowId]?.faults ?? []).flatMap((fault) => {
    const forms = truth?.faults[fault] ?? [];
    const { weight = 0, repair = '' } = faults[fault] ?? {};
    return forms.map((form) => ({
      fault,
      repair,
      weight: weight / forms.length,
      shows: { ...truth?.good, ...form },
    }));
  });
}

const weightsOf = (causes: readonly Cause[]): Record<string, number> =>
  Object.fromEntries(causes.map(({ weight }, i) => [String(i), weight]));

interface Said {
  readonly check: Tabled;
  readonly answer: string;
}

const wrongShare = 0.1;

function answers(checks: readonly Tabled[], shows: Shows, site: number): Said[] {
  const said = checks.map((check): Said => {
    const right = one(shows[check.id] ?? '', new Chance(site, 'true', check.id));
    const chance = new Chance(site, 'said', check.id);
    const wrong = check.choices.flatMap(({ id }) => (id === right ? [] : [[id, 1] as const]));
    return { check, answer: chance.happens(wrongShare) ? chance.pick(Object.fromEntries(wrong)) : right };
  });
  const of = new Map(said.map(({ check, answer }) => [check.id, answer]));
  return said.filter(({ check }) =>
    Object.entries(check.needs).every(([id, allowed]) => allowed.includes(of.get(id) ?? '')),
  );
}

function byTruth(shows: Shows, said: readonly Said[]): number {
  return said.reduce((sum, { check, answer }) => {
    const right = shareOf(shows[check.id] ?? '', answer);
    const slip = wrongShare / (check.choices.length - 1);
    return sum + Math.log((1 - wrongShare) * right + slip * (1 - right));
  }, 0);
}

function shareOf(shown: Shown, answer: string): number {
  if (typeof shown === 'string') return Number(shown === answer);
  const all = Object.values(shown).reduce((sum, weight) => sum + weight, 0);
  return (shown[answer] ?? 0) / all;
}

function byTable(fault: string, said: readonly Said[]): number {
  return said.reduce((sum, { check: { shows }, answer }) => {
    if (shows.rule !== 'table') return sum;
    const row = shows.faults[fault] ?? shows.any ?? shows.default;
    const all = Object.values(row).reduce((total, share) => total + share, 0);
    return sum + Math.log(Math.max((row[answer] ?? 0) / all, 1e-6));
  }, 0);
}

/** The repair of which all causes together are likeliest, by log-likelihood and weight. */
function likeliest(causes: readonly Cause[], score: (cause: Cause) => number): string {
  const scores = causes.map((cause) => score(cause) + Math.log(cause.weight));
  const top = Math.max(...scores);
  const byRepair = new Map<string, number>();
  causes.forEach(({ repair }, i) => {
    byRepair.set(repair, (byRepair.get(repair) ?? 0) + Math.exp((scores[i] ?? -Infinity) - top));
  });
  return [...byRepair].reduce((best, each) => (each[1] > best[1] ? each : best))[0];
}
