import type { Conversation, Message, Prompt } from '../../../src/dialogue/messages.ts';
import { copperOhms } from '../sites/copper.ts';
import type { Size } from '../sites/low-supply-ranges.ts';
import type { SimulatedSite } from '../sites/simulated-site.ts';

export interface Suspect {
  repair: string;
  faults: readonly string[];
  probability: number;
}

export interface SaidCopper {
  /** Over what the same cable takes by the site's own wire table. */
  ratio: number;
  /** One standard deviation of the ratio: what was said is rounded. */
  rounding: number;
  /** Whether what the site's cable takes lies within the give or take that was said. */
  within: boolean;
}

/** What one conversation with one site came to. */
export interface Outcome {
  seed: number;
  faults: readonly string[];
  repair: string;
  /** What else has to be mended. */
  also: readonly string[];
  /** The leading group first; null when the session ended without a verdict. */
  verdict: Suspect[] | null;
  /** After each answer up to the first verdict, how likely a true repair was held to be. */
  believed: number[];
  /** What the sums said the copper of the run takes; null where they said nothing of it. */
  copper: SaidCopper | null;
  /** Repairs done, in order. */
  done: string[];
  /** Crossed: it went on in another flow, of which the site knows nothing. */
  ending: 'proved' | 'referred' | 'stopped' | 'crossed' | 'stuck';
  /** Steps asked, in order. */
  steps: string[];
  minutes: number;
  readings: number;
  proofReadings: number;
}

export interface WalkOptions {
  seed: number;
  /** Minutes that a step takes, by its id; undefined where nobody has said. */
  minutesOf(step: string): number | undefined;
  /** Told every line, as it is said. */
  hear?(line: string): void;
}

const minutesUnsaid = 0.5;
/** No visit is longer; one that is goes round in circles. */
const mostPrompts = 400;
const mostRepeats = 6;

/** Lets a site answer a session to its end. */
export async function walk(
  conversation: Conversation,
  site: SimulatedSite,
  options: WalkOptions,
): Promise<Outcome> {
  const { minutesOf, hear = () => undefined } = options;
  const { faults, repair, also = [] } = site.truth;
  const outcome: Outcome = {
    ...{ seed: options.seed, faults, repair, also, verdict: null, believed: [], copper: null, done: [] },
    ...{ ending: 'stuck', steps: [] },
    ...{ minutes: 0, readings: 0, proofReadings: 0 },
  };
  let messages = await conversation.open();
  let flow: string | undefined;
  let last = '';
  let repeats = 0;
  for (let asked = 0; asked < mostPrompts; asked++) {
    for (const message of messages) hear(lineOf(message));
    note(outcome, messages, site.runOhms);
    const prompt = messages.findLast((message) => message.type === 'prompt');
    if (conversation.ended || !prompt) break;
    flow ??= prompt.flow;
    if (prompt.flow !== undefined && prompt.flow !== flow) {
      cross(outcome);
      break;
    }
    const asks = `${prompt.id} ${prompt.purpose} ${prompt.step}`;
    repeats = asks === last ? repeats + 1 : 0;
    last = asks;
    if (repeats > mostRepeats) break;
    const input = await site.answer(prompt);
    hear(`    > ${'answer' in input ? input.answer : input.do}`);
    if (repeats === 0) count(outcome, prompt, minutesOf(prompt.step) ?? minutesUnsaid);
    messages = await conversation.send(input);
  }
  return outcome;
}

/** Going on in another flow is all that a verdict which leads there asks for. */
function cross(outcome: Outcome): void {
  outcome.ending = 'crossed';
  const lead = outcome.verdict?.[0]?.repair;
  if (lead !== undefined) outcome.done.push(lead);
}

function note(outcome: Outcome, messages: readonly Message[], runOhms: number | undefined): void {
  const { repair, also } = outcome;
  for (const message of messages) {
    if (message.type === 'belief' && outcome.verdict === null)
      outcome.believed.push(
        message.suspects
          .filter((suspect) => [repair, ...also].includes(suspect.repair))
          .reduce((sum, { probability }) => sum + probability, 0),
      );
    if (message.type === 'verdict') {
      outcome.copper ??= copperOf(message.sums, runOhms);
      outcome.verdict ??= message.group;
    }
    if (message.type === 'end') outcome.ending = message.ending;
  }
}

/** "22 AWG, 120 ft each way, 0.18 A: the copper takes 0.7 V, give or take 0.1 V", added up again. */
const saidCopper =
  /([\d.]+ (?:AWG|mm2)), ([\d.]+) (ft|m) each way, (?:about )?([\d.]+) (m?)A: the copper takes ([\d.]+) (m?)V, give or take ([\d.]+) (m?)V/;

function copperOf(sums: readonly string[], runOhms: number | undefined): SaidCopper | null {
  const found = saidCopper.exec(sums.join('\n'))?.slice(1);
  if (!found || runOhms === undefined) return null;
  const [size = '', length, foot, current, milliamps, volts, millivolts, spread, millispread] = found;
  const metres = Number(length) * (foot === 'ft' ? 0.3048 : 1);
  const amps = Number(current) * (milliamps ? 1e-3 : 1);
  const takes = Number(volts) * (millivolts ? 1e-3 : 1);
  const give = Number(spread) * (millispread ? 1e-3 : 1);
  const byTable = 2 * copperOhms(metres, size as Size, 20) * amps;
  // Rounded to the tenth of a volt, or to the millivolt.
  const step = millivolts ? 1e-3 : 0.1;
  return {
    ratio: takes / byTable,
    rounding: step / Math.sqrt(12) / byTable,
    within: Math.abs(takes - runOhms * amps) <= give,
  };
}

function count(outcome: Outcome, { purpose, kind, step }: Prompt, minutes: number): void {
  outcome.minutes += minutes;
  outcome.steps.push(step);
  if (kind === 'reading' && purpose === 'check') outcome.readings += 1;
  if (kind === 'reading' && purpose === 'proof') outcome.proofReadings += 1;
  if (purpose === 'repair') outcome.done.push(step);
}

function lineOf(message: Message): string {
  switch (message.type) {
    case 'prompt':
      return `${message.purpose} ${message.step}: ${message.ask}`;
    case 'notice':
      return `    ${message.text.replaceAll('\n', '\n    ')}`;
    case 'belief': {
      const top = message.suspects
        .slice(0, 4)
        .map((s) => `${s.faults.join('+')} ${s.probability.toFixed(2)}`);
      return `    belief: ${top.join(', ')}, unlisted ${message.unlisted.toFixed(2)}`;
    }
    case 'verdict':
      return [
        `VERDICT ${message.group.map((s) => `${s.repair} ${s.probability.toFixed(3)} (${s.faults.join(', ')})`).join('; ')}`,
        ...message.sums.map((line) => `    ${line}`),
      ].join('\n');
    case 'end':
      return `END ${message.ending}`;
    case 'hello':
      return `hello ${message.version}`;
  }
}
