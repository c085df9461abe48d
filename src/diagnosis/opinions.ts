import { hash } from './draws.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { Work } from './model.ts';
import { standing, survey } from './survey.ts';
import type { Survey, Surveyed } from './survey.ts';
import { logSumExp } from './vectors.ts';

/** Opinions that are heard where one set is about to decide. */
const heard = 3;
/** Share of the belief from which a set is about to decide. */
const decisive = 0.7;
/** A set that stands so many nats below the leader, one part in 160,000, is not asked about again. */
const hopeless = 12;

/**
 * All hypotheses against the same evidence, each surveyed once; again from other draws, and on the average, where one
 * of them is about to decide. A handful of draws can miss a narrow part of what a set could be: what is done next
 * should not hang on that. One opinion for each set that is out of the question.
 */
export function* opinions(all: readonly Hypothesis[], context: Survey): Work<Surveyed[][]> {
  const found = (yield* survey(all, context)).map((surveyed) => [surveyed]);
  const leader = Math.max(...found.map(agreed));
  const sum = logSumExp([context.unlisted, ...found.map(agreed)]);
  if (context.items.length === 0 || !(leader - sum > Math.log(decisive))) return found;
  const close = found.flatMap((each, i) => (agreed(each) > leader - hopeless ? [i] : []));
  if (close.length < 2) return found;
  const sets = close.flatMap((i) => all[i] ?? []);
  for (let opinion = 1; opinion < heard; opinion++) {
    const options = { ...context.options, seed: hash(context.options.seed, opinion) };
    const again = yield* survey(sets, { ...context, options });
    again.forEach((surveyed, j) => found[close[j] ?? -1]?.push(surveyed));
  }
  return found;
}

/** ln prior times evidence, on the average of the opinions. */
export function agreed(opinions: readonly Surveyed[]): number {
  return logSumExp(opinions.map(standing)) - Math.log(opinions.length);
}
