import { classesOf } from '../../signals/classify.ts';
import { unknown } from '../nearest.ts';
import type { Rule } from '../references.ts';

/** An entry's choices are the classes of its classifier; what is not offered comes under the choice other. */
export const entryClasses: Rule = function* (k) {
  for (const [id, check] of Object.entries(k.checks)) {
    if (check.kind !== 'entry') continue;
    const path = ['checks', id, 'choices'];
    const classes = classesOf[check.classifier];
    const offered = check.choices.map((choice) => choice.id);
    for (const [i, choice] of offered.entries()) {
      if (choice === 'other' || classes.includes(choice)) continue;
      yield unknown(`class of ${check.classifier}`, choice, [...classes, 'other'], [...path, i, 'id']);
    }
    const missing = classes.filter((each) => !offered.includes(each));
    if (missing.length > 0 && !offered.includes('other')) {
      const instead = 'Offer each of them as a choice, or offer the choice other.';
      yield { path, what: `${missing.join(', ')} would have no choice`, instead, atKey: true };
    }
  }
};
