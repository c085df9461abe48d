/** One figure of one part of the benchmarks. */
export interface Figure {
  readonly what: string;
  readonly value: number;
  readonly unit: Unit;
  /** The target: the value is to be at most this. */
  readonly atMost?: number;
}

/** `times` is a ratio, `of 1` a share; the rest are what they say. */
export type Unit = 'times' | 'of 1' | 'ms' | 'us' | 'MB' | 'multiply-adds' | 'prompts' | 'problems';

export interface Part {
  readonly name: string;
  readonly title: string;
  /** False when the figures follow from the seed alone. */
  readonly timed: boolean;
  readonly figures: readonly Figure[];
}

/** Whether the target was met; undefined without one. What could not be measured has missed. */
export function met({ value, atMost }: Figure): boolean | undefined {
  return atMost === undefined ? undefined : value <= atMost;
}

/** A part as a Markdown table, its missed targets in capitals. */
export function tableOf({ title, timed, figures }: Part): string {
  const rows = figures.map((figure) => `| ${cells(figure).join(' | ')} |`);
  const kind = timed ? 'Measured: changes from run to run.' : 'Counted: follows from the seed.';
  return [
    `## ${title}`,
    '',
    kind,
    '',
    '| what | value | target | |',
    '| --- | ---: | ---: | --- |',
    ...rows,
    '',
  ].join('\n');
}

function cells(figure: Figure): string[] {
  const { what, value, unit, atMost } = figure;
  const verdict = { true: 'met', false: 'MISSED', undefined: '' }[`${met(figure)}`] ?? '';
  return [what, `${shown(value)} ${unit}`, atMost === undefined ? '' : `at most ${atMost}`, verdict];
}

/** Four significant digits, whole numbers in full. */
function shown(value: number): string {
  return Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(4)));
}
