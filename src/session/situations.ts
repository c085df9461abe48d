import type { Minutes } from '../diagnosis/decision.ts';
import type { MachineContext } from '../dialogue/machine.ts';
import { groundOf } from '../dialogue/targets.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { walkMinutes } from '../knowledge/walk.ts';
import type { Act, Standing, Target } from '../site/act.ts';
import { plan, proofOf } from '../site/plan.ts';
import { inService, isUnpowered } from '../site/state.ts';

/** Every distinct site and place, and the minutes between them. */
export class Situations {
  private readonly list: { target: Target; place: string; standing: Standing }[];
  private readonly now: Standing;

  constructor(
    private readonly knowledge: Knowledge,
    private readonly flow: Flow,
    context: MachineContext,
    place: string,
  ) {
    const { standing } = context;
    this.now = standing;
    this.list = [{ target: { site: standing.site }, place, standing }];
  }

  of(target: Target, place: string): number {
    const key = keyOf(target, place);
    const found = this.list.findIndex((each, i) => i > 0 && keyOf(each.target, each.place) === key);
    if (found > 0) return found;
    this.list.push({ target, place, standing: this.arrived(target) });
    return this.list.length - 1;
  }

  /** Whether nothing has to be done to the site for it. */
  isHere(target: Target): boolean {
    return this.actsTo(this.now, target).length === 0;
  }

  minutes(): Minutes {
    const { refer, wrong } = this.knowledge.costs;
    const n = this.list.length;
    const move = new Float64Array(n * n);
    const restore = new Float64Array(n);
    this.list.forEach((from, i) => {
      this.list.forEach((to, j) => (move[i * n + j] = i === j ? 0 : this.between(from, to)));
      restore[i] = this.acts(from.standing, { site: inService });
    });
    return { situations: n, start: 0, move, restore, refer, wrong };
  }

  private between(
    from: { standing: Standing; place: string },
    to: { target: Target; place: string },
  ): number {
    return walkMinutes(this.knowledge, from.place, to.place) + this.acts(from.standing, to.target);
  }

  private acts(standing: Standing, target: Target): number {
    return this.actsTo(standing, target).reduce(
      (sum, { kind }) => sum + (this.knowledge.transitions[kind]?.minutes ?? 0),
      0,
    );
  }

  private actsTo(standing: Standing, target: Target): Act[] {
    const site = { ...target.site, onTest: standing.site.onTest };
    return plan(standing, { ...target, site }, groundOf(this.knowledge, this.flow));
  }

  /** How the site stands once a target is reached, with the proofs taken on the way. */
  private arrived(target: Target): Standing {
    if (!isUnpowered(target.site)) return { site: target.site, known: true, proved: [] };
    const [what, and] = groundOf(this.knowledge, this.flow).proveDeadAt;
    const proved = [
      proofOf({ kind: 'prove-meter' }),
      proofOf({ kind: 'prove-dead-dc', what, and }),
      proofOf({ kind: 'prove-dead-ac', what, and }),
      proofOf({ kind: 'prove-meter-again' }),
    ];
    return { site: target.site, known: true, proved };
  }
}

function keyOf(target: Target, place: string): string {
  return JSON.stringify([target.site, target.ohms, target.dead, place]);
}
