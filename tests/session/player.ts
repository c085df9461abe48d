import type { Input, Message, Prompt } from '../../src/dialogue/messages.ts';
import { whileThere } from '../../src/diagnosis/likelihood.ts';
import type { Prediction } from '../../src/diagnosis/model.ts';
import { contentHash } from '../../src/knowledge/hash.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { converse, type ConverseOptions } from '../../src/session/conversation.ts';
import type { Event } from '../../src/session/events.ts';
import { typedAs } from '../oracle/sites/typed-as.ts';

export const knowledge = loadKnowledge('.');
export const hash = contentHash(knowledge);

/** The same with fewer draws, and no fault that comes and goes: where what is asked and told matters, not how sure it makes. */
export const quick: Knowledge = { ...knowledge, costs: { ...knowledge.costs, draws: 40, intermittent: 0 } };

/** The flow that visits are played in unless another is named. */
const usual = 'low-supply';

/** A session held in memory, with every message and event kept. */
export function begin(
  seed = 1,
  resume?: Event[],
  from: Knowledge = quick,
  flow = usual,
  more: Partial<Pick<ConverseOptions, 'seat' | 'strategy' | 'siteFile'>> = {},
) {
  const events: Event[] = resume ? [...resume] : [];
  const conversation = converse({
    knowledge: from,
    hash,
    version: '0',
    seat: 'board',
    seed,
    flow,
    journal: { id: 'test', append: (event) => void events.push(event) },
    resume,
    ...more,
  });
  const all: Message[] = [];
  const keep = (messages: Message[]): Message[] => {
    all.push(...messages);
    return messages;
  };
  return {
    events,
    all,
    conversation,
    open: async () => keep(await conversation.open()),
    send: async (input: Input) => keep(await conversation.send(input)),
    prompt: (): Prompt => {
      const found = all.findLast((message) => message.type === 'prompt');
      if (found?.type !== 'prompt') throw new Error('nothing is asked');
      return found;
    },
  };
}

const units = { 'dc-volts': 'V', 'ac-volts': 'V', 'dc-amps': 'A', ohms: 'ohm' } as const;

/** Answers any prompt as a site with these faults would, without noise: so far up every range, its middle unless said. */
export function answering(faults: string[], from: Knowledge = quick, flowId = usual, at = 0.5) {
  const flow = from.flows[flowId];
  const meter = Object.values(from.meters)[1];
  if (!flow || !meter) throw new Error('no flow');
  const model = circuitModel({ knowledge: from, flow, meter, facts: new Map() });
  const indexes = faults.map((id) => model.faults.findIndex((fault) => fault.id === id));
  const instance = model.instance(indexes, new Float64Array(model.dimensions(indexes)).fill(at));
  const healed: number[] = [];
  return (prompt: Prompt): string => {
    if (prompt.purpose === 'brief') {
      const choices = from.brief[prompt.step]?.choices ?? [];
      return (
        (choices.find(({ does }) => does === 'on-test') ?? choices.find(({ does }) => does === 'go-on'))
          ?.id ?? ''
      );
    }
    if (prompt.purpose === 'challenge') return 'stands';
    if (prompt.purpose === 'repair') {
      indexes.forEach((f) => prompt.cures?.includes(model.faults[f]?.id ?? '') && healed.push(f));
      return 'done';
    }
    if (prompt.kind === 'confirm') return 'done';
    if (prompt.purpose === 'set-site') return '0.00';
    const prediction = whileThere(
      flow.checks.includes(prompt.step)
        ? instance.predict(
            model.question(prompt.step),
            [...healed].sort((a, b) => a - b),
          )
        : goodIn(from, prompt.step),
    );
    if (prediction.kind === 'choice') {
      const asked = from.checks[prompt.step];
      const likeliest = prediction.odds.indexOf(Math.max(...prediction.odds));
      if (asked?.kind === 'entry') return typedAs(asked.classifier, asked.choices[likeliest]?.id ?? '');
      return prompt.choices?.[likeliest]?.id ?? '';
    }
    const middle =
      prediction.kind === 'value'
        ? prediction.value
        : prediction.low + 0.2 * (prediction.high - prediction.low);
    if (!Number.isFinite(middle)) return 'OL';
    const check = from.checks[prompt.step];
    const quantity = check?.kind === 'reading' ? check.quantity : undefined;
    const unit = (quantity && units[quantity]) ?? (prompt.kind === 'entry' ? 'mm2' : 'm');
    return `${middle.toFixed(3)} ${unit}`;
  };
}

/** What a good site shows of a check of another flow, once a session has crossed over to it. */
function goodIn(from: Knowledge, check: string): Prediction {
  const flow = Object.values(from.flows).find(({ checks }) => checks.includes(check));
  const meter = Object.values(from.meters)[1];
  if (!flow || !meter) throw new Error(`no flow has the check "${check}"`);
  const model = circuitModel({ knowledge: from, flow, meter, facts: new Map() });
  const site = model.instance([], new Float64Array(model.dimensions([])).fill(0.5));
  return site.predict(model.question(check), []);
}
