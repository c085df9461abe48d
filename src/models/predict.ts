import type { Check } from '../knowledge/schema/check.ts';
import type { Surroundings } from './bench.ts';
import { factPredictor } from './facts.ts';
import type { Predict } from './instance.ts';
import { lampPredictor, tablePredictor } from './looks.ts';
import { readingPredictor } from './readings.ts';

/** How one check is predicted from a draw; the plan is made once for the check. */
export function predictor(check: Check, around: Surroundings): Predict {
  switch (check.kind) {
    case 'reading':
      return readingPredictor(check, around);
    case 'fact':
      return factPredictor(check, around.circuit);
    default:
      return check.shows.rule === 'lamp'
        ? lampPredictor(check, check.shows, around)
        : tablePredictor(check, check.shows);
  }
}
