import type { Event } from '../../src/session/events.ts';
import { inService } from '../../src/site/state.ts';

export const started: Event = {
  event: 'started',
  version: 1,
  seed: 7,
  knowledge: 'abc',
  flow: 'dead-keypad',
  seat: 'board',
};
export const noted: Event = { event: 'noted', text: 'dog in the yard, 2.2 kΩ' };
export const ended: Event = { event: 'ended', ending: 'stopped', site: inService };

/** A clock that stands still. */
export const noon = (): Date => new Date('2026-03-04T12:00:00.000Z');
