import { checkTarget, groundOf, repairTarget } from '../../../src/dialogue/targets.ts';
import type { Knowledge } from '../../../src/knowledge/schema/knowledge.ts';
import type { Standing, Target } from '../../../src/site/act.ts';
import { done, plan } from '../../../src/site/plan.ts';
import { inService } from '../../../src/site/state.ts';

/**
 * Minutes of a technician who knows what is wrong: the acts that lead to the repair, the repair, the symptom's
 * acceptance with the acts that it needs, and the site back in service and off test. Every act, repair and reading
 * takes what it takes in a session; nothing is asked and nothing fails.
 */
export function minutesKnowing(knowledge: Knowledge, flowId: string, repairId: string): number {
  const flow = knowledge.flows[flowId];
  const repair = knowledge.repairs[repairId];
  if (!flow || !repair) throw new RangeError(`no repair "${repairId}" in a flow "${flowId}"`);
  const ground = groundOf(knowledge, flow);
  const proofs = repair.way === 'mend' ? flow.acceptance : [];
  const onTest = { ...inService, onTest: true };
  const legs: { target: Target; minutes: number }[] = [
    { target: repairTarget(knowledge, repairId, onTest), minutes: repair.minutes },
    ...proofs.map((id) => ({
      target: checkTarget(knowledge, id, onTest),
      minutes: knowledge.checks[id]?.minutes ?? 0,
    })),
    { target: { site: inService }, minutes: 0 },
  ];
  let standing: Standing = { site: { ...inService, onTest: true }, known: true, proved: [] };
  let all = 0;
  for (const { target, minutes } of legs) {
    for (const act of plan(standing, target, ground)) {
      all += knowledge.transitions[act.kind]?.minutes ?? 0;
      standing = done(standing, act);
    }
    all += minutes;
  }
  return all;
}
