import { Box, render, Static, Text, useCursor, type Instance } from 'ink';
import type { ReactNode } from 'react';
import type { Signal } from '../../knowledge/schema/words.ts';
import { beliefLine } from '../text/belief.ts';
import { fitted, type Line } from '../text/line.ts';
import { visible } from './input.ts';
import { keyLine } from './keyline.ts';
import { heightOf, liveRows, unseen } from './layout.ts';
import { widthOf, type Chat } from './state.ts';

interface Streams {
  stdin: NodeJS.ReadStream;
  stdout: NodeJS.WriteStream;
}

/** What is on the screen. Everything that depends on Ink is in this file. */
export interface Screen {
  show(chat: Chat): void;
  /** Leaves what was printed and takes the live lines away; resolves once all of it is written. */
  close(): Promise<void>;
  /** Rejects if drawing fails; settles otherwise when closed. */
  readonly closed: Promise<unknown>;
}

/** Draws the chat at the terminal. `onResize` is called after Ink has drawn what it had at the new size. */
export function openScreen(chat: Chat, { onResize, ...streams }: Streams & { onResize: () => void }): Screen {
  const { stdout } = streams;
  let shown = chat;
  let { columns, rows } = stdout;
  const onSmaller = (): void => {
    if (!shown.left && stdout.columns < columns) stdout.write(eraseReflowed(shown, stdout.columns));
    else if (!shown.left && stdout.rows < rows) stdout.write(roomBelow(shown));
    ({ columns, rows } = stdout);
  };
  stdout.on('resize', onSmaller);
  // No frames are held back, so that the cursor is always where the last chat shown puts it.
  const ink: Instance = render(<ChatView chat={chat} />, { ...streams, exitOnCtrlC: false, maxFps: 0 });
  stdout.on('resize', onResize);
  const closed = ink.waitUntilExit();
  return {
    show: (next) => {
      shown = next;
      ink.rerender(<ChatView chat={next} />);
    },
    close: async () => {
      stdout.off('resize', onSmaller).off('resize', onResize);
      ink.unmount();
      await closed;
    },
    closed,
  };
}

/**
 * A terminal made narrower has broken the live lines over more rows than Ink counts, and it would leave some behind.
 * Up to where they begin, everything below erased, and down again to the row that Ink takes the cursor to be on.
 */
function eraseReflowed(chat: Chat, columns: number): string {
  const { x, y } = cursorOf(chat);
  const down = y > 0 ? '\n'.repeat(y) : '';
  return `\u001B[${y + Math.floor(x / columns)}A\r\u001B[J${down}${roomBelow(chat)}`;
}

/**
 * A terminal made lower may have cut off the live lines below the cursor. Ink goes down over them before it erases
 * upwards: with no rows to go down to, it would erase what was printed.
 */
function roomBelow(chat: Chat): string {
  // Ink ends on the row under the live lines.
  const below = heightOf(chat) - cursorOf(chat).y;
  return below > 0 ? `${'\n'.repeat(below)}\u001B[${below}A` : '';
}

function ChatView({ chat }: { chat: Chat }): ReactNode {
  return (
    <>
      <Static items={chat.printed.slice(chat.early)}>{(line, i) => <Printed key={i} line={line} />}</Static>
      {chat.left ? null : <Live chat={chat} />}
    </>
  );
}

const colours: Record<Signal, string> = {
  DANGER: 'red',
  WARNING: 'yellow',
  CAUTION: 'yellow',
  NOTICE: 'blue',
};

function Printed({ line: { text, signal } }: { line: Line }): ReactNode {
  // An empty Text has no height.
  if (!signal) return <Text>{text || ' '}</Text>;
  return (
    <Text>
      <Text bold color={colours[signal]}>
        {text.slice(0, signal.length)}
      </Text>
      {text.slice(signal.length)}
    </Text>
  );
}

function Live({ chat }: { chat: Chat }): ReactNode {
  const { setCursorPosition } = useCursor();
  setCursorPosition(cursorOf(chat));
  const input = <Text wrap="truncate-end">{`> ${visibleInput(chat).text}`}</Text>;
  if (chat.rows <= liveRows) return input;
  return (
    <Box flexDirection="column" width="100%">
      <Above chat={chat} />
      {input}
      {chat.belief && (
        <Text wrap="truncate-end">{beliefLine(chat.belief, chat.telling.names, widthOf(chat))}</Text>
      )}
      <Text wrap="truncate-end" dimColor>
        {keyLine(chat) || ' '}
      </Text>
    </Box>
  );
}

/** The line above the input: that it thinks, or that something has scrolled up unseen. */
function Above({ chat }: { chat: Chat }): ReactNode {
  const above = unseen(chat);
  if (chat.slow || !above) return <Text dimColor>{chat.slow ? 'working it out' : ' '}</Text>;
  return <Printed line={{ ...above, text: fitted(above.text, widthOf(chat)) }} />;
}

/** Where the cursor stands, from the top left of the live lines. */
function cursorOf(chat: Chat): { x: number; y: number } {
  return { x: 2 + visibleInput(chat).column, y: chat.rows <= liveRows ? 0 : 1 };
}

function visibleInput(chat: Chat): { text: string; column: number } {
  return visible(chat.input, widthOf(chat) - 3);
}
