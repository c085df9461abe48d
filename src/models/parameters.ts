import { nearest } from './sizes.ts';
import { parseSize } from '../quantities/conductor-size.ts';
import type { FactCheck } from '../knowledge/schema/check.ts';
import type { Circuit, Spread } from '../knowledge/schema/circuit.ts';
import type { Fault } from '../knowledge/schema/fault.ts';

/** A drawn parameter: a number in its base unit (sizes in mm2), or the name of a choice. */
export type Drawn = number | string;

/** How likely what was told is, were the parameter this. At most 1. */
export type Telling = (value: Drawn) => number;

/** One parameter's spread, already weighed by what was told of it. */
export interface Distribution {
  /** The value at a share of the whole, by inverse distribution. */
  at(share: number): Drawn;
  /** How likely what was told is under this spread. */
  readonly marginal: number;
}

/** No fact makes a fault quite impossible: somebody may have told it wrong. */
const leastLikely = 1e-6;

/** A spread, a number or a choice as a distribution, conditioned on what was told, exactly but for a 96-point grid. */
export function distribution(spread: Spread | Drawn, telling: Telling | undefined): Distribution {
  if (typeof spread !== 'object') {
    return { at: () => spread, marginal: telling ? Math.max(telling(spread), leastLikely) : 1 };
  }
  if ('range' in spread) return ranged(spread, telling);
  const entries: [Drawn, number][] =
    'sizes' in spread
      ? Object.entries(spread.sizes).map(([size, weight]) => [mm2(size), weight])
      : Object.entries(spread.choices);
  return listed(entries, telling);
}

/** The telling of one fact: its parameter's likelihood for what was said. `told` is a number or the choice's index. */
export function tellingOf(check: FactCheck, told: number, circuit: Circuit): Telling {
  const { answer } = check;
  switch (answer.kind) {
    case 'number':
      return (value) => Math.exp(-0.5 * (Math.log(told / Number(value)) / answer.error) ** 2);
    case 'size': {
      const sizes = sizesOf(circuit, check.parameter);
      const index = nearest(sizes, told);
      return (value) => {
        const apart = Math.abs(nearest(sizes, Number(value)) - index);
        return apart === 0 ? 1 - answer.slip : apart === 1 ? answer.slip / 2 : leastLikely;
      };
    }
    case 'choice': {
      const chosen = answer.choices[told];
      const other = answer.slip / (answer.choices.length - 1);
      return (value) => {
        if (!chosen) return 1;
        const { band } = chosen;
        const fits = band ? Number(value) >= band[0] && Number(value) < band[1] : value === chosen.id;
        return fits ? 1 - answer.slip : other;
      };
    }
  }
}

/** The forms that a fault can take: one without changes of its own where none is named. */
export function formsOf(fault: Fault): readonly Pick<Fault['oneOf'][number], 'weight' | 'changes'>[] {
  return fault.oneOf.length > 0 ? fault.oneOf : [{ weight: 1, changes: {} }];
}

/** The form at a share of the weight of all. */
export function formOf(fault: Fault, share: number): number {
  const forms = formsOf(fault);
  let left = share * forms.reduce((sum, { weight }) => sum + weight, 0);
  const found = forms.findIndex(({ weight }) => (left -= weight) < 0);
  return found < 0 ? forms.length - 1 : found;
}

/** What a fault makes of the parameters: its own changes, with those of one of its forms. */
export function changesOf(fault: Fault, form: number): Fault['changes'] {
  return { ...fault.changes, ...formsOf(fault)[form]?.changes };
}

/** Whether a fault leaves the circuit as it is: it shows in looks alone, or nowhere. */
export function changesNothing(fault: Fault): boolean {
  return formsOf(fault).every((_, form) => Object.keys(changesOf(fault, form)).length === 0);
}

/** Every size that the circuit's cable may have, thinnest first (mm2). */
export function sizesOf(circuit: Circuit, parameter: string): number[] {
  const spread = circuit.parameters[parameter];
  const sizes = spread && 'sizes' in spread ? Object.keys(spread.sizes).map(mm2) : [];
  return [...new Set(sizes)].sort((a, b) => a - b);
}

function mm2(size: string): number {
  const parsed = parseSize(size);
  if (!parsed.ok) throw new RangeError(`"${size}" is no conductor size`);
  return parsed.value;
}

const gridPoints = 96;

function ranged(
  { range: [low, high], scale }: Extract<Spread, { range: unknown }>,
  telling: Telling | undefined,
): Distribution {
  const along = (share: number): number =>
    scale === 'log' && low > 0 ? low * (high / low) ** share : low + share * (high - low);
  if (!telling) return { at: along, marginal: 1 };
  const cells = Array.from({ length: gridPoints }, (_, i) => telling(along((i + 0.5) / gridPoints)));
  const all = cells.reduce((sum, each) => sum + each, 0);
  if (!(all > gridPoints * leastLikely)) return { at: along, marginal: leastLikely };
  const at = (share: number): number => {
    let left = share * all;
    let i = 0;
    for (; i < gridPoints - 1 && left >= (cells[i] ?? 0); i++) left -= cells[i] ?? 0;
    return along((i + Math.min(left / Math.max(cells[i] ?? 0, 1e-300), 1)) / gridPoints);
  };
  return { at, marginal: all / gridPoints };
}

function listed(entries: readonly [Drawn, number][], telling: Telling | undefined): Distribution {
  const told = entries.map(([value, weight]): [Drawn, number] => [value, weight * (telling?.(value) ?? 1)]);
  const prior = entries.reduce((sum, [, weight]) => sum + weight, 0);
  const all = told.reduce((sum, [, weight]) => sum + weight, 0);
  const used = all > 0 ? told : entries;
  const total = all > 0 ? all : prior;
  return {
    at: (share) => {
      let left = share * total;
      const found = used.find(([, weight]) => weight > 0 && (left -= weight) < 0);
      return found?.[0] ?? used.findLast(([, weight]) => weight > 0)?.[0] ?? 0;
    },
    marginal: Math.max(all / prior, leastLikely),
  };
}
