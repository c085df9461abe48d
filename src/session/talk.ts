import { compileFlow, actsOf } from '../dialogue/machine.ts';
import type { Command, Input, Message, Prompt } from '../dialogue/messages.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import type { Act } from '../site/plan.ts';
import {
  actPrompt,
  briefPrompt,
  caution,
  checkPrompt,
  ledgerWords,
  repairPrompt,
} from '../wording/prompts.ts';
import { clearedWords, whyWords } from '../wording/belief.ts';
import { dangerPrompt, oddPrompt } from '../wording/challenge.ts';
import { recordWords } from '../wording/record.ts';
import { sums } from '../wording/sums.ts';
import type { ConverseOptions } from './conversation.ts';
import type { Answer, Asked, Event } from './events.ts';
import { fold, type Machine, type State } from './fold.ts';
import { Log } from './log.ts';
import type { Thought } from '../dialogue/thought.ts';
import { Mind, type Counsel } from './mind.ts';
import { condemning, proofPassed } from './proof.ts';
import { isDead, readAnswer } from './reading.ts';
import { beliefMessage, referralWords, verdictMessage } from './verdict.ts';
import { drive } from './work.ts';

/** What the prompt on the screen waits for. */
type Pending =
  | { kind: 'brief' | 'check' | 'proof'; step: string; asked: string; quantity: QuantityKind | null }
  | { kind: 'act'; act: Act; asked: string }
  | { kind: 'repair'; step: string; asked: string }
  | { kind: 'challenge'; step: string; of: string; asked: string; quantity: QuantityKind | null }
  | { kind: 'danger'; back: Prompt; pending: Pending };

/** A session in one flow: events in, prompts out. Everything it knows follows from the events. */
export class Talk {
  private readonly log: Log;
  private readonly machine: Machine;
  private readonly mind: Mind;
  private readonly flow: Flow;
  private state: State;
  private prompt: Prompt | null = null;
  private pending: Pending | null = null;
  private counsel: Counsel | null = null;
  private thought: Thought | null = null;
  private place: string;
  ended = false;

  constructor(
    private readonly options: ConverseOptions,
    flowId: string,
  ) {
    const { knowledge, seed } = options;
    const flow = knowledge.flows[flowId];
    if (!flow) throw new RangeError(`There is no flow "${flowId}".`);
    this.flow = flow;
    this.machine = compileFlow(knowledge, flow);
    this.mind = new Mind(knowledge, flow, seed);
    this.place = Object.keys(knowledge.places)[0] ?? '';
    this.log = new Log(options.journal, options.resume);
    this.state = fold(knowledge, this.machine, this.log.events);
  }

  async open(): Promise<Message[]> {
    const { seed, hash, seat, resume } = this.options;
    if (resume) this.append({ event: 'resumed' });
    else this.append({ event: 'started', version: 1, seed, knowledge: hash, flow: this.flow.id, seat });
    return this.next([]);
  }

  /** What is left for the office: readings, sums, verdict, repair, proof, notes. */
  record(): string {
    const { told, notes, snapshot } = this.state;
    const { repaired, ending } = snapshot.context;
    return recordWords(this.options.knowledge, this.flow, {
      told: told.map(({ step, value, proof }) => ({ step, said: this.said(step, value), proof })),
      repaired,
      verdict: this.lastSums,
      notes,
      site: this.site,
      ending,
    }).join('\n');
  }

  private said(step: string, value: Answer): string {
    if (value.kind === 'number' || value.kind === 'entry') return value.said;
    if (value.kind !== 'choice') return value.kind === 'unknown' ? 'not known' : 'could not be taken';
    const shown = [this.options.knowledge.brief[step], this.options.knowledge.checks[step]].flatMap((each) =>
      each && 'choices' in each
        ? each.choices
        : each && 'answer' in each && each.answer.kind === 'choice'
          ? each.answer.choices
          : [],
    );
    return shown.find(({ id }) => id === value.id)?.label ?? value.id;
  }

  async send(input: Input): Promise<Message[]> {
    const { prompt, pending } = this;
    if (this.ended || !prompt || !pending) return [notice(null, 'This session is over.')];
    if (input.to !== undefined && input.to !== prompt.id) {
      return [notice(input.to, `That was for ${input.to}. The question is ${prompt.id}.`), prompt];
    }
    return 'do' in input
      ? this.command(input.do, input.text ?? '')
      : this.answer(prompt, pending, input.answer);
  }

  private async command(command: Command, text: string): Promise<Message[]> {
    switch (command) {
      case 'stop':
        return this.end('stopped', []);
      case 'ledger':
        return this.again(`Now: ${ledgerWords(this.options.knowledge, this.site).join(', ')}.`);
      case 'note':
        if (text.trim() === '')
          return this.again('Type the note after the word: note the battery is from spring.');
        this.append({ event: 'noted', text });
        return this.again('Noted.');
      case 'why':
        return this.again(this.why());
      case 'undo':
      case 'back':
        return this.undo();
      case 'redo':
        return this.redo();
      case 'cannot':
        return this.cannot();
    }
  }

  private async answer(prompt: Prompt, pending: Pending, text: string): Promise<Message[]> {
    switch (pending.kind) {
      case 'brief':
      case 'check':
      case 'proof':
      case 'challenge': {
        if (pending.kind === 'challenge' && /^\W*(it )?stands\W*$/i.test(text)) {
          this.append({ event: 'stands', of: pending.of });
          return this.next([]);
        }
        const { knowledge } = this.options;
        const read = readAnswer(knowledge, prompt, pending.quantity, text);
        if (read.kind === 'problem') return this.again(read.text);
        if (read.kind === 'danger') return this.danger(prompt, pending, read.understood);
        if (pending.kind === 'challenge') this.append({ event: 'retracted', of: pending.of });
        return this.take(pending, read.value);
      }
      case 'act':
        return this.act(prompt, pending.act, pending.asked, text);
      case 'repair':
        if (!isDone(text)) return this.again('Say done when the repair is done, or cannot.');
        this.append({ event: 'did', of: pending.asked, done: pending.step, site: this.site });
        return this.next([]);
      case 'danger':
        return this.afterDanger(pending.back, pending.pending, text);
    }
  }

  /** Keeps an answer, says what it cleared, and goes on. */
  private async take(
    pending: Exclude<Pending, { kind: 'act' | 'repair' | 'danger' }>,
    value: Answer,
  ): Promise<Message[]> {
    const { knowledge } = this.options;
    const id = this.log.newId();
    if (pending.kind === 'proof') {
      const thought = await drive(this.mind.think(this.state));
      const passed = proofPassed(knowledge, thought, pending.step, value, this.pendingRepair());
      this.append({ event: 'answered', id, of: pending.asked, value, passed: passed.passed });
      return this.next([notice(pending.asked, passed.words)]);
    }
    this.append({ event: 'answered', id, of: pending.asked, value });
    if (pending.kind === 'brief') return this.next(this.briefNotice(pending.step, value));
    this.place = knowledge.checks[pending.step]?.place ?? this.place;
    const before = this.thought;
    this.thought = await drive(this.mind.think(this.state));
    const cleared = before ? clearedWords(knowledge, before, this.thought) : null;
    return this.next(cleared === null ? [] : [notice(pending.asked, cleared)]);
  }

  private briefNotice(step: string, value: Answer): Message[] {
    const { knowledge } = this.options;
    const choice = knowledge.brief[step]?.choices.find(
      ({ id }) => value.kind === 'choice' && id === value.id,
    );
    const said = choice?.caution === undefined ? null : caution(knowledge, [choice.caution]);
    return said ? [notice(step, `${said.signal}: ${said.text}`)] : [];
  }

  private async act(prompt: Prompt, act: Act, asked: string, text: string): Promise<Message[]> {
    if (prompt.reading) {
      const read = readAnswer(this.options.knowledge, prompt, prompt.reading.quantity, text);
      if (read.kind === 'problem') return this.again(read.text);
      if (read.kind === 'danger') return this.danger(prompt, { kind: 'act', act, asked }, read.understood);
      if (!isDead(read.value)) {
        return this.again(
          'WARNING: That is not dead. Something still feeds it. Find it and switch it off, then read again. If you cannot, say cannot.',
        );
      }
      this.append({ event: 'answered', id: this.log.newId(), of: asked, value: read.value });
    } else if (!isDone(text)) {
      return this.again('Say done when it is done, or cannot.');
    }
    const done = [act.kind, act.what, act.and].filter(Boolean).join(' ');
    this.append({ event: 'did', of: asked, done, site: act.site });
    return this.next([]);
  }

  private danger(back: Prompt, pending: Pending, understood: string): Message[] {
    this.append({ event: 'noted', text: `Dangerous reading said: ${understood} for ${back.step}.` });
    this.pending = { kind: 'danger', back, pending };
    this.prompt = {
      ...dangerPrompt(back, understood),
      type: 'prompt',
      id: this.log.newId(),
      site: back.site,
    };
    return [this.prompt];
  }

  private async afterDanger(back: Prompt, pending: Pending, text: string): Promise<Message[]> {
    const choices = this.prompt?.choices ?? [];
    const said = text.trim().toLowerCase();
    const chosen = choices.find(
      ({ id, label }, i) => id === said || label.toLowerCase() === said || String(i + 1) === said,
    );
    if (!chosen) return this.again('Type slip, repeat or refer.');
    if (chosen.id === 'refer')
      return this.end('referred', [
        notice(back.id, 'A person licensed for mains must make this safe first.'),
      ]);
    this.prompt = { ...back, id: back.id };
    this.pending = pending;
    return [this.prompt];
  }

  private async cannot(): Promise<Message[]> {
    const { pending } = this;
    const { context } = this.state.snapshot;
    if (pending?.kind === 'brief') return this.again('This has to be known first. Answer it, or stop.');
    if (pending?.kind === 'challenge') {
      this.append({ event: 'stands', of: pending.of });
      return this.next([]);
    }
    if (context.pending?.kind === 'check') {
      const asked = this.askedId({ kind: 'check', step: context.pending.id });
      this.append({ event: 'answered', id: this.log.newId(), of: asked, value: { kind: 'cannot' } });
      return this.next([notice(asked, 'Left out. There are other ways.')]);
    }
    if (context.pending?.kind === 'repair' && pending?.kind !== 'act')
      return this.refer('That is for somebody else, then.');
    if (context.pending?.kind === 'repair' && !context.repaired.includes(context.pending.id)) {
      return this.refer('That is for somebody else, then.');
    }
    return this.again(
      'The site has to be put back before anybody leaves. If it cannot be, say stop: the ledger stays on the record.',
    );
  }

  private refer(text: string): Promise<Message[]> {
    this.append({ event: 'asked', id: this.log.newId(), asked: { kind: 'refer', step: null } });
    return this.next([notice(null, text)]);
  }

  private async undo(): Promise<Message[]> {
    const last = this.log.lastSaid();
    if (!last) return this.again('There is no answer to take back.');
    this.append({ event: 'retracted', of: last.id });
    const asked = this.log.asked(last.of);
    if (asked?.kind === 'check') this.append({ event: 'asked', id: this.log.newId(), asked });
    this.thought = null;
    return this.next([notice(last.of, 'Taken back. What was done at the site stays done.')]);
  }

  private async redo(): Promise<Message[]> {
    const of = this.log.lastTakenBack();
    if (of === undefined) return this.again('There is nothing to put back.');
    this.append({ event: 'reinstated', of });
    this.thought = null;
    return this.next([notice(null, 'Put back.')]);
  }

  private why(): string {
    const { pending, counsel } = this;
    const { knowledge } = this.options;
    if (pending?.kind === 'check' && counsel) return whyWords(knowledge, counsel, pending.step);
    if (pending?.kind === 'act')
      return 'The next step needs the site like this. It is never asked on a live site when hands go on conductors.';
    if (pending?.kind === 'repair') return `These readings say so: ${this.lastSums.join(' ')}`;
    if (pending?.kind === 'proof') return 'A repair counts only once the meter says so.';
    return 'Safety comes first, and this fixes what can be asked.';
  }

  private lastSums: string[] = [];

  private async next(out: Message[]): Promise<Message[]> {
    for (;;) {
      const { snapshot } = this.state;
      const { context } = snapshot;
      const odd = await this.oddAnswer();
      if (odd) return [...out, ...odd];
      switch (snapshot.value) {
        case 'briefing': {
          const step = this.flow.brief.find((id) => !context.briefed.includes(id));
          if (step === undefined) throw new RangeError('the briefing is over and nothing follows');
          return [
            ...out,
            this.show({ kind: 'brief', step, asked: this.askedId({ kind: 'brief', step }), quantity: null }),
          ];
        }
        case 'ready':
          out.push(...(await this.choose()));
          break;
        case 'acting': {
          const [act] = actsOf(this.options.knowledge, this.flow, context);
          if (!act) throw new RangeError('no act leads on');
          const asked = this.askedId({ kind: 'transition', step: act.kind, site: act.site }, true);
          return [...out, this.show({ kind: 'act', act, asked })];
        }
        case 'asking': {
          const step = context.pending?.kind === 'check' ? context.pending.id : '';
          return [
            ...out,
            this.show({
              kind: 'check',
              step,
              asked: this.askedId({ kind: 'check', step }),
              quantity: this.quantity(step),
            }),
          ];
        }
        case 'repairing': {
          const step = this.pendingRepair();
          return [...out, this.show({ kind: 'repair', step, asked: this.repairAsked(step) })];
        }
        case 'proving': {
          const step = context.proofs[0] ?? '';
          const asked = this.askedId({ kind: 'proof', step, of: this.pendingRepair() }, true);
          return [...out, this.show({ kind: 'proof', step, asked, quantity: this.quantity(step) })];
        }
        default:
          return this.end(context.ending ?? 'stopped', out);
      }
    }
  }

  /** A reading in everybody's tail is challenged once, by name. */
  private async oddAnswer(): Promise<Message[] | null> {
    const last = this.state.told.at(-1);
    if (!last || !['number', 'choice'].includes(last.value.kind) || last.proof) return null;
    const check = this.options.knowledge.checks[last.step];
    if (
      check?.kind !== 'reading' ||
      this.state.challenged.has(last.id) ||
      this.state.snapshot.value !== 'ready'
    )
      return null;
    const thought = await drive(this.mind.think(this.state));
    const index = thought.steps.lastIndexOf(last.step);
    if (!thought.belief.odd[index]) return null;
    this.append({ event: 'challenged', of: last.id });
    const asked = this.askedId({ kind: 'check', step: last.step });
    const shown = checkPrompt(this.options.knowledge, check, false);
    const said = last.value.kind === 'number' ? last.value.said : '';
    this.pending = {
      kind: 'challenge',
      step: last.step,
      of: last.id,
      asked,
      quantity: this.quantity(last.step),
    };
    this.prompt = { ...oddPrompt(shown, said), type: 'prompt', id: this.log.newId(), site: this.site };
    return [this.prompt];
  }

  private async choose(): Promise<Message[]> {
    const { knowledge } = this.options;
    const first = this.flow.first.find((id) =>
      this.mind.available(this.state).some((check) => check.id === id),
    );
    if (first !== undefined) {
      this.append({ event: 'asked', id: this.log.newId(), asked: { kind: 'check', step: first } });
      this.counsel = null;
      return [];
    }
    const counsel = await drive(this.mind.counsel(this.state, this.place));
    this.counsel = counsel;
    this.thought = counsel.thought;
    const { choice, checks, repairs } = counsel;
    const belief = beliefMessage(counsel);
    const check = choice.kind === 'check' ? checks[choice.index] : undefined;
    if (check) {
      this.append({ event: 'asked', id: this.log.newId(), asked: { kind: 'check', step: check.id } });
      return [belief];
    }
    const repair = choice.kind === 'repair' ? repairs[choice.index] : undefined;
    if (repair === undefined) {
      this.append({ event: 'asked', id: this.log.newId(), asked: { kind: 'refer', step: null } });
      return [belief, notice(null, referralWords(knowledge, counsel))];
    }
    const asked: Asked = { kind: 'repair', step: repair, proofs: this.proofsOf(counsel, repair) };
    this.append({ event: 'asked', id: this.log.newId(), asked });
    this.lastSums = sums(knowledge, this.flow, counsel.thought, repair);
    return [belief, verdictMessage(counsel, repair, this.lastSums)];
  }

  /** The condemning answer again, then the symptom's own acceptance; none for what somebody else mends. */
  private proofsOf({ thought }: Counsel, repair: string): string[] {
    const { knowledge } = this.options;
    if (knowledge.repairs[repair]?.way === 'refer') return [];
    return [...new Set([...condemning(knowledge, thought, repair), ...this.flow.acceptance])];
  }

  private end(ending: 'proved' | 'referred' | 'stopped', out: Message[]): Message[] {
    this.append({ event: 'ended', ending, site: this.site });
    this.ended = true;
    this.prompt = null;
    this.pending = null;
    const record = this.record();
    return [
      ...out,
      notice(null, record),
      { type: 'end', ending, site: this.site, session: this.options.journal.id },
    ];
  }

  private show(pending: Exclude<Pending, { kind: 'danger' | 'challenge' }>): Prompt {
    const { knowledge } = this.options;
    const { context } = this.state.snapshot;
    this.pending = pending;
    this.prompt = {
      type: 'prompt',
      id: pending.asked,
      site: pending.kind === 'act' ? pending.act.site : this.site,
      ...this.words(pending),
    };
    if (pending.kind === 'act' && context.pending !== null && !knowledge.transitions[pending.act.kind])
      throw new RangeError(pending.act.kind);
    return this.prompt;
  }

  private words(
    pending: Exclude<Pending, { kind: 'danger' | 'challenge' }>,
  ): Omit<Prompt, 'type' | 'id' | 'site'> {
    const { knowledge } = this.options;
    switch (pending.kind) {
      case 'brief':
        return briefPrompt(knowledge, pending.step);
      case 'act':
        return actPrompt(knowledge, pending.act, this.restoring(), ledgerWords(knowledge, this.site));
      case 'repair':
        return repairPrompt(
          knowledge,
          pending.step,
          this.flow.faults.filter((id) => knowledge.faults[id]?.repair === pending.step),
        );
      default: {
        const check = knowledge.checks[pending.step];
        if (!check) throw new RangeError(`no check "${pending.step}"`);
        return checkPrompt(knowledge, check, pending.kind === 'proof');
      }
    }
  }

  private restoring(): boolean {
    const { pending, repaired } = this.state.snapshot.context;
    return pending?.kind === 'refer' || (pending?.kind === 'repair' && repaired.includes(pending.id));
  }

  private pendingRepair(): string {
    const { pending } = this.state.snapshot.context;
    return pending?.kind === 'repair' ? pending.id : '';
  }

  private quantity(step: string): QuantityKind | null {
    const check = this.options.knowledge.checks[step];
    if (check?.kind === 'reading') return check.quantity;
    if (check?.kind === 'fact' && check.answer.kind === 'number') return check.answer.quantity;
    if (check?.kind === 'fact' && check.answer.kind === 'size') return 'size';
    return null;
  }

  private get site() {
    return this.state.snapshot.context.standing.site;
  }

  /** The id under which a step is asked now: the one in the journal, or a new one. */
  private askedId(asked: Asked, fresh = false): string {
    const before = this.log.lastAsked(asked);
    if (before && (before.newest || (!fresh && (!before.answered || asked.kind === 'check'))))
      return before.id;
    const id = this.log.newId();
    this.append({ event: 'asked', id, asked });
    return id;
  }

  private repairAsked(step: string): string {
    return this.log.lastAsked({ kind: 'repair', step, proofs: [] })?.id ?? this.log.newId();
  }

  private append(event: Event): void {
    this.log.append(event);
    this.state = fold(this.options.knowledge, this.machine, this.log.events);
  }

  private again(text: string): Message[] {
    return this.prompt ? [notice(this.prompt.id, text), this.prompt] : [notice(null, text)];
  }
}

function isDone(text: string): boolean {
  return /^\W*(done|d|ok|okay|yes|y|ready|understood|good)\W*$/i.test(text);
}

function notice(about: string | null, text: string): Message {
  return { type: 'notice', about, text };
}
