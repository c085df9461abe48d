import type { Figure } from './figure.ts';
import { apart, startTime, type Start } from './processes.ts';
import { median } from './quantile.ts';

const runs = 15;

const starts = {
  bare: { args: ['-e', '0'], terminal: false },
  lines: { args: ['dist/cli.js', '--face', 'lines'], terminal: false, until: 'What is wrong' },
  bareInTerminal: { args: ['-e', '0'], terminal: true },
  // From the first question on keys are taken; the key line is the last thing that the chat draws.
  chat: { args: ['dist/cli.js', '--face', 'chat'], terminal: true, until: 'What is wrong' },
  chatWhole: { args: ['dist/cli.js', '--face', 'chat'], terminal: true, until: '? help' },
} satisfies Record<string, Start>;

/** From start to the first prompt over a bare `node -e 0`: medians of runs taken in turns. */
export async function startUp(): Promise<Figure[]> {
  const times = { bare: [], lines: [], bareInTerminal: [], chat: [], chatWhole: [] } as Record<
    keyof typeof starts,
    number[]
  >;
  await apart(async (env) => {
    for (let run = 0; run < runs; run++) {
      times.bare.push(await startTime(starts.bare, env));
      times.lines.push(await startTime(starts.lines, env));
      times.bareInTerminal.push(await startTime(starts.bareInTerminal, env));
      times.chat.push(await startTime(starts.chat, env));
      times.chatWhole.push(await startTime(starts.chatWhole, env));
    }
  });
  const [bare, lines] = [median(times.bare), median(times.lines)];
  const [bareInTerminal, chat] = [median(times.bareInTerminal), median(times.chat)];
  return [
    { what: 'lines, first prompt over bare node', value: lines / bare, unit: 'times', atMost: 1.5 },
    {
      what: 'chat, first prompt over bare node, both in a pseudo-terminal',
      value: chat / bareInTerminal,
      unit: 'times',
      atMost: 3,
    },
    { what: 'bare node', value: bare, unit: 'ms' },
    { what: 'lines, first prompt', value: lines, unit: 'ms' },
    { what: 'bare node in a pseudo-terminal', value: bareInTerminal, unit: 'ms' },
    { what: 'chat, first prompt', value: chat, unit: 'ms' },
    { what: 'chat, whole screen', value: median(times.chatWhole), unit: 'ms' },
  ];
}
