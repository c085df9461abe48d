import { conductorOhms } from '../circuit/copper.ts';
import type { Work } from '../diagnosis/model.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Sum } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { formatQuantity } from '../quantities/format.ts';
import { cableOf, read, type Cable } from './figures.ts';

type ShortAt = Extract<Sum, { form: 'short-at' }>;

/**
 * How far along its cable a pair is shorted. Ohms at one end are the copper to the short and back and the contact
 * there: the short is no farther than all of it in copper. With ohms at both ends the contact drops out: half the
 * length, and half the difference in copper. Nothing where the cable has not been told or the short could be anywhere.
 */
export function* shortAt(knowledge: Knowledge, thought: Thought, sum: ShortAt): Work<string[]> {
  const near = yield* read(thought, sum.near);
  const far = sum.far === undefined ? null : yield* read(thought, sum.far);
  const cable = cableOf(knowledge, thought, sum);
  if (!near || !cable) return [];
  const perMetre = 2 * conductorOhms({ length: 1, mm2: cable.mm2, celsius: 20, factor: 1 });
  const each = copperWords(perMetre, cable);
  if (far) {
    const at = cable.length / 2 + (near.value - far.value) / (2 * perMetre);
    const give = Math.hypot(
      (cable.error * cable.length) / 2,
      Math.hypot(near.spread, far.spread) / (2 * perMetre),
    );
    if (at + give < 0 || at - give > cable.length) return [];
    const inside = Math.min(Math.max(at, 0), cable.length);
    const ends = `${ohms(near.value)} at ${placeOf(knowledge, sum.near)} and ${ohms(far.value)} at ${placeOf(knowledge, sum.far)}`;
    return [
      `${each}. You read ${ends}: the short is ${along(inside, cable)} from ${placeOf(knowledge, sum.near)}, give or take ${along(give, cable)}.`,
    ];
  }
  const most = near.value / perMetre;
  if (most >= cable.length) return [];
  return [
    `${each}. You read ${ohms(near.value)}: the short is no farther than ${along(most, cable)} from ${placeOf(knowledge, sum.near)}.`,
  ];
}

/** Where a check is taken, in words. */
function placeOf({ checks, places }: Knowledge, check = ''): string {
  return places[checks[check]?.place ?? '']?.label ?? 'this end';
}

function ohms(value: number): string {
  return formatQuantity(value, 'ohms', { digits: 2 });
}

/** What a hundred feet or metres of the loop take. */
function copperWords(perMetre: number, cable: Cable): string {
  const [unit, metres] = isInFeet(cable) ? ['ft', 0.3048] : ['m', 1];
  return `100 ${unit} of ${formatQuantity(cable.mm2, 'size')} take ${ohms(100 * metres * perMetre)}, out and back`;
}

/** Whole metres or feet; never none. */
function along(metres: number, cable: Cable): string {
  return isInFeet(cable)
    ? `${Math.max(Math.round(metres / 0.3048), 1)} ft`
    : `${Math.max(Math.round(metres), 1)} m`;
}

function isInFeet({ words }: Cable): boolean {
  return words.includes(' ft');
}
