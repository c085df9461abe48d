import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { speakNumber } from '../quantities/speak.ts';
import type { SuspectLine } from './belief.ts';
import { percentWords } from './values.ts';

/** What whoever comes has to know. */
export interface VisitOrder {
  readonly reported: string;
  readonly callBack: string | null;
  /** Nobody at the site may open the cabinet. */
  readonly outsideOnly: boolean;
  readonly suspects: readonly SuspectLine[];
  /** What the briefing warned of. */
  readonly warned: readonly string[];
}

/** The order for a visit: what is suspected, where to look first, what to bring in the order of its chance to be needed. */
export function visitOrderWords(
  knowledge: Knowledge,
  { reported, callBack, outsideOnly, suspects, warned }: VisitOrder,
): string[] {
  const likely = suspects.slice(0, 3).map(({ faults, probability }) => {
    const titles = faults.map((id) => knowledge.faults[id]?.title ?? id);
    return `${titles.join(' and ')} ${percentWords(probability)}`;
  });
  const [place] = ranked(suspects, ({ repair }) => [knowledge.repairs[repair]?.place ?? '']);
  const items = toBring(knowledge, suspects);
  return [
    'Visit order',
    `Reported: ${reported}.${callBack === null ? '' : ` Call back: ${callBack}.`}`,
    ...(outsideOnly ? ['Nobody at the site may open the cabinet.'] : []),
    ...(likely.length > 0 ? [`Most likely: ${likely.join('; ')}.`] : []),
    ...(place
      ? [`Look first at ${knowledge.places[place.name]?.label ?? place.name}, ${percentWords(place.chance)}.`]
      : []),
    ...warned.map((text) => `Mind: ${text}`),
    ...(items.length > 0 ? ['Bring, with the chance that it is needed:'] : []),
    ...items.map(({ name, chance }) => `- ${name}, ${percentWords(chance)}`),
  ];
}

/** Parts and tools by the chance that a repair needs them, the likeliest first; what is hardly needed is left out. */
export function toBring({ repairs }: Pick<Knowledge, 'repairs'>, suspects: readonly SuspectLine[]): Needed[] {
  return ranked(suspects, ({ repair }) => repairs[repair]?.bring ?? []).filter(
    ({ chance }) => chance >= worthTheRoom,
  );
}

/** Something that is needed for what is suspected, and the chance of it. */
export interface Needed {
  readonly name: string;
  readonly chance: number;
}

const worthTheRoom = 0.03;

function ranked(
  suspects: readonly SuspectLine[],
  needs: (suspect: SuspectLine) => readonly string[],
): Needed[] {
  const chances = new Map<string, number>();
  for (const suspect of suspects)
    for (const name of new Set(needs(suspect)))
      chances.set(name, (chances.get(name) ?? 0) + suspect.probability);
  return [...chances]
    .filter(([name]) => name !== '')
    .map(([name, chance]) => ({ name, chance: Math.min(1, chance) }))
    .sort((a, b) => b.chance - a.chance);
}

/** Expected whole minutes to proved or referred, for either. */
export interface Minutes {
  readonly sending: number;
  readonly goingOn: number;
}

/** Why somebody is sent although something could still be done here. */
export function stopWords({ sending, goingOn }: Minutes): string {
  return `Sending somebody takes about ${sending} minutes, going on here about ${goingOn} minutes.`;
}

/** The same as it is said to a caller. */
export function stopAloud({ sending, goingOn }: Minutes): string {
  const [a, b] = [speakNumber(sending), speakNumber(goingOn)];
  return `Somebody has to come to you. That takes about ${a} minutes. Going on by phone takes about ${b} minutes.`;
}
