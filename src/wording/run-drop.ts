import { conductorOhms } from '../circuit/copper.ts';
import type { Work } from '../diagnosis/model.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Sum } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { formatQuantity } from '../quantities/format.ts';
import { cableOf, foretold, mean, read, type Figure } from './figures.ts';
import { valueWords } from './values.ts';

type RunDrop = Extract<Sum, { form: 'run-drop' }>;

/**
 * What the copper of a run takes, what was lost, and what is left for a joint, with every input. Volts at the ends and
 * the current are taken as read, or else as the belief foretells them, and then called "about". Nothing where the
 * length or the size has not been told, but for what the loss is in ohms.
 */
export function* runDrop(knowledge: Knowledge, thought: Thought, sum: RunDrop): Work<string[]> {
  const [supply, far] = [yield* volts(thought, sum.supply), yield* volts(thought, [sum.far])];
  if (!supply || !far || !(supply.isRead || far.isRead) || !(far.value > 0.5) || !(supply.value > far.value))
    return [];
  const amps = yield* current(thought, sum, far.value);
  if (!amps) return [];
  const lost = supply.value - far.value;
  const about = supply.isRead && far.isRead ? '' : 'about ';
  const at = `${amps.isRead ? '' : 'about '}${formatQuantity(amps.value, 'dc-amps')}`;
  const cable = cableOf(knowledge, thought, sum);
  if (!cable) {
    const ohms = valueWords(lost / amps.value, 'ohms');
    return [`You lost ${about}${tenths(lost)} on the run. At ${at} that is ${ohms} there and back.`];
  }
  const copper = 2 * conductorOhms({ ...cable, celsius: 20, factor: 1 }) * amps.value;
  const spread = Math.hypot(cable.error, amps.spread / amps.value);
  const first = `${cable.words}, ${at}: the copper takes ${tenths(copper)}, give or take ${tenths(spread * copper)}. You lost ${about}${tenths(lost)}.`;
  const most = copper * (1 + 2 * spread);
  if (lost <= most) return [`${first} The cable alone explains it.`];
  const poorer = most * poorest(knowledge, sum);
  if (lost <= poorer) return [`${first} A cable that is not all copper could take ${tenths(poorer)}.`];
  const rest = Number(lost.toFixed(1)) - Number(copper.toFixed(1));
  const ohms = formatQuantity((lost - copper) / amps.value, 'ohms', { digits: 2 });
  return [`${first} The other ${tenths(rest)} at ${at} is ${ohms}: a joint, not the cable.`];
}

/** The first of these checks that was read; where none was, what the belief foretells of the first. */
function* volts(thought: Thought, checks: readonly string[]): Work<Figure | null> {
  for (const check of checks) {
    const told = yield* read(thought, check);
    if (told) return told;
  }
  return yield* foretold(thought, checks[0] ?? '');
}

/** Amperes: as read, or what the load takes at these volts in the draws that are still believed. */
function* current(thought: Thought, { current: checks, load }: RunDrop, far: number): Work<Figure | null> {
  for (const check of checks) {
    const told = yield* read(thought, check);
    if (told) return told.value > 0 ? told : null;
  }
  const found = thought.belief.suspects.flatMap(({ draws }) =>
    draws.flatMap(({ instance, weight }) => {
      const watts = thought.model.loadWatts(instance, load);
      return watts === undefined ? [] : [{ value: watts / far, weight }];
    }),
  );
  const value = mean(found, (each) => each.value);
  if (value === null || !(value > 0)) return null;
  const variance = mean(found, (each) => (each.value - value) ** 2) ?? 0;
  return { value, spread: Math.sqrt(variance), isRead: false };
}

/** The highest factor over copper that any fault of this sum can give the cable. */
function poorest({ faults }: Knowledge, sum: RunDrop): number {
  const factors = sum.faults.flatMap((id) => {
    const change = faults[id]?.changes[sum.factor];
    if (typeof change === 'number') return [change];
    return typeof change === 'object' && 'range' in change ? [change.range[1]] : [];
  });
  return Math.max(1, ...factors);
}

/** Volts to the tenth, as they are added up on site; less than that in millivolts. */
function tenths(value: number): string {
  return value < 0.05 ? valueWords(value, 'dc-volts') : `${value.toFixed(1)} V`;
}
