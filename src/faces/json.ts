import type { Readable, Writable } from 'node:stream';
import { Input, type Conversation, type Message } from '../dialogue/messages.ts';
import { Incoming } from './incoming.ts';
import { Outlet } from './outlet.ts';

/**
 * Speaks the JSON protocol: one object a line out, one a line in. A line that is not an input gets a notice and the
 * same prompt again; the end of the input stops the session. Resolves with the exit code.
 */
export async function runJson(
  conversation: Conversation,
  streams: { input: Readable; output: Writable },
): Promise<number> {
  const incoming = new Incoming(streams.input);
  const outlet = new Outlet(streams.output, () => incoming.close());
  let last: Message | undefined;
  const send = async (messages: Message[]): Promise<void> => {
    last = messages.findLast((message) => message.type === 'prompt') ?? last;
    await outlet.write(messages.map((message) => `${JSON.stringify(message)}\n`).join(''));
  };
  try {
    await send(await conversation.open());
    while (!conversation.ended) {
      const item = await incoming.next();
      if (item.kind !== 'line') {
        await send(await conversation.send({ do: 'stop' }));
        break;
      }
      if (item.text.trim() === '') continue;
      const { input, wrong } = read(item.text);
      await send(input ? await conversation.send(input) : again(wrong, last));
    }
    return 0;
  } finally {
    incoming.close();
  }
}

type Read = { input: Input; wrong?: undefined } | { input?: undefined; wrong: string };

function read(line: string): Read {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { wrong: 'This line is not JSON. Send one object a line, such as {"answer":"12.4 V"}.' };
  }
  const parsed = Input.safeParse(value);
  if (parsed.success) return { input: parsed.data };
  return {
    wrong: 'This is not an input. Send {"answer":"12.4 V"}, or {"do":"undo"} with one of the known words.',
  };
}

function again(text: string, prompt: Message | undefined): Message[] {
  const about = prompt?.type === 'prompt' ? prompt.id : null;
  return [{ type: 'notice', about, text }, ...(prompt ? [prompt] : [])];
}
