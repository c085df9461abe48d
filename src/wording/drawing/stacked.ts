import { boxLines, broken } from './cell.ts';
import { penOf, type Paper } from './pen.ts';
import type { Scene } from './scene.ts';

/** The places one below the other along a rail, the supply on top, and the dial at its foot. */
export function stacked({ places, rows, notes }: Scene, paper: Paper): string[] {
  const pen = penOf(paper);
  const { across, down, right, corners } = pen;
  const inside = paper.columns - 2;
  const lines = places.flatMap(({ label }, i) => {
    const start = `${i === 0 ? corners[0] : right}${across} `;
    const seen = rows.flatMap(({ cells }) => cells[i] ?? []);
    const name = seen.length > 0 ? label : `run ${i === 0 ? 'from' : 'to'} ${label}`;
    const title = broken(name, inside - 1, 0).map((text, k) => (k === 0 ? start : `${down}  `) + text);
    return [
      ...title,
      ...boxLines(seen, label, pen, inside)
        .flat()
        .map((text) => `${down} ${text}`),
    ];
  });
  const foot = broken(notes.join(', '), inside - 1, 0);
  return [...lines, ...foot.map((text, k) => `${k === 0 ? corners[3] + across : '  '} ${text}`)];
}
