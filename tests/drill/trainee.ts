import type { Message, Prompt } from '../../src/dialogue/messages.ts';
import { planDrill } from '../../src/drill/draw.ts';
import { drill } from '../../src/drill/drill.ts';
import type { Event } from '../../src/session/events.ts';
import { converse } from '../../src/session/conversation.ts';
import { hash, quick } from '../session/player.ts';

/** One whole drill: what was told, asked and written down. */
export interface Played {
  readonly messages: Message[];
  readonly events: Event[];
  readonly fault: string;
  readonly ending: string | undefined;
}

/** A drill as it is begun, with quick settings. */
export function begun(flowId: string, seed: number) {
  const flow = quick.flows[flowId];
  if (!flow) throw new Error(`no flow "${flowId}"`);
  const events: Event[] = [];
  const plan = planDrill(quick, flow, seed);
  const inner = converse({
    knowledge: quick,
    hash,
    version: '0',
    seat: 'trainer',
    seed,
    flow: flowId,
    drill: true,
    journal: { id: 'drill', append: (event) => void events.push(event) },
  });
  return { plan, events, conversation: drill({ knowledge: quick, plan, conversation: inner }) };
}

/** A trainee who reads nothing but the screen, and types just what the drill tells. */
export async function play(flowId: string, seed: number): Promise<Played> {
  const { plan, events, conversation } = begun(flowId, seed);
  const messages = await conversation.open();
  for (let turn = 0; !conversation.ended; turn++) {
    if (turn > 150)
      throw new Error(`${flowId} ${seed} does not end: ${messages.slice(-4).map(wordsOf).join(' ')}`);
    messages.push(...(await conversation.send({ answer: typedFor(messages) })));
  }
  const end = messages.findLast((message) => message.type === 'end');
  return { messages, events, fault: plan.fault.id, ending: end?.type === 'end' ? end.ending : undefined };
}

/** What is typed for the last question, by the line that is told with it. */
export function typedFor(messages: readonly Message[]): string {
  const prompt = messages.at(-1);
  if (prompt?.type !== 'prompt' || prompt.shown === undefined)
    throw new Error('nothing is told with the question');
  return typed(prompt.shown, prompt);
}

function typed(text: string, { choices = [] }: Prompt): string {
  if (text.includes('nothing to read')) return 'done';
  const shown = /^Drill: (?:the meter shows (.*)\.|it reads: (.*))$/.exec(text);
  if (shown) return shown[1] ?? shown[2] ?? '';
  const answer = text.replace('Drill: the answer is: ', '');
  const chosen = choices.find(({ label }) => answer === label || answer === `${label}.`);
  return chosen?.label ?? answer.replace(/\.$/, '');
}

function wordsOf(message: Message): string {
  return message.type === 'prompt' ? message.ask : message.type === 'notice' ? message.text : message.type;
}
