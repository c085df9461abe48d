import type { Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Act } from '../site/act.ts';
import { needsMet } from './needs.ts';
import type { Visit } from './visit.ts';

/** What could hurt at an act, by id: what the briefing was answered so that it is warned of again, then its own. */
export function actCautions({ knowledge, state }: Visit, act: Act): readonly string[] {
  const { warns = [], cautions = [] } = knowledge.transitions[act.kind] ?? {};
  const again = warns.filter((each) => needsMet(knowledge, state.told, each));
  return [...again.map(({ caution }) => caution), ...cautions];
}

/** What could hurt at a repair or a check, by id. */
export function stepCautions(
  knowledge: Knowledge,
  { purpose, step }: Pick<Prompt, 'purpose' | 'step'>,
): readonly string[] {
  const steps = purpose === 'repair' ? knowledge.repairs : knowledge.checks;
  return steps[step]?.cautions ?? [];
}
