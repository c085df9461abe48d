import { typeAgain } from './called.ts';

/** What a drill tells with each question. */
export const drillTells = {
  meter: (shown: string): string => `the meter shows ${shown}.`,
  answer: (answer: string): string => `the answer is: ${ended(answer)}`,
  /** What stands on a label, a display or a log; without a full stop, which nobody should type. */
  reads: (text: string): string => `it reads: ${text}`,
  nothing: 'nothing to read. Press Enter when you would have done it.',
  repair: 'nothing to read. Press Enter when you would have repaired it.',
  noDanger: 'nothing is dangerous here. Look again at what you typed.',
} as const;

/** What a drill tells, set apart from what the assistant says. */
export function drillLine(told: string): string {
  return `Drill: ${told}`;
}

/** Which drill it is, and how it goes. */
export function drillOpens(title: string, again: string): string {
  return [
    `Drill: ${title}. The site is invented, and one thing is wrong there.`,
    'With each question, a line that begins with "Drill:" tells what the site shows. Type that.',
    `For the same site, others type: ${typeAgain(again)}`,
  ].join('\n');
}

/** What stands on the record, so that nobody takes it for a real site. */
export function drillNote(again: string): string {
  return `This was a drill on an invented site: ${again}`;
}

export interface DrillEnd {
  /** What was wrong, in words, with the form that it took. */
  readonly wrong: string;
  readonly isMended: boolean;
  /** The last verdict in words, and what it was worth; null where none was given. */
  readonly verdict: { readonly found: string; readonly worth: Worth } | null;
  readonly verdicts: number;
  readonly readings: number;
  readonly minutes: number;
  /** The command that gives the same drill. */
  readonly again: string;
}

/** `repair`: another fault, which the same repair ends. `named`: not the likeliest of those that were named. */
export type Worth = 'right' | 'repair' | 'named' | 'wrong';

const worths: Readonly<Record<Worth, string>> = {
  right: 'It was right.',
  repair: 'The fault was another one, but the repair is the same. It was right.',
  named: 'The fault was among those named, but not the likeliest. It was half right.',
  wrong: 'It was not right.',
};

/** How a drill ended. */
export function drillEnds(end: DrillEnd): string {
  const { wrong, isMended, verdict, verdicts, readings, minutes, again } = end;
  const count = verdicts > 1 ? ` There were ${verdicts} verdicts. This is the last one.` : '';
  return [
    'The drill is over.',
    `What was wrong: ${wrong}. ${isMended ? 'It is mended.' : 'It is not mended.'}`,
    verdict ? `Verdict: ${verdict.found}. ${worths[verdict.worth]}${count}` : 'No verdict was given.',
    `Meter readings taken: ${readings}. On a site it would have taken about ${Math.round(minutes)} min.`,
    `To give others the same drill: ${typeAgain(again)}`,
  ].join('\n');
}

function ended(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
