import type { Prediction } from '../diagnosis/model.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Bench, Surroundings } from './bench.ts';
import { factPredictor } from './facts.ts';
import { lampPredictor, tablePredictor } from './looks.ts';
import { readingPredictor } from './readings.ts';

/** How one check is predicted from a draw; the plan is made once for the check. */
export function predictor(check: Check, around: Surroundings): (bench: Bench) => Prediction {
  const predict = planned(check, around);
  return (bench) => {
    const known = bench.predictions.get(predict);
    if (known) return known;
    const made = predict(bench);
    bench.predictions.set(predict, made);
    return made;
  };
}

function planned(check: Check, around: Surroundings): (bench: Bench) => Prediction {
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
