import type { Outcomes } from '../diagnosis/frame.ts';
import type { Check } from '../knowledge/schema/check.ts';
import { tradeSizes, type TradeSize } from '../quantities/conductor-size.ts';
import { formatRange } from '../quantities/format.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { valueWords } from './values.ts';

/** What a person would see of the outcomes of a check from one to another: "Under 11.2 V", "22 AWG or thicker", "Yes". */
export function outcomeWords(check: Check, outcomes: Outcomes, from: number, to: number): string {
  if (outcomes.kind === 'choices') return choicesOf(check)[from]?.label ?? '';
  const { edges } = outcomes;
  if (from > edges.length) return 'Over range';
  const [low, high] = [edges[from - 1], edges[to]];
  if (low === undefined && high === undefined) return 'Any value';
  const kind = kindOf(check);
  return (kind === 'size' ? sizesWords(low ?? 0, high ?? Infinity) : null) ?? rangeWords(low, high, kind);
}

function choicesOf(check: Check): readonly { label: string }[] {
  if ('choices' in check) return check.choices;
  return check.kind === 'fact' && check.answer.kind === 'choice' ? check.answer.choices : [];
}

function kindOf(check: Check): QuantityKind {
  if (check.kind === 'reading') return check.quantity;
  return check.kind === 'fact' && check.answer.kind === 'number' ? check.answer.quantity : 'size';
}

function rangeWords(low: number | undefined, high: number | undefined, kind: QuantityKind): string {
  if (low === undefined) return `Under ${valueWords(high ?? NaN, kind)}`;
  if (high === undefined) return `Over ${valueWords(low, kind)}`;
  return formatRange([low, high], kind).join(' to ');
}

/** The sizes that a cable is sold in within a range of mm2, as nobody reads 0.251 mm2 from a cable; null where there are none. */
function sizesWords(low: number, high: number): string | null {
  const within = tradeSizes.filter(({ mm2 }) => mm2 > low && mm2 < high);
  const thickest = bothNames(within, (sizes) => sizes[0]);
  const thinnest = bothNames(within, (sizes) => sizes.at(-1));
  if (thickest === '') return null;
  if (low === 0) return `${thickest} or thinner`;
  if (high === Infinity) return `${thinnest} or thicker`;
  return thinnest === thickest ? thinnest : `${thinnest} to ${thickest}`;
}

/** The size that is picked of each system, thickest first. */
function bothNames(
  sizes: readonly TradeSize[],
  pick: (of: readonly TradeSize[]) => TradeSize | undefined,
): string {
  const names = (['american', 'metric'] as const).flatMap(
    (system) => pick(sizes.filter((size) => size.system === system))?.name ?? [],
  );
  return names.join(' (') + (names.length > 1 ? ')' : '');
}
