import type { BeliefOptions, Evidence, Model, Prediction, Question } from '../../src/diagnosis/model.ts';

export const usual: BeliefOptions = { seed: 7, draws: 300, outlier: 0.015, unlisted: 0.02, second: 0.02 };

export const volts = (key: string): Question => ({ key, answers: 'value', span: [0, 15] });
export const lamp: Question = { key: 'lamp', answers: ['dark', 'lit'] };

export function reading(key: string, answer: number, after: readonly string[] = []): Evidence {
  return { question: volts(key), answer, after };
}

export function lampIs(answer: 'dark' | 'lit', after: readonly string[] = []): Evidence {
  return { question: lamp, answer: answer === 'dark' ? 0 : 1, after };
}

/**
 * A supply, a run and a load in series, four uncertain numbers in all: a bad joint (0.1 to 100 ohm), a load that draws
 * too much, a supply that is low, a broken wire. A faulty part acts until it is healed.
 */
export const feed: Model = {
  faults: [
    { id: 'joint', weight: 3, repair: 'remake-joint' },
    { id: 'heavy-load', weight: 2, repair: 'replace-load' },
    { id: 'low-supply', weight: 2, repair: 'replace-supply' },
    { id: 'broken-wire', weight: 1, repair: 'replace-wire' },
  ],
  dimensions: () => 4,
  instance: (faults, draw) => {
    const [u = 0, v = 0, w = 0, x = 0] = draw;
    return {
      predict(question, healed): Prediction {
        const has = (fault: number): boolean => faults.includes(fault) && !healed.includes(fault);
        const supply = has(2) ? 8 + 4 * x : 13.2 + 0.8 * u;
        const run = 0.5 + 1.5 * v + (has(0) ? 0.1 * 1000 ** w : 0);
        const load = 12 / (has(1) ? 0.6 + w : 0.25);
        const amps = has(3) ? 0 : supply / (run + load);
        if (question.key === 'lamp') {
          const lit = amps * load > 10.5 ? 0.99 : 0.01;
          return { kind: 'choice', odds: [1 - lit, lit] };
        }
        const value =
          { supply, amps, end: amps * load, middle: has(3) ? supply : supply - (amps * run) / 2 }[
            question.key
          ] ?? 0;
        return { kind: 'value', value, spread: 0.02 + 0.005 * value };
      },
    };
  },
};

export const feedRepairs = feed.faults.map(({ repair }) => ({ id: repair, success: 0.9 }));
