import type { Conversation } from '../dialogue/messages.ts';
import { runLines } from '../faces/lines.ts';
import type { Telling } from '../faces/text/telling.ts';
import { Refusal } from '../store/refusal.ts';
import { typeAgain } from '../wording/called.ts';

export const faceNames = ['chat', 'lines', 'json'] as const;
export type FaceName = (typeof faceNames)[number];

/** What tells whether a person sits at a terminal, and what it can do. */
interface Terminal {
  stdin: { isTTY?: boolean };
  stdout: { isTTY?: boolean };
  env: NodeJS.ProcessEnv;
}

/** The face that was asked for, else the one that this terminal can show. */
export function chooseFace(
  asked: FaceName | undefined,
  { stdin, stdout, env }: Terminal = process,
): FaceName {
  const canChat = stdin.isTTY === true && stdout.isTTY === true && env.TERM !== 'dumb';
  if (asked === 'chat' && !canChat) {
    throw new Refusal(
      `The chat face needs a terminal for keys and screen. Type: ${typeAgain('--face lines')}`,
      2,
    );
  }
  return asked ?? (canChat ? 'chat' : 'lines');
}

/** A face on this process's streams: holds the conversation and resolves with the exit code. */
export type Face = (conversation: Conversation, telling: Telling) => Promise<number>;

/** Loads the face asked for, and no other; plain lines are light enough to be there at once. */
export async function loadFace(name: FaceName): Promise<Face> {
  const { stdin, stdout } = process;
  switch (name) {
    case 'chat': {
      const { runChat } = await import('../faces/chat/run.ts');
      return (conversation, telling) => runChat(conversation, { stdin, stdout, telling });
    }
    case 'json': {
      const { runJson } = await import('../faces/json.ts');
      return (conversation) => runJson(conversation, { input: stdin, output: stdout });
    }
    case 'lines': {
      return (conversation, telling) =>
        runLines(conversation, {
          input: stdin,
          output: stdout,
          terminal: stdin.isTTY === true,
          columns: () => stdout.columns ?? 80,
          telling,
          interrupts: onInterrupt,
        });
    }
  }
}

function onInterrupt(interrupt: () => void): () => void {
  process.on('SIGINT', interrupt);
  return () => process.off('SIGINT', interrupt);
}
