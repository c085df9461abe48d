import type { Suspect, Work } from '../diagnosis/model.ts';
import { finish } from '../diagnosis/work.ts';
import { answerTo } from '../dialogue/answer-to.ts';
import { bandOf, mendedBy, mendedPredictions, type Band } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { broken, widthOf } from './drawing/cell.ts';
import { padded } from './drawing/pen.ts';
import { rungChecks } from './rungs.ts';
import { capital, readWords, shownBand, valueWords } from './values.ts';

/** One step of the ladder: volts across the run at one point (V). */
export interface Rung {
  /** The check's id. */
  readonly step: string;
  readonly label: string;
  /** Between which two points. */
  readonly across: string;
  /** What a good site would show, to the tenth of a volt outward; null where nothing is left that tells. */
  readonly good: Band | null;
  /** The same unrounded. */
  readonly exact: Band | null;
  /** What was read, Infinity for over-range; null where nothing was. */
  readonly read: number | null;
}

export interface LadderForm {
  /** `table`: rows of at most `columns`. `plain`: sentences, for a reader of single lines. */
  readonly form: 'table' | 'plain';
  readonly columns?: number;
  /** Leave out what has not been read, so that nobody is led. */
  readonly onlyRead?: boolean;
}

/**
 * Volts from the supply along the run to its far load: what is good, and what was read. `repair` names a verdict: its
 * faults are taken out to say what is good; without one, all that is suspected. Empty where the flow has no run.
 */
export function ladderWords(
  knowledge: Knowledge,
  flow: Flow,
  thought: Thought,
  form: LadderForm,
  repair?: string,
): string[] {
  return laidOut(rungsOf(knowledge, flow, thought, repair), form);
}

/** The ladder that goes with a verdict; empty where no volts along the run were read. */
export function* verdictLadder(
  knowledge: Knowledge,
  flow: Flow,
  thought: Thought,
  form: LadderForm,
  repair: string,
): Work<string[]> {
  const isRead = rungChecks(knowledge, flow, thought.facts).some(({ check }) =>
    thought.steps.includes(check.id),
  );
  return isRead ? laidOut(yield* rungs(knowledge, flow, thought, repair), form) : [];
}

/** The rungs in the order in which the current passes them; those that need the unit sending only if they were read. */
export function rungsOf(knowledge: Knowledge, flow: Flow, thought: Thought, repair?: string): Rung[] {
  return finish(rungs(knowledge, flow, thought, repair));
}

function* rungs(knowledge: Knowledge, flow: Flow, thought: Thought, repair?: string): Work<Rung[]> {
  const suspects = repair === undefined ? likely(thought) : mendedBy(thought, repair);
  const shown = rungChecks(knowledge, flow, thought.facts).flatMap(({ check, sending }) => {
    const read = answerTo(thought, check.id) ?? null;
    return sending && read === null ? [] : [{ check, sending, read }];
  });
  const questions = shown.map(({ check }) => thought.model.question(check.id));
  const mended = yield* mendedPredictions(suspects, questions);
  return shown.map(({ check, sending, read }, i) => {
    const good = bandOf(mended[i] ?? []);
    const [red, black] = [check.red, check.black].map((point) => knowledge.terminals[point]?.label ?? point);
    const how = sending ? ', sending' : '';
    return {
      step: check.id,
      label: `${red}${how}`,
      across: `${red} to ${black}${how}`,
      good: good && outward(good),
      exact: good,
      read,
    };
  });
}

function laidOut(all: readonly Rung[], { form, columns = 40, onlyRead = false }: LadderForm): string[] {
  const shown = all.filter(({ read }) => !onlyRead || read !== null);
  if (shown.length === 0) return [];
  return form === 'table' ? table(shown, columns) : ['Volts along the run.', ...shown.map(sentence)];
}

/** What is hardly suspected would only make the ladder late. */
function likely({ belief }: Thought): Suspect[] {
  return belief.suspects.filter(({ probability }) => probability >= 0.005);
}

/** In whole tenths of a volt, so that what is shown and what is judged are the same. */
function outward([low, high]: Band): Band {
  return [Math.floor(low * 10) / 10, Math.ceil(high * 10) / 10];
}

function verdict(good: Band, read: number): 'good' | 'low' | 'high' {
  if (read < good[0]) return 'low';
  return read > good[1] ? 'high' : 'good';
}

function table(rungs: readonly Rung[], columns: number): string[] {
  const cells = rungs.map(({ label, good, read }) => ({
    label,
    good: good ? `${volts(good[0])} to ${volts(good[1])}` : 'unknown',
    read: read === null ? 'not read' : `${volts(read)}${good ? ` ${verdict(good, read)}` : ''}`,
  }));
  const good = widthOf(['good', ...cells.map((cell) => cell.good)]);
  const read = widthOf(['read', ...cells.map((cell) => cell.read)]);
  const room = Math.max(6, columns - good - read - 4);
  const label = Math.min(room, widthOf(rungs.map((rung) => rung.label)));
  const row = (first: string, second: string, third: string): string =>
    `${padded(first, label)}  ${padded(second, good)}  ${third}`.trimEnd();
  return [
    row('Volts DC', 'good', 'read'),
    ...cells.flatMap((cell) =>
      broken(cell.label, label, 2).map((text, i) => (i === 0 ? row(text, cell.good, cell.read) : text)),
    ),
  ];
}

function sentence({ across, exact, read }: Rung): string {
  const where = capital(across);
  const shown = exact && shownBand(exact, 'dc-volts', read ?? undefined);
  const expected = shown ? `${shown.words} is good` : 'what is good is not known';
  if (read === null) return `${where}: ${expected}, not read.`;
  const said = `${where}: ${expected}, you read ${readWords(read, 'dc-volts')}`;
  const how = exact && verdict(exact, read);
  if (!shown || how === 'good' || !Number.isFinite(read)) return `${said}.`;
  // The same figures as in the sums beside it.
  const [low, high] = shown.ends;
  const off = valueWords(how === 'low' ? low - read : read - high, 'dc-volts');
  return `${said}, ${off} ${how === 'low' ? 'short' : 'over'}.`;
}

/** Volts without their unit; over-range as the meter shows it. */
function volts(value: number): string {
  if (!Number.isFinite(value)) return 'OL';
  return Math.abs(value * 10 - Math.round(value * 10)) < 1e-6 ? value.toFixed(1) : value.toFixed(2);
}
