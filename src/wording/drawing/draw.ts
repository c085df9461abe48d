import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { besides } from './beside.ts';
import type { Paper } from './pen.ts';
import { sceneOf, type Scene, type Sketch } from './scene.ts';
import { stacked } from './stacked.ts';

/**
 * Where the probes go, as lines of at most `columns`: places side by side where there are 60 columns and it stays low,
 * else one below the other. The red and the black probe are written out. Too tall, it leaves out what is not probed,
 * lifted or linked. RangeError below 20 columns.
 */
export function drawing(knowledge: Knowledge, sketch: Sketch, paper: Paper): string[] {
  if (paper.columns < 20) throw new RangeError(`nothing can be drawn in ${paper.columns} columns`);
  const full = drawScene(sceneOf(knowledge, sketch), paper);
  if (full.length <= tallest) return full;
  const plain = drawScene(sceneOf(knowledge, sketch, false), paper);
  return plain.length < full.length ? plain : full;
}

/** What still leaves the question on a small screen. */
const tallest = 9;

/** Side by side needs this many columns to be read. */
const wide = 60;

/** One scene in the form that suits the width. */
export function drawScene(scene: Scene, paper: Paper): string[] {
  const across = paper.columns < wide ? null : besides(scene, paper);
  const down = across && across.length <= tallest ? null : stacked(scene, paper);
  const lines = across && (!down || across.length <= down.length) ? across : (down ?? []);
  return lines.map((line) => line.trimEnd());
}
