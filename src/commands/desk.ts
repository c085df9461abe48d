import type { Input, Message, Prompt } from '../dialogue/messages.ts';
import type { CallWord, Desk } from '../faces/desk.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { waitingOf } from '../session/waits.ts';
import { inService } from '../site/state.ts';
import { sessionsFolder } from '../store/folder.ts';
import { isRefusal } from '../store/refusal.ts';
import { listSessions, type Session } from '../store/sessions.ts';
import { typeAgain } from '../wording/called.ts';
import { keepRecord, type Call } from './hold.ts';
import { age } from './sessions.ts';
import type { Sessions } from './stored.ts';

export interface DeskOptions {
  readonly knowledge: Knowledge;
  readonly sessions: Sessions;
}

/** The phone seat: one call on the line, others on hold. What is on hold is closed, and lies in its journal. */
export class PhoneDesk implements Desk {
  /** The choice between calls, while none is on the line. */
  private choice: Prompt | null = null;
  /** What the call on the line asks. */
  private asked: Prompt | null = null;
  private left = false;
  /** Put on hold from here; the others on this machine may be old. */
  private readonly held = new Set<string>();

  constructor(
    private call: Call,
    private readonly options: DeskOptions,
  ) {}

  get ended(): boolean {
    return this.left || (this.choice === null && this.call.conversation.ended);
  }

  open(): Promise<Message[]> {
    return this.talk(this.call.conversation.open());
  }

  async send(input: Input): Promise<Message[]> {
    if (this.choice)
      return 'do' in input ? this.command(input.do, this.choice) : this.choose(input.answer.trim());
    const out = await this.talk(this.call.conversation.send(input));
    if (!this.call.conversation.ended || !this.waiting().some(({ id }) => this.held.has(id))) return out;
    await this.hangUp();
    return [...out, this.ask('That call is over. Which one now?')];
  }

  async calls(word: CallWord): Promise<Message[]> {
    if (this.choice) return [this.choice];
    if (word === 'calls') return [notice(this.list()), ...(this.asked ? [this.asked] : [])];
    const left = this.call.conversation.holding?.() ?? [];
    await this.hangUp();
    this.held.add(this.call.journal.id);
    return [notice('On hold. All that was said is kept.'), ...left, this.ask('Which call now?')];
  }

  async keepRecord(): Promise<void> {
    if (!this.choice) await keepRecord(this.call);
  }

  close(): void {
    if (!this.choice) this.call.journal.close();
  }

  private async talk(saying: Promise<Message[]>): Promise<Message[]> {
    const messages = await saying;
    this.asked = messages.findLast((message) => message.type === 'prompt') ?? this.asked;
    return messages;
  }

  private async hangUp(): Promise<void> {
    await keepRecord(this.call);
    this.call.journal.close();
  }

  /** Calls that can be taken up, the newest first. */
  private waiting(): Session[] {
    return listSessions(sessionsFolder()).filter(
      ({ seat, isOpen, heldBy }) => seat === 'phone' && isOpen && heldBy === undefined,
    );
  }

  private list(): string {
    const rows = this.labels(this.waiting()).map(({ label }) => `- ${label}`);
    if (rows.length === 0) return 'No other call waits. To put this one on hold: /hold';
    return ['These calls wait. To change to one, put this one on hold: /hold', ...rows].join('\n');
  }

  /** Calls in words; two that would be told in the same words by their names as well. */
  private labels(sessions: readonly Session[]): { id: string; label: string }[] {
    const all = sessions.map((session) => ({ id: session.id, label: this.label(session) }));
    const isTwice = (label: string): boolean => all.filter((each) => each.label === label).length > 1;
    return all.map(({ id, label }) => ({ id, label: isTwice(label) ? `${label} Session ${id}.` : label }));
  }

  private label(session: Session): string {
    const waiting = waitingOf(this.options.knowledge, session.events);
    const back = waiting?.callBack ? `, call back ${waiting.callBack}` : '';
    const left = waiting && waiting.left.length > 0 ? ` Not in service: ${waiting.left.join(', ')}.` : '';
    const asks = waiting?.ask ? ` Waits for: ${waiting.ask}` : '';
    return `${waiting?.title ?? session.flow ?? session.id}${back}, ${age(session, Date.now())}.${left}${asks}`;
  }

  private ask(ask: string): Prompt {
    this.choice = callsPrompt(ask, this.labels(this.waiting().slice(0, most)));
    return this.choice;
  }

  private command(word: string, choice: Prompt): Message[] {
    if (word === 'stop') return this.leave();
    return [notice('No call is on the line.'), choice];
  }

  private async choose(answer: string): Promise<Message[]> {
    if (answer === 'leave') return this.leave();
    const isCall = this.choice?.choices?.some(({ id }) => id === answer) ?? false;
    if (!isCall) return [notice('Type one of the numbers.'), ...(this.choice ? [this.choice] : [])];
    const { sessions } = this.options;
    let notices: string[] = [];
    try {
      if (answer === 'new') this.call = sessions.begin({ seat: 'phone' });
      else ({ notices } = this.call = sessions.resume(answer));
    } catch (error) {
      if (isRefusal(error)) return [notice(error.message), this.ask('Which call now?')];
      throw error;
    }
    this.choice = null;
    this.held.delete(answer);
    return [...notices.map(notice), ...(await this.open())];
  }

  private leave(): Message[] {
    this.left = true;
    const count = this.waiting().length;
    if (count === 0) return [notice('No call waits.')];
    const calls = count === 1 ? '1 call waits' : `${count} calls wait`;
    return [
      notice(`${calls}. To see them: ${typeAgain('sessions')}. To take one up: ${typeAgain('resume')}`),
    ];
  }
}

/** The choice between calls: whoever takes them is asked, and nobody is on the line to say it to. */
export function callsPrompt(ask: string, calls: readonly { id: string; label: string }[]): Prompt {
  return {
    type: 'prompt',
    id: 'calls',
    purpose: 'choose-flow',
    kind: 'choice',
    step: 'calls',
    ask,
    say: '',
    listen: '',
    caution: null,
    site: inService,
    choices: [{ id: 'new', label: 'A new call' }, ...calls, { id: 'leave', label: 'Leave Dropwise' }],
  };
}

/** So many calls are offered. */
const most = 8;

function notice(text: string): Message {
  return { type: 'notice', about: null, text };
}
