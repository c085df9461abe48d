import type { Prompt } from '../dialogue/messages.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { Signal, type Caution } from '../knowledge/schema/words.ts';
import { takesReading, type Act, type ActKind } from '../site/act.ts';
import type { Point, Site } from '../site/site.ts';
import { inService } from '../site/state.ts';
import { capital } from './values.ts';

type Shown = Omit<Prompt, 'type' | 'id' | 'site'>;

const units = { 'dc-volts': 'V', 'ac-volts': 'V', 'dc-amps': 'A', ohms: 'ohm' } as const;

/** The prompt of a briefing question. */
export function briefPrompt(knowledge: Knowledge, id: string): Shown {
  const item = knowledge.brief[id];
  if (!item) throw new RangeError(`no briefing question "${id}"`);
  const { ask, say, listen, choices } = item;
  const shown = { purpose: 'brief' as const, step: id, ask, say, listen, caution: null };
  if (choices.length === 0) return { ...shown, kind: 'entry' };
  return { ...shown, kind: 'choice', choices: labels(choices) };
}

/** The prompt of a check, or of the same check taken again as a proof. */
export function checkPrompt(knowledge: Knowledge, check: Check, proof: boolean): Shown {
  const { ask, say, listen } = check;
  const marks = check.kind === 'reading' ? printedAt(knowledge, [check.red, check.black]) : [];
  const shown = {
    step: check.id,
    ask: [proof ? `Proof. ${ask}` : ask, ...marks.map((mark) => mark.ask)].join(' '),
    say: [say, ...marks.map((mark) => mark.say)].join(' '),
    listen,
    caution: caution(knowledge, check.cautions),
  };
  const told = check.kind === 'fact' || (check.kind === 'observation' && check.told);
  const purpose = proof ? ('proof' as const) : told ? ('fact' as const) : ('check' as const);
  switch (check.kind) {
    case 'reading': {
      const { quantity, red, black, take } = check;
      return {
        ...shown,
        purpose,
        kind: 'reading',
        reading: { quantity, red, black, take, unit: units[quantity] },
      };
    }
    case 'observation':
      return {
        ...shown,
        purpose,
        kind: 'choice',
        observation: { of: check.of },
        choices: check.told && !proof ? [...labels(check.choices), unknown] : labels(check.choices),
      };
    case 'entry':
      return { ...shown, purpose, kind: 'entry' };
    case 'fact': {
      const { answer } = check;
      if (answer.kind === 'choice') {
        return {
          ...shown,
          purpose,
          kind: 'choice',
          choices: [...labels(answer.choices), unknown],
        };
      }
      return { ...shown, purpose, kind: answer.kind === 'size' ? 'entry' : 'number' };
    }
  }
}

/** A check that has an answer already: while it was given, what is wrong may have been away. */
export function onceMore({ ask, say, ...shown }: Shown): Shown {
  const why = 'Once more, for some faults come and go.';
  return { ...shown, ask: `${why} ${ask}`, say: `${why} ${say}` };
}

/** Always allowed where something is told. */
const unknown = { id: 'unknown', label: "I don't know" };

/** The prompt of one act at the site, with its own cautions unless others are given; proving dead asks for a reading, everything else for "done". */
export function actPrompt(
  knowledge: Knowledge,
  act: Act,
  restoring: boolean,
  ledger: readonly string[],
  cautions: readonly string[] = knowledge.transitions[act.kind]?.cautions ?? [],
): Shown {
  const words = knowledge.transitions[act.kind];
  if (!words) throw new RangeError(`no words for the act "${act.kind}"`);
  const base = {
    step: act.kind,
    ask: filled(words.ask, act, ledger, (point) =>
      perhaps(knowledge, point, `the ${pointWords(knowledge, point).label}`),
    ),
    say: filled(words.say, act, ledger, (point) =>
      perhaps(knowledge, point, pointWords(knowledge, point).spoken),
    ),
    listen: words.listen,
    caution: caution(knowledge, cautions),
    purpose: restoring ? ('restore' as const) : ('set-site' as const),
  };
  if (!takesReading(act.kind) || act.what === undefined || act.and === undefined)
    return { ...base, kind: 'confirm' };
  const quantity = act.kind === 'prove-dead-dc' ? ('dc-volts' as const) : ('ac-volts' as const);
  const reading = { quantity, red: act.what, black: act.and, take: 'steady' as const, unit: units[quantity] };
  return { ...base, kind: 'reading', reading };
}

/** An act in its second wording. */
export function actAgain(knowledge: Knowledge, act: Act, ledger: readonly string[]): string {
  const again = knowledge.transitions[act.kind]?.again ?? '';
  return filled(again, act, ledger, (point) =>
    perhaps(knowledge, point, pointWords(knowledge, point).spoken),
  );
}

/** The words of an act with its points in their places, or with how the site stands where it concerns no point. */
function filled(
  text: string,
  { what, and }: Act,
  ledger: readonly string[],
  name: (point: Point) => string,
): string {
  return text
    .replaceAll('{what}', what === undefined ? ledger.join(', ') || 'everything in service' : name(what))
    .replaceAll('{and}', and === undefined ? '' : name(and))
    .replace(/,(?=[.,])/g, '');
}

/** The name of what an act is about, and that a site may be without it. */
function perhaps({ terminals }: Knowledge, point: Point, name: string): string {
  const said = terminals[point]?.perhaps;
  return said === undefined ? name : `${name}, ${said},`;
}

/** The prompt of a repair, with the faults that it mends. */
export function repairPrompt(knowledge: Knowledge, id: string, cures: string[]): Shown {
  const repair = knowledge.repairs[id];
  if (!repair) throw new RangeError(`no repair "${id}"`);
  const { ask, say, listen, cautions } = repair;
  return {
    purpose: 'repair',
    kind: 'confirm',
    step: id,
    ask,
    say,
    listen,
    caution: caution(knowledge, cautions),
    cures,
  };
}

/** A place's own words, what is printed there behind them, or its id's where nobody has named it. */
export function pointWords(knowledge: Knowledge, point: Point): { label: string; spoken: string } {
  const terminal = knowledge.terminals[point];
  if (!terminal) return { label: point, spoken: point.replace(/[.@-]/g, ' ') };
  const { label, called, spoken } = terminal;
  return { label: called === undefined ? label : `${called} (${label})`, spoken };
}

/** What a site has printed beside the points of a reading. */
function printedAt(knowledge: Knowledge, points: readonly Point[]): { ask: string; say: string }[] {
  return points.flatMap((point) => {
    const { called, label = '', spoken } = knowledge.terminals[point] ?? {};
    if (called === undefined) return [];
    return [{ ask: `${capital(called)} is marked ${label} here.`, say: `That is ${spoken}.` }];
  });
}

/** How the site stands, one phrase each. `acts`: what has been done there, by name. */
export function ledgerWords(knowledge: Knowledge, site: Site, acts: readonly string[] = []): string[] {
  const name = (point: Point): string => pointWords(knowledge, point).label;
  // A supply that nobody here took off may be dead all the same: the ledger tells only what was done with it.
  const here = (back: ActKind, untouched: string): string => (acts.includes(back) ? 'put back' : untouched);
  return [
    `mains ${site.mains === 'off' ? 'off' : here('mains-on', 'not taken off')}`,
    `battery ${site.battery === 'lifted' ? 'lifted' : here('battery-connect', 'not lifted')}`,
    `other supplies ${site.others === 'off' ? 'off' : here('others-on', 'not taken off')}`,
    ...site.lifted.map((point) => `${name(point)} lifted`),
    ...site.joined.map(([a, b]) => `${name(a)} linked to ${name(b)}`),
    ...(site.meterIn === null ? [] : [`meter in series at ${name(site.meterIn)}`]),
    ...(site.device === 'sending' ? [drivenWords(knowledge)] : []),
    ...(site.onTest ? ['account on test'] : []),
  ];
}

/** What the device does while it is driven: it sends, or sounds, or holds a door free. */
export function drivenWords({ transitions }: Knowledge): string {
  return transitions['send']?.stands ?? 'unit sending';
}

/** Only what is off, lifted or otherwise not as it was found; nothing where the site is in service. */
export function leftWords(knowledge: Knowledge, site: Site): string[] {
  const good = ledgerWords(knowledge, inService);
  return ledgerWords(knowledge, site).filter((words) => !good.includes(words));
}

/** The gravest caution leads; the others follow in the same breath. */
export function caution(knowledge: Knowledge, ids: readonly string[]): Prompt['caution'] {
  const sorted = gravestFirst(knowledge, ids);
  const [first] = sorted;
  return first ? { signal: first.signal, text: sorted.map(({ text }) => text).join(' ') } : null;
}

/** The same as it is said, the signal word first; empty where there is none. */
export function cautionAloud(knowledge: Knowledge, ids: readonly string[]): string {
  const sorted = gravestFirst(knowledge, ids);
  const [first] = sorted;
  return first ? [signalAloud(first.signal), ...sorted.map(({ say, text }) => say ?? text)].join(' ') : '';
}

/** A signal word as it is said before what it is about. */
export function signalAloud(signal: Signal): string {
  return `${capital(signal.toLowerCase())}.`;
}

function gravestFirst(knowledge: Knowledge, ids: readonly string[]): Caution[] {
  const found = ids.flatMap((id) => knowledge.cautions[id] ?? []);
  return found.sort((a, b) => signals.indexOf(a.signal) - signals.indexOf(b.signal));
}

const signals = Signal.options;

function labels(choices: readonly { id: string; label: string }[]): { id: string; label: string }[] {
  return choices.map(({ id, label }) => ({ id, label }));
}
