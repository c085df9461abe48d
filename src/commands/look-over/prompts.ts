import { Prompt, type Message } from '../../dialogue/messages.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { Signal } from '../../knowledge/schema/words.ts';
import { formatQuantity } from '../../quantities/format.ts';
import { inService } from '../../site/state.ts';
import { doubtfulProofPrompt, oddPrompt, slipPrompt } from '../../wording/challenge.ts';
import { briefPrompt, checkPrompt, repairPrompt } from '../../wording/prompts.ts';
import { callsPrompt } from '../desk.ts';
import type { Scene } from './rehearsal.ts';

/** What a rehearsal may not meet, straight from the knowledge: a prompt of each purpose and kind, a caution of each signal. */
export function missing(knowledge: Knowledge, scenes: readonly Scene[]): Scene[] {
  const met = scenes.flatMap(({ messages }) => messages);
  const prompts = met.flatMap((message) => (message.type === 'prompt' ? [message] : []));
  const seen = new Set(prompts.map(nameOf));
  const signals = new Set(prompts.flatMap(({ caution }) => caution?.signal ?? []));
  const found: Prompt[] = [];
  for (const prompt of every(knowledge)) {
    const signal = prompt.caution?.signal;
    const isNew = !seen.has(nameOf(prompt)) || (signal !== undefined && !signals.has(signal));
    if (!isNew) continue;
    seen.add(nameOf(prompt));
    if (signal !== undefined) signals.add(signal);
    found.push(prompt);
  }
  return [
    calls(knowledge),
    ...challenges(knowledge),
    ...found.map((prompt): Scene => ({ title: nameOf(prompt), seat: 'board', messages: [prompt] })),
    ...Signal.options
      .filter((signal) => !signals.has(signal))
      .flatMap((signal) => cautionOf(knowledge, signal)),
  ];
}

function calls({ flows }: Knowledge): Scene {
  const waiting = Object.values(flows)
    .slice(0, 2)
    .map(({ id, title }) => ({ id, label: `${title}, call back 555 0142, 12 minutes ago` }));
  return {
    title: 'Phone: calls on hold',
    seat: 'phone',
    messages: [callsPrompt('Which call now?', waiting)],
  };
}

function nameOf({ purpose, kind, reading }: Prompt): string {
  return [purpose, kind, ...(reading ? [reading.quantity] : [])].join(', ');
}

/** Every prompt that the knowledge can make by itself. */
function* every(knowledge: Knowledge): Generator<Prompt> {
  const shown = (words: Omit<Prompt, 'type' | 'id' | 'site'>): Prompt => ({
    type: 'prompt',
    id: 'p0',
    site: inService,
    ...words,
  });
  for (const id of Object.keys(knowledge.brief)) yield shown(briefPrompt(knowledge, id));
  for (const check of Object.values(knowledge.checks)) {
    yield shown(checkPrompt(knowledge, check, false));
    if (check.kind === 'reading' || check.kind === 'observation')
      yield shown(checkPrompt(knowledge, check, true));
    if (check.kind === 'reading')
      yield shown(oddPrompt(checkPrompt(knowledge, check, false), formatQuantity(3.1, check.quantity)));
  }
  for (const id of Object.keys(knowledge.repairs)) yield shown(repairPrompt(knowledge, id, []));
}

/** The other ways to question a reading: all of one kind, in different words. */
function challenges(knowledge: Knowledge): Scene[] {
  const volts = Object.values(knowledge.checks).find(
    (check) => check.kind === 'reading' && check.quantity === 'dc-volts',
  );
  if (!volts) return [];
  const shown = checkPrompt(knowledge, volts, false);
  const scene = (title: string, words: Omit<Prompt, 'type' | 'id' | 'site'>): Scene => ({
    ...{ title: `challenge, ${title}`, seat: 'board' },
    messages: [{ type: 'prompt', id: 'p0', site: inService, ...words }],
  });
  return [
    scene(
      'millivolts where volts would be good',
      slipPrompt(shown, '13.2 mV', { kind: 'thousandth', meant: '13.2 V' }),
    ),
    scene('probes changed over', slipPrompt(shown, '-13.2 V', { kind: 'probes', meant: '13.2 V' })),
    scene('figures changed over', slipPrompt(shown, '11.3 V', { kind: 'figures', meant: '13.1 V' })),
    scene('a proof that is doubted', doubtfulProofPrompt(shown, '11.9 V')),
  ];
}

function cautionOf({ cautions }: Knowledge, signal: Signal): Scene[] {
  const found = Object.values(cautions).find((caution) => caution.signal === signal);
  if (!found) return [];
  const notice: Message = { type: 'notice', about: null, text: `${signal}: ${found.text}` };
  return [{ title: signal, seat: 'board', messages: [notice] }];
}
