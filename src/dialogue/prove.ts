import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Ground, Standing, Target } from '../site/act.ts';
import { done, isProvedDead, plan, proofOf } from '../site/plan.ts';
import type { Site } from '../site/site.ts';
import { inService, siteKey } from '../site/state.ts';
import { unbegun } from './machine.ts';
import { checkTarget, groundOf, repairTarget } from './targets.ts';

export interface Proved {
  /** Ways in which the site can stand, and ways that lead from one of them to something to be done. */
  readonly stands: number;
  readonly ways: number;
  /** What is not safe or leads nowhere, each a sentence without a full stop; none when all is well. */
  readonly faults: readonly string[];
}

/**
 * Model checking of the acts of a flow, exhaustive: from every way in which the site can stand, to everything that the
 * flow can ask or mend and to the end of the visit, every act leaves one less to do, dead work and ohms wait for a site
 * proved dead, and the site ends as it is needed. `planned`: how the acts are planned; `all`: the ways to stand, where
 * they are known.
 */
export function proveFlow(
  knowledge: Knowledge,
  flow: Flow,
  planned: Planned = plan,
  all = standings(knowledge, flow, planned),
): Proved {
  const ground = groundOf(knowledge, flow);
  const faults = new Set<string>();
  let ways = 0;
  for (const from of all) {
    for (const target of targetsOf(knowledge, flow, from.site)) {
      ways++;
      for (const fault of wrongWith(from, target, ground, planned)) faults.add(fault);
    }
  }
  return { stands: all.length, ways, faults: [...faults] };
}

type Planned = typeof plan;

/** Where every check and repair of a flow, and the end of a visit, need the site, from how it is; once where many need the same. */
function targetsOf(knowledge: Knowledge, flow: Flow, here: Site): Target[] {
  const repairs = new Set(flow.faults.flatMap((id) => knowledge.faults[id]?.repair ?? []));
  const all = [true, false].flatMap((onTest): Target[] => [
    ...flow.checks.map((id) => checkTarget(knowledge, id, { ...here, onTest })),
    ...[...repairs].map((id) => repairTarget(knowledge, id, { ...here, onTest })),
    { site: { ...inService, onTest } },
  ]);
  return [...new Map(all.map((target) => [targetKey(target), target])).values()];
}

function targetKey({ site, dead = false, ohms }: Target): string {
  return [siteKey(site), site.onTest, dead, ...(ohms ?? [])].join('|');
}

/** Every way in which the site can stand: whatever was begun, broken off after any act, or found after a resume. */
export function standings(knowledge: Knowledge, flow: Flow, planned: Planned = plan): Standing[] {
  const ground = groundOf(knowledge, flow);
  const found = new Map<string, Standing>();
  const queue: Standing[] = [];
  const add = (standing: Standing): void => {
    const key = standingKey(standing);
    if (!found.has(key)) queue.push(standing);
    found.set(key, standing);
  };
  add(unbegun.standing);
  add({ ...unbegun.standing, site: { ...inService, onTest: true } });
  for (let standing = queue.pop(); standing; standing = queue.pop()) {
    add({ ...standing, known: false, proved: [] });
    for (const target of targetsOf(knowledge, flow, standing.site)) {
      const [act] = planned(standing, target, ground);
      if (act) add(done(standing, act));
    }
  }
  return [...found.values()];
}

/** The same for two standings that nothing can tell apart. */
export function standingKey({ site, known, proved }: Standing): string {
  return JSON.stringify([siteKey(site), site.onTest, known, [...new Set(proved)].sort()]);
}

function* wrongWith(from: Standing, target: Target, ground: Ground, planned: Planned): Iterable<string> {
  let standing = from;
  let acts = planned(standing, target, ground);
  for (let [act] = acts; act; [act] = acts) {
    if (act.dead && !isProvedDead(standing, ground)) yield `"${act.kind}" is asked on a site not proved dead`;
    standing = done(standing, act);
    const left = planned(standing, target, ground);
    if (left.length >= acts.length) {
      yield `"${act.kind}" leads no nearer to where it should`;
      return;
    }
    acts = left;
  }
  const isDead = target.dead === true || target.ohms !== undefined;
  if (isDead && !isProvedDead(standing, ground)) yield 'hands go in before the site is proved dead';
  const [what, and] = target.ohms ?? [];
  for (const kind of ['prove-dead-dc', 'prove-dead-ac'] as const)
    if (what && !standing.proved.includes(proofOf({ kind, what, and })))
      yield `ohms are read on ${what} and ${and ?? ''} before they are proved dead`;
  if (siteKey(standing.site) !== siteKey(target.site)) yield 'the site is not left as it is needed';
}
