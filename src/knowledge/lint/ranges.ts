import type { Spread } from '../schema/circuit.ts';
import type { Finding, Path } from '../problem.ts';
import type { LintRule } from './lint.ts';

/** Every range runs from low to high, and a logarithmic one stays above zero; weights are not all nothing. */
export const orderedRanges: LintRule = function* (k) {
  for (const [id, circuit] of Object.entries(k.circuits)) {
    for (const [name, parameter] of Object.entries(circuit.parameters)) {
      yield* spreadFindings(parameter, ['circuits', id, 'parameters', name]);
    }
  }
  for (const [id, fault] of Object.entries(k.faults)) {
    const forms = fault.oneOf.map((form, i) => ({ path: ['oneOf', i, 'changes'], changes: form.changes }));
    for (const { path, changes } of [{ path: ['changes'], changes: fault.changes }, ...forms]) {
      for (const [name, change] of Object.entries(changes)) {
        if (typeof change === 'object') yield* spreadFindings(change, ['faults', id, ...path, name]);
      }
    }
  }
  for (const [id, terminal] of Object.entries(k.terminals)) {
    yield* backwards(terminal.plausible, ['terminals', id, 'plausible']);
  }
  for (const [id, check] of Object.entries(k.checks)) {
    if (check.kind !== 'fact' || check.answer.kind !== 'choice') continue;
    for (const [i, choice] of check.answer.choices.entries()) {
      if (choice.band) yield* backwards(choice.band, ['checks', id, 'answer', 'choices', i, 'band']);
    }
  }
};

function* spreadFindings(spread: Spread, path: Path): Iterable<Finding> {
  if ('range' in spread) {
    yield* backwards(spread.range, [...path, 'range']);
    if (spread.scale === 'log' && Math.min(...spread.range) <= 0) {
      const what = 'a logarithmic range cannot reach zero or below';
      yield { path: [...path, 'range'], what, instead: 'Start above zero, or leave scale: log out.' };
    }
    return;
  }
  const [field, weights] = 'choices' in spread ? ['choices', spread.choices] : ['sizes', spread.sizes];
  if (Object.values(weights).every((weight) => weight === 0)) {
    yield { path: [...path, field], what: 'no choice has a weight', instead: 'Give at least one more than 0.' };
  }
}

function* backwards([low, high]: readonly [number, number], path: Path): Iterable<Finding> {
  if (low > high) yield { path, what: `${low} to ${high} runs backwards`, instead: `Write [${high}, ${low}].` };
}
