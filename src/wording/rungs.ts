import type { ReadingCheck } from '../knowledge/schema/check.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { inService, siteFor, siteKey } from '../site/state.ts';
import { wayAlong, wiresOf, type Wires } from './wires.ts';

/** A reading across the run, and whether the unit must be sending for it. */
export interface RungCheck {
  readonly check: ReadingCheck;
  readonly sending: boolean;
}

/**
 * The DC volts readings of a flow that lie across its run, nothing moved for them, in the order in which the current
 * passes: a branch stands where it leaves the run. `facts` as in a thought: they say which of several ways it goes.
 */
export function rungChecks(
  knowledge: Knowledge,
  flow: Flow,
  facts: ReadonlyMap<string, number>,
): RungCheck[] {
  const circuit = knowledge.circuits[flow.circuit ?? ''];
  if (!circuit) return [];
  const wires = wiresOf(circuit, { chosen: choicesOf(knowledge, facts), diodes: true });
  const run = runOf(circuit, wires);
  if (!run) return [];
  const rungs = flow.checks.flatMap((id) => {
    const check = knowledge.checks[id];
    if (check?.kind !== 'reading' || check.quantity !== 'dc-volts' || check.by !== 'probes') return [];
    const site = siteKey(siteFor(check.site, false));
    const sending = site === siteKey({ ...inService, device: 'sending' });
    const [plus, minus] = [joins(wires, check.red, run.plus), joins(wires, check.black, run.minus)];
    if ((!sending && site !== siteKey(inService)) || plus < 0 || minus < 0) return [];
    return [{ check, sending, plus, minus }];
  });
  return rungs
    .sort((a, b) => a.plus - b.plus || a.minus - b.minus || Number(a.sending) - Number(b.sending))
    .map(({ check, sending }) => ({ check, sending }));
}

/** The nodes from the supply to the load, on the plus side and on the minus side. */
interface RunWay {
  readonly plus: readonly string[];
  readonly minus: readonly string[];
}

/** From a supply to the load that most cable leads to; null where no load is on a cable. */
function runOf(circuit: Circuit, wires: Wires): RunWay | null {
  const feeds = circuit.elements.filter((e) => e.kind === 'supply' || e.kind === 'source');
  const loads = circuit.elements.filter((e) => e.kind === 'load');
  let best: { way: RunWay; cable: number } | null = null;
  for (const load of loads) {
    for (const feed of feeds) {
      const plus = wayAlong(wires, feed.plus, load.plus);
      const minus = wayAlong(wires, load.minus, feed.minus)?.reverse();
      if (!plus || !minus || plus.some((node) => minus.includes(node))) continue;
      const cable = [...plus, ...minus].filter(wires.isEnd).length;
      if (cable > (best?.cable ?? 0)) best = { way: { plus, minus }, cable };
    }
  }
  return best?.way ?? null;
}

/** Where on one side of the run a point is, or where its own copper joins it: an index; -1 where none does. */
function joins(wires: Wires, point: string, side: readonly string[]): number {
  const way = wayAlong(wires, point, side.at(-1) ?? '');
  return side.indexOf(way?.find((node) => side.includes(node)) ?? '');
}

/** The choices that the facts told have settled, by parameter. */
function choicesOf(knowledge: Knowledge, facts: ReadonlyMap<string, number>): Map<string, string> {
  return new Map(
    [...facts].flatMap(([id, told]): [string, string][] => {
      const check = knowledge.checks[id];
      if (check?.kind !== 'fact' || check.answer.kind !== 'choice') return [];
      const choice = check.answer.choices[told];
      return choice && choice.band === undefined ? [[check.parameter, choice.id]] : [];
    }),
  );
}
