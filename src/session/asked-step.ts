import type { Step } from '../dialogue/machine.ts';
import type { Asked } from './events.ts';

/** What a repair still owes when it is asked. */
export function owed({ proofs, retakes, beside, closes }: Extract<Asked, { kind: 'repair' }>) {
  return { proofs, mended: retakes !== undefined || closes === true, beside: beside === true };
}

/** The step of the machine that a question is; null for one that is part of another. */
export function stepOf(asked: Asked): Step | null {
  if (asked.kind === 'check') return { kind: 'check', id: asked.step };
  if (asked.kind === 'repair') return { kind: 'repair', id: asked.step };
  if (asked.kind === 'refer') return { kind: 'refer' };
  return null;
}

/** Whether two steps ask for the same. */
export function sameStep(a: Step, b: Step | null): boolean {
  return b !== null && a.kind === b.kind && ('id' in a ? a.id : '') === ('id' in b ? b.id : '');
}
