import stringWidth from 'string-width';
import { boxLines, broken, widthOf } from './cell.ts';
import { padded, penOf, type Paper, type Pen } from './pen.ts';
import type { Row } from './rows.ts';
import type { Scene } from './scene.ts';

/** The places side by side, joined by the run, the dial below; null where they do not fit. */
export function besides(scene: Scene, paper: Paper): string[] | null {
  const pen = penOf(paper);
  const boxes = fitting(scene, pen, paper.columns);
  if (!boxes) {
    const without = withoutBystander(scene);
    return without && besides(without, paper);
  }
  const used = boxes.reduce((sum, { width }) => sum + width + 4, 0);
  const gap = Math.min(longestGap, Math.floor((paper.columns - used) / Math.max(1, boxes.length - 1)));
  const { across, corners } = pen;
  const blank = ' '.repeat(gap);
  const top = boxes.map(
    ({ title, width }) => padded(`${corners[0]}${across} ${title} `, width + 3, across) + corners[1],
  );
  const bottom = boxes.map(({ width }) => corners[3] + across.repeat(width + 2) + corners[2]);
  return [
    top.join(blank),
    ...scene.rows.flatMap(({ gaps }, row) => rowLines(boxes, row, gaps, gap, pen)),
    bottom.join(blank),
    ...broken(scene.notes.join(', '), paper.columns, 0),
  ];
}

/** The shortest piece of run that is seen, and the longest that still says more. */
const [shortestGap, longestGap] = [4, 8];
/** In a box narrower than this, labels break into rags. */
const narrowest = 18;

/** One place: its title, and what is written in each row, in lines of at most `width`. */
interface BoxOf {
  readonly title: string;
  readonly width: number;
  readonly rows: readonly (readonly string[])[];
}

/** The boxes as wide as their words, else the widest made narrower; null where that is not enough. */
function fitting({ places, rows }: Scene, pen: Pen, columns: number): BoxOf[] | null {
  const box = (i: number, inner: number): BoxOf => {
    const title = places[i]?.label ?? '';
    const cells = rows.map((row) => row.cells[i] ?? null);
    const lines = boxLines(cells, title, pen, inner);
    return { title, rows: lines, width: Math.max(stringWidth(title) + 1, widthOf(lines.flat())) };
  };
  const natural = places.map((_, i) => box(i, Infinity));
  const widths = natural.map(({ width }) => width);
  const room = columns - 4 * widths.length - shortestGap * (widths.length - 1);
  while (widths.reduce((all, width) => all + width, 0) > room) {
    const widest = Math.max(...widths);
    if (widest <= narrowest) return null;
    widths[widths.indexOf(widest)] = widest - 1;
  }
  const boxes = widths.map((width, i) => box(i, width));
  return boxes.every(({ width }, i) => width <= (widths[i] ?? 0)) ? boxes : null;
}

/** The scene without a place that shows nothing, its wires drawn past it; null where every place shows something. */
function withoutBystander(scene: Scene): Scene | null {
  const { places, rows } = scene;
  const at = places.findIndex((_, i) => rows.every(({ cells }) => cells[i] === null));
  if (at < 0) return null;
  const kept = <T>(all: readonly T[]): T[] => all.filter((_, i) => i !== at);
  return {
    ...scene,
    places: kept(places),
    rows: rows.map(({ cells, gaps }) => ({ cells: kept(cells), gaps: gapsWithout(gaps, at) })),
  };
}

function gapsWithout(gaps: Row['gaps'], at: number): Row['gaps'] {
  if (at === 0) return gaps.slice(1);
  if (at === gaps.length) return gaps.slice(0, -1);
  const through = gaps[at - 1] === 'wire' && gaps[at] === 'wire' ? 'wire' : null;
  return [...gaps.slice(0, at - 1), through, ...gaps.slice(at + 1)];
}

/** One row of every box, and the run between them at its first line. */
function rowLines(boxes: readonly BoxOf[], row: number, gaps: Row['gaps'], gap: number, pen: Pen): string[] {
  const height = Math.max(...boxes.map(({ rows }) => rows[row]?.length ?? 0));
  return Array.from({ length: height }, (_, line) => {
    const run = (k: number): Row['gaps'][number] => (line === 0 ? (gaps[k] ?? null) : null);
    const signs = { wire: pen.across, link: pen.link } as const;
    return boxes
      .map(({ rows, width }, i) => {
        const [before, after] = [run(i - 1), run(i)];
        const between = i === boxes.length - 1 ? '' : (after === null ? ' ' : signs[after]).repeat(gap);
        const left = before === null ? pen.down : pen.left;
        const right = after === null ? pen.down : pen.right;
        return `${left} ${padded(rows[row]?.[line] ?? '', width)} ${right}${between}`;
      })
      .join('');
  });
}
