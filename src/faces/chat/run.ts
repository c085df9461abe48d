import type { Conversation } from '../../dialogue/messages.ts';
import { sendTo, type Sent } from '../desk.ts';
import type { Telling } from '../text/telling.ts';
import { prepareEnvironment } from './environment.ts';
import { keyReader, pasteMarks } from './keys.ts';
import { openChat, reduce, type Action, type Chat } from './state.ts';
import type { Screen } from './view.tsx';

export interface ChatOptions {
  stdin: NodeJS.ReadStream;
  stdout: NodeJS.WriteStream;
  telling: Telling;
}

/** Milliseconds after which it is said that something is being worked out. */
const patience = 300;

/**
 * The chat at a terminal. Resolves with the exit code: 0, or 130 when it was left with Ctrl-C or the terminal went.
 * What a conversation or the drawing throws comes out here, with the terminal put back as it was.
 */
export async function runChat(
  conversation: Conversation,
  { stdin, stdout, telling }: ChatOptions,
): Promise<number> {
  let chat = openChat(telling, stdout.columns, stdout.rows);
  let screen: Screen | undefined;
  let sent: Sent | undefined;
  let finish: () => void = () => undefined;
  let fail: (error: unknown) => void = () => undefined;
  const left = new Promise<void>((resolve, reject) => {
    finish = resolve;
    fail = reject;
  });
  // Drawn once for all that came together: a long text is thousands of keys.
  const dispatch = (...actions: readonly Action[]): void => {
    if (chat.left) return;
    for (const action of actions) if (!chat.left) chat = reduce(chat, action);
    screen?.show(chat);
    if (chat.left) finish();
    else if (chat.sending && chat.sending !== sent) void exchange((sent = chat.sending));
  };
  const exchange = async (input: Sent | 'open'): Promise<void> => {
    const timer = setTimeout(() => dispatch({ type: 'slow' }), patience);
    try {
      const messages = await (input === 'open' ? conversation.open() : sendTo(conversation, input));
      dispatch({ type: 'messages', messages, ended: conversation.ended });
    } catch (error) {
      fail(error);
    } finally {
      clearTimeout(timer);
    }
  };
  const onResize = (): void => dispatch({ type: 'resize', columns: stdout.columns, rows: stdout.rows });
  const { release, suspend } = listen({ stdin, stdout }, dispatch, () => void asleep().catch(fail));
  /** Leaves what was printed, lets the shell have the terminal, and draws anew when it is given back. */
  const asleep = async (): Promise<void> => {
    if (!screen || chat.left) return;
    const held = screen;
    const shown = chat.printed.length;
    screen = undefined;
    held.show({ ...chat, left: 'ended' });
    await held.close();
    chat = { ...chat, early: shown };
    await suspend();
    onResize();
    dispatch({ type: 'awake' });
    await draw();
  };
  const draw = async (): Promise<void> => {
    const { openScreen } = await import('./view.tsx');
    if (chat.left) return;
    screen = openScreen(chat, { stdin, stdout, onResize });
    screen.closed.catch(fail);
  };
  try {
    prepareEnvironment(process.env);
    // The first question stands there, and keys are taken, while the rest of the screen is still being loaded.
    await Promise.race([exchange('open'), left, wait(patience)]);
    chat = printEarly(chat, stdout);
    await draw();
    await left;
    return exitCode(chat);
  } finally {
    release();
    await screen?.close();
  }
}

/** Prints what there is as plain text; a caution waits for its colour. */
function printEarly(chat: Chat, stdout: NodeJS.WriteStream): Chat {
  const caution = chat.printed.findIndex(({ signal }) => signal !== undefined);
  const early = caution < 0 ? chat.printed.length : caution;
  for (const { text } of chat.printed.slice(0, early)) stdout.write(`${text}\n`);
  return { ...chat, early };
}

function wait(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds).unref());
}

function exitCode({ left }: Chat): number {
  return left === 'interrupted' ? 130 : 0;
}

type Streams = Pick<ChatOptions, 'stdin' | 'stdout'>;

/** Takes the keyboard and the signals; `release` gives them back, `suspend` does until the program goes on. */
function listen(
  { stdin, stdout }: Streams,
  dispatch: (...actions: readonly Action[]) => void,
  onSuspend: () => void,
): { release: () => void; suspend: () => Promise<void> } {
  const keysOf = keyReader();
  const typed = (chunk: string): void => {
    const keys = keysOf(chunk).map((key) => ({ type: 'key', key }) as const);
    const stops = [...keys.entries()].flatMap(([i, { key }]) => (key.kind === 'suspend' ? [i] : []));
    let from = 0;
    for (const stop of stops) {
      dispatch(...keys.slice(from, stop));
      onSuspend();
      from = stop + 1;
    }
    dispatch(...keys.slice(from));
  };
  const hungUp = (): void => dispatch({ type: 'hang-up' });
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  const take = (): void => {
    stdin.setRawMode(true).resume();
    stdout.write(pasteMarks.on);
  };
  const give = (): void => {
    stdin.setRawMode(false).pause();
    stdout.write(pasteMarks.off);
  };
  stdin.setEncoding('utf8');
  stdin.on('data', typed).on('end', hungUp).on('error', hungUp);
  stdout.on('error', hungUp);
  take();
  signals.forEach((signal) => process.on(signal, hungUp));
  return {
    release: () => {
      stdin.off('data', typed).off('end', hungUp);
      signals.forEach((signal) => process.off(signal, hungUp));
      give();
    },
    suspend: async () => {
      give();
      const goesOn = new Promise<void>((resolve) => process.once('SIGCONT', () => resolve()));
      // A signal that is waited for does not keep the program alive.
      const awake = setInterval(() => undefined, 1000);
      process.kill(process.pid, 'SIGTSTP');
      await goesOn;
      clearInterval(awake);
      take();
    },
  };
}
