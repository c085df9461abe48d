import { noSignals } from './no-signals.ts';
import { notEnrolling } from './not-enrolling.ts';
import { pathDown } from './path-down.ts';
import type { Truth } from './truth.ts';

/** What sites show, by flow. */
export const truths: Readonly<Record<string, Truth>> = {
  'no-signals': noSignals,
  'not-enrolling': notEnrolling,
  'path-down': pathDown,
};
