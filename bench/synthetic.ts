import { uniform } from '../src/diagnosis/draws.ts';
import type { Evidence, Model, ModelFault, Prediction, Question } from '../src/diagnosis/model.ts';
import { tableModel } from '../src/models/table.ts';

/** A made-up model of any number of faults, what can be asked of it, and what one of its faults has answered. */
export interface Synthetic {
  readonly model: Model;
  readonly questions: readonly Question[];
  readonly evidence: readonly Evidence[];
}

const asked = 3;

/** Twelve questions of three answers; each fault gives one of them nine times in ten. */
export function syntheticTable(count: number, seed: number): Synthetic {
  const answers = ['dark', 'dim', 'steady'];
  const questions = Array.from({ length: 12 }, (_, q): Question => ({ key: `look-${q}`, answers }));
  const faults = faultsOf(count, seed);
  const answerOf = (fault: string, key: string): number =>
    Math.floor(uniform(seed, fault, key) * answers.length);
  const rows = faults.map(({ id }) => ({
    faults: [id],
    answers: Object.fromEntries(
      questions.map(({ key }) => [key, answers.map((_, a) => (a === answerOf(id, key) ? 0.9 : 0.05))]),
    ),
  }));
  const evidence = questions
    .slice(0, asked)
    .map((question): Evidence => ({ question, answer: answerOf('fault-0', question.key), after: [] }));
  return { model: tableModel(faults, rows), questions, evidence };
}

/**
 * A run of copper with a load at its end, read in volts at twelve places along it. A fault is a bad joint or a leak
 * somewhere along the run, of any ohms; volts, copper and load are uncertain too.
 */
export function syntheticRun(count: number, seed: number): Synthetic {
  const faults = faultsOf(count, seed);
  const questions = Array.from({ length: 12 }, (_, q): Question => ({
    key: `${q / 11}`,
    answers: 'value',
    span: [0, 15],
  }));
  const model: Model = {
    faults,
    dimensions: (set) => 3 + set.length,
    instance: (set, draw) => ({
      predict(question, healed): Prediction {
        const left = set.flatMap((fault, k) =>
          healed.includes(fault) ? [] : [{ fault, share: draw[3 + k] ?? 0 }],
        );
        return voltsAt(Number(question.key), left, draw, count);
      },
    }),
  };
  const truth = model.instance([0], new Float64Array(4).fill(0.5));
  const evidence = questions.slice(-asked).flatMap((question): Evidence[] => {
    const shown = truth.predict(question, []);
    return shown.kind === 'value' ? [{ question, answer: shown.value, after: [] }] : [];
  });
  return { model, questions, evidence };
}

/** Even faults are bad joints, odd ones leaks, each at a place of its own. */
function voltsAt(
  place: number,
  faults: readonly { fault: number; share: number }[],
  [supply = 0, copper = 0, load = 0]: Float64Array,
  count: number,
): Prediction {
  const amps = 0.05 + 0.1 * load;
  const run = 1 + 3 * copper;
  let value = 13.2 + 0.8 * supply - amps * run * place;
  for (const { fault, share } of faults) {
    const at = (fault + 0.5) / count;
    const ohms = 5 * 20 ** share;
    if (fault % 2 === 0) value -= place > at ? amps * ohms : 0;
    else value -= (12 / (run + ohms)) * run * Math.min(place, at);
  }
  return { kind: 'value', value: Math.max(value, 0), spread: 0.03 };
}

function faultsOf(count: number, seed: number): ModelFault[] {
  return Array.from({ length: count }, (_, f) => ({
    id: `fault-${f}`,
    weight: 1 + 9 * uniform(seed, 'weight', f),
    repair: `repair-${f}`,
  }));
}
