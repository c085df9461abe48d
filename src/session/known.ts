import { atSite } from '../knowledge/at-site.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Event } from './events.ts';

/** The knowledge that a session was begun with: as it is on its site, where a site file was given. */
export function knownTo(knowledge: Knowledge, events: readonly Event[]): Knowledge {
  const started = events.find((event) => event.event === 'started');
  return started?.event === 'started' && started.siteFile ? atSite(knowledge, started.siteFile) : knowledge;
}
