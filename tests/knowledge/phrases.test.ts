import { describe, expect, it } from 'vitest';
import { findFlows } from '../../src/knowledge/find.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';

const knowledge = loadKnowledge('.');

/** What people say, by the symptom they mean; written from the symptoms alone. */
const said: Readonly<Record<string, readonly string[]>> = {
  'resets-on-transmit': [
    'it reboots every time it sends a signal',
    'unit resets when it transmits',
    'communicator restarts only while sending',
  ],
  'not-enrolling': [
    'panel does not see the new module',
    'it says device not registered',
    'the app says unit not found',
    'panel wont take the communicator',
    'powered up but never activates',
  ],
  'no-signals': [
    'alarms are not getting to the station',
    'central station receives nothing',
    'wrong account number shows up at the station',
    'test signal never arrives',
  ],
  'path-down': [
    'wifi keeps dropping',
    'no cell signal',
    'ethernet light is off',
    'it lost the internet',
    'sim card not working',
  ],
  'bus-fault': [
    'keypad says bus failure',
    'all keypads are dead',
    'keypad shows no communication',
    'module missing trouble',
    'keypad freezes now and then',
  ],
  'low-aux': [
    'aux voltage low at the panel',
    'aux power trouble',
    'auxiliary output only reads 10 volts',
  ],
  'battery': [
    'low battery trouble',
    'battery does not hold when power goes out',
    'panel says no battery',
    'battery keeps going bad',
  ],
  'mains-lost': [
    'ac trouble on the keypad',
    'panel says ac loss',
    'no ac power light',
    'transformer hums but no power',
  ],
  'line-side': [
    'phone line trouble',
    'line cut message on keypad',
    'no dial tone at the panel',
    'house phones died after the install',
  ],
  'zone': [
    'zone will not clear',
    'front door shows open all the time',
    'motion stays in fault',
    'cannot arm zone 3 open',
  ],
  'sounder': [
    'siren does not sound',
    'bell trouble',
    'siren is very quiet',
    'horn circuit fault',
  ],
  'earth-fault': [
    'ground fault on the panel',
    'earth trouble',
    'earth fault light on',
  ],
  'low-supply': [
    'no lights on the communicator',
    'low input voltage at the radio',
    'unit has no power',
    'add-on box is dead',
  ],
};

const ranks = Object.entries(said).flatMap(([flow, phrases]) =>
  phrases.map((phrase) => ({ phrase, rank: findFlows(knowledge, phrase).findIndex((found) => found.flow.id === flow) })),
);

describe('what people say', () => {
  it('is said of every symptom there is', () => {
    expect(Object.keys(said).sort()).toEqual(Object.keys(knowledge.flows).sort());
  });

  it('finds the symptom meant first in nine of ten, and among the first three in all but one of fifty', () => {
    const share = (within: number): number =>
      ranks.filter(({ rank }) => rank >= 0 && rank < within).length / ranks.length;
    const missed = ranks.filter(({ rank }) => rank !== 0).map(({ phrase, rank }) => `${phrase}: ${rank}`);
    expect(share(1), missed.join('\n')).toBeGreaterThanOrEqual(0.9);
    expect(share(3), missed.join('\n')).toBeGreaterThanOrEqual(0.98);
  });
});
