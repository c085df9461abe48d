import type { Prediction } from '../diagnosis/model.ts';
import type { FactCheck } from '../knowledge/schema/check.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Bench } from './bench.ts';

/** What a person tells of a parameter, with the error of telling. */
export function factPredictor(check: FactCheck, circuit: Circuit): (bench: Bench) => Prediction {
  const index = Object.keys(circuit.parameters).indexOf(check.parameter);
  const { answer } = check;
  switch (answer.kind) {
    case 'number':
      return ({ draw }) => ({
        kind: 'value',
        value: Number(draw[index]),
        spread: answer.error * Math.abs(Number(draw[index])),
      });
    case 'size':
      return ({ draw }) => ({
        kind: 'value',
        value: Number(draw[index]),
        spread: 0.12 * Number(draw[index]),
      });
    case 'choice': {
      const { choices, slip } = answer;
      const other = slip / (choices.length - 1);
      return ({ draw }) => {
        const value = draw[index];
        const fits = choices.map(({ id, band }) =>
          band ? Number(value) >= band[0] && Number(value) < band[1] : value === id,
        );
        return { kind: 'choice', odds: fits.map((fit) => (fit ? 1 - slip : other)) };
      };
    }
  }
}
