import type { Message } from '../../dialogue/messages.ts';
import type { Site } from '../../site/site.ts';
import { typeAgain } from '../../wording/called.ts';
import type { Line } from './line.ts';
import type { Names } from './telling.ts';

type End = Extract<Message, { type: 'end' }>;

const endings: Record<End['ending'], string> = {
  proved: 'Proved. The repair is done and the readings say so.',
  referred: 'Referred. Somebody else takes it from here.',
  stopped: 'Stopped before the end.',
};

/** How it ended, what is not in service, and the session's name. */
export function endLines({ ending, site, session, final }: End, names: Names): Line[] {
  const left = ledgerOf(site, names);
  if (session === '') return [{ text: 'Stopped before anything was begun.' }];
  return [
    { text: endings[ending] },
    ...(left.length === 0 ? [{ text: 'Nothing is left to put back.' }] : [{ text: 'Not in service:' }]),
    ...left.map((text) => ({ text: `- ${text}`, hang: 2 })),
    { text: `Session: ${session}` },
    ...(ending === 'stopped' && !final
      ? [{ text: `To go on with it: ${typeAgain(`resume ${session}`)}`, hang: 2 }]
      : []),
  ];
}

/** Everything about a site that is not as in service, one phrase each. */
export function ledgerOf(site: Site, names: Names): string[] {
  return [
    ...(site.mains === 'off' ? ['mains off'] : []),
    ...(site.battery === 'lifted' ? ['battery lifted'] : []),
    ...(site.others === 'off' ? ['other supplies off'] : []),
    ...site.lifted.map((point) => `lifted: ${names.point(point)}`),
    ...site.joined.map(([a, b]) => `linked: ${names.point(a)} to ${names.point(b)}`),
    ...(site.meterIn === null
      ? []
      : [`meter in line at ${names.point(site.meterIn)}, red lead in the amps jack`]),
    ...(site.device === 'sending' ? ['still sending, or its output still driven'] : []),
    ...(site.onTest ? ['account on test: the station ignores it, fire too'] : []),
  ];
}
