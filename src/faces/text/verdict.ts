import type { Message } from '../../dialogue/messages.ts';
import { percentWords } from '../../wording/values.ts';
import { blank, linesOf, type Line } from './line.ts';
import type { Names } from './telling.ts';

type Verdict = Extract<Message, { type: 'verdict' }>;
type Suspect = Verdict['group'][number];

/** What it most likely is, each with its repair, and the sums behind it. */
export function verdictLines({ group, sums }: Verdict, names: Names): Line[] {
  return [...groupLines(group, names), ...(sums.length > 0 ? [blank, ...sums.flatMap(linesOf)] : [])];
}

function groupLines(group: Suspect[], names: Names): Line[] {
  const [only, ...others] = group;
  if (!only) return [{ text: 'The readings fit nothing on this list.' }];
  if (others.length === 0) {
    return [
      { text: `Most likely: ${anyOf(only.faults, names)}, ${percentWords(only.probability)}.`, hang: 2 },
      { text: `Repair: ${names.repair(only.repair)}.`, hang: 2 },
    ];
  }
  return [
    { text: 'One of these. No reading worth its time tells them apart.' },
    ...group.map(({ faults, repair, probability }) => ({
      text: `- ${anyOf(faults, names)}, ${percentWords(probability)}. Repair: ${names.repair(repair)}.`,
      hang: 2,
    })),
  ];
}

/** Faults of which one is there, all with the same repair. */
function anyOf(faults: string[], names: Names): string {
  return faults.map(names.fault).join(', or ');
}
