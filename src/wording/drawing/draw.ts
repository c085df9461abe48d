import type { Circuit } from '../../knowledge/schema/circuit.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { besides } from './beside.ts';
import type { Paper } from './pen.ts';
import { circuitsOf, sceneOf, type Scene, type Sketch } from './scene.ts';
import { stacked } from './stacked.ts';

/**
 * Where the probes go, as lines of at most `columns`: places side by side where there are 60 columns and it stays low,
 * else one below the other. The red and the black probe are written out. Too tall, it leaves out what is not probed,
 * lifted or linked. Where several circuits could be meant and look different, the run is left out. RangeError below 20 columns.
 */
export function drawing(knowledge: Knowledge, sketch: Sketch, paper: Paper): string[] {
  if (paper.columns < 20) throw new RangeError(`nothing can be drawn in ${paper.columns} columns`);
  const [first, ...others] = circuitsOf(knowledge, sketch).map((each) =>
    drawnIn(knowledge, sketch, each, paper),
  );
  const agreed = others.every((lines) => lines.join('\n') === first?.join('\n'));
  return first && agreed ? first : drawnIn(knowledge, sketch, undefined, paper);
}

function drawnIn(knowledge: Knowledge, sketch: Sketch, circuit: Circuit | undefined, paper: Paper): string[] {
  const full = drawScene(sceneOf(knowledge, sketch, circuit), paper);
  if (full.length <= tallest) return full;
  const plain = drawScene(sceneOf(knowledge, sketch, circuit, false), paper);
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
