import type { Conversation, Input } from '../../dialogue/messages.ts';
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
  let sent: Input | undefined;
  let finish: () => void = () => undefined;
  let fail: (error: unknown) => void = () => undefined;
  const left = new Promise<void>((resolve, reject) => {
    finish = resolve;
    fail = reject;
  });
  const dispatch = (action: Action): void => {
    if (chat.left) return;
    chat = reduce(chat, action);
    screen?.show(chat);
    if (chat.left) finish();
    else if (chat.sending && chat.sending !== sent) void exchange((sent = chat.sending));
  };
  const exchange = async (input: Input | 'open'): Promise<void> => {
    const timer = setTimeout(() => dispatch({ type: 'slow' }), patience);
    try {
      const messages = await (input === 'open' ? conversation.open() : conversation.send(input));
      dispatch({ type: 'messages', messages, ended: conversation.ended });
    } catch (error) {
      fail(error);
    } finally {
      clearTimeout(timer);
    }
  };
  const release = listen({ stdin, stdout }, dispatch);
  try {
    prepareEnvironment(process.env);
    // The first question stands there, and keys are taken, while the rest of the screen is still being loaded.
    await Promise.race([exchange('open'), left, wait(patience)]);
    chat = printEarly(chat, stdout);
    const { openScreen } = await import('./view.tsx');
    if (chat.left) return exitCode(chat);
    const onResize = (): void => dispatch({ type: 'resize', columns: stdout.columns, rows: stdout.rows });
    screen = openScreen(chat, { stdin, stdout, onResize });
    await Promise.race([left, screen.closed]);
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

/** Takes the keyboard and the signals, and returns what gives them back. */
function listen({ stdin, stdout }: Streams, dispatch: (action: Action) => void): () => void {
  const keysOf = keyReader();
  const typed = (chunk: string): void => keysOf(chunk).forEach((key) => dispatch({ type: 'key', key }));
  const hungUp = (): void => dispatch({ type: 'hang-up' });
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  stdin.setEncoding('utf8').setRawMode(true);
  stdin.on('data', typed).on('end', hungUp).on('error', hungUp);
  stdout.on('error', hungUp);
  stdout.write(pasteMarks.on);
  signals.forEach((signal) => process.on(signal, hungUp));
  return () => {
    stdin.off('data', typed).off('end', hungUp);
    signals.forEach((signal) => process.off(signal, hungUp));
    stdin.setRawMode(false).pause();
    stdout.write(pasteMarks.off);
  };
}
