import type { Conversation, Input, Message, Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { drillEnds, drillLine, drillNote, drillOpens, type Worth } from '../wording/drill.ts';
import type { DrillPlan } from './draw.ts';
import { asksOfDanger } from './site.ts';
import { Tally, type Verdict } from './tally.ts';

export interface DrillOptions {
  readonly knowledge: Knowledge;
  readonly plan: DrillPlan;
  /** The assistant, in the flow of the plan. */
  readonly conversation: Conversation;
  /** Repairs done before, where the drill is taken up again. */
  readonly done?: readonly string[];
}

/** The assistant as always, and beside each of its questions what an invented site shows there. */
export function drill(options: DrillOptions): Conversation {
  return new Drill(options);
}

class Drill implements Conversation {
  private readonly tally: Tally;
  private prompt: Prompt | null = null;
  /** The ids of the prompts by which each step was asked. */
  private readonly asked = new Map<string, string[]>();
  /** What was last told of each step, for whoever changes what was said of it. */
  private readonly before = new Map<string, string>();

  constructor(private readonly options: DrillOptions) {
    this.tally = new Tally(options.knowledge);
    for (const repair of options.done ?? []) options.plan.site.repaired(repair);
  }

  get ended(): boolean {
    return this.options.conversation.ended;
  }

  async record(): Promise<string> {
    return (await this.options.conversation.record?.()) ?? '';
  }

  async open(): Promise<Message[]> {
    const { conversation, plan, done } = this.options;
    const opened = await conversation.open();
    if (!done) await conversation.send({ do: 'note', text: drillNote(againOf(plan)) });
    const [hello, ...rest] = this.heard(opened);
    const words = notice(drillOpens(plan.flow.title, againOf(plan)));
    return [...(hello ? [hello] : []), words, ...rest];
  }

  async send(input: Input): Promise<Message[]> {
    const { prompt } = this;
    const messages = await this.options.conversation.send(input);
    const next = messages.findLast((message) => message.type === 'prompt');
    const isTaken = this.ended || (next && next.id !== prompt?.id && !asksOfDanger(next));
    if (prompt && 'answer' in input && isTaken) this.taken(prompt);
    return this.heard(messages);
  }

  /** An answer was taken, and what it says was done is done. */
  private taken(prompt: Prompt): void {
    if (isEdit(prompt) || asksOfDanger(prompt)) return;
    if (prompt.purpose === 'repair') this.options.plan.site.repaired(prompt.step);
    this.tally.answered(prompt);
  }

  /** What the assistant says, with what the site shows beside its question, and at the end what was wrong. */
  private heard(messages: readonly Message[]): Message[] {
    this.tally.told(messages);
    return messages.flatMap((message): Message[] => {
      if (message.type === 'end') return [message, this.over()];
      if (message.type !== 'prompt') return [message];
      this.prompt = message;
      return [{ ...message, shown: drillLine(this.tells(message)) }];
    });
  }

  private tells(prompt: Prompt): string {
    const earlier = this.before.get(prompt.step);
    if (isEdit(prompt) && earlier !== undefined) return earlier;
    const { told } = this.options.plan.site.shows(prompt, String(this.timeOf(prompt)));
    if (prompt.purpose !== 'proof') this.before.set(prompt.step, told);
    return told;
  }

  /** How often the step had been asked before: the same question shown again is the same reading. */
  private timeOf({ step, id }: Prompt): number {
    const ids = this.asked.get(step) ?? [];
    this.asked.set(step, ids.includes(id) ? ids : [...ids, id]);
    return ids.includes(id) ? ids.indexOf(id) : ids.length;
  }

  private over(): Message {
    const { knowledge, plan } = this.options;
    const { fault, form, site } = plan;
    const { readings, minutes, verdicts } = this.tally;
    const last = verdicts.at(-1);
    return notice(
      drillEnds({
        wrong: form === null ? fault.title : `${fault.title} (${form})`,
        isMended: site.isMended,
        verdict: last ? { found: foundWords(knowledge, last), worth: worthOf(last, plan) } : null,
        verdicts: verdicts.length,
        readings,
        minutes,
        again: againOf(plan),
      }),
    );
  }
}

/** What was said before is corrected: nothing is read or done for it now. */
function isEdit({ flow }: Prompt): boolean {
  return flow === undefined;
}

function foundWords({ faults }: Knowledge, { group }: Verdict): string {
  const titles = group.flatMap((suspect) => suspect.faults.map((id) => faults[id]?.title ?? id));
  return titles.length > 0 ? titles.join(', or ') : 'nothing on the list';
}

function worthOf({ group }: Verdict, { fault }: DrillPlan): Worth {
  const [lead] = group;
  if (lead?.faults.includes(fault.id)) return 'right';
  if (lead?.repair === fault.repair) return 'repair';
  return group.some(({ repair }) => repair === fault.repair) ? 'named' : 'wrong';
}

/** How the same drill is called again. */
function againOf({ flow, seed }: DrillPlan): string {
  return `drill ${flow.id} --seed ${seed}`;
}

function notice(text: string): Message {
  return { type: 'notice', about: null, text };
}
