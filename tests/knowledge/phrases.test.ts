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
    'it drops out and comes back when a signal goes',
    'restarts when it reports an alarm',
    'the box goes off for a second each time it calls',
    'dips when it sends',
    'every test report makes it reboot',
    'loses power for a moment during a report',
  ],
  'not-enrolling': [
    'panel does not see the new module',
    'it says device not registered',
    'the app says unit not found',
    'panel wont take the communicator',
    'powered up but never activates',
    'the panel never finds the new communicator',
    'it has power but the service does not accept it',
    'cannot register the unit',
    'enrolment fails',
    'the unit is not recognised by the panel',
    'activation does not go through',
  ],
  'no-signals': [
    'alarms are not getting to the station',
    'central station receives nothing',
    'wrong account number shows up at the station',
    'test signal never arrives',
    'nothing reaches the station',
    'the station gets garbage',
    'alarm went off and the station got no event',
    'events show on the keypad but not at the station',
    'the station says they receive nonsense codes',
    'no reports at the monitoring centre',
  ],
  'path-down': [
    'wifi keeps dropping',
    'no cell signal',
    'ethernet light is off',
    'it lost the internet',
    'sim card not working',
    'cellular path is down',
    'no network connection on the unit',
    'wifi will not connect',
    'lan path failed',
    'the unit cannot get on the internet',
    'one of the two paths is missing',
  ],
  'bus-fault': [
    'keypad says bus failure',
    'all keypads are dead',
    'keypad shows no communication',
    'module missing trouble',
    'keypad freezes now and then',
    'keypad goes blank now and then',
    'module lost on the bus',
    'expander not responding',
    'keypad is stuck',
    'modules come and go',
    'the keypads lost communication',
  ],
  'low-aux': [
    'aux voltage low at the panel',
    'aux power trouble',
    'auxiliary output only reads 10 volts',
    'aux voltage is low at the panel',
    'aux output reads ten volts',
    'auxiliary power low on the board',
    'panel aux is sagging',
    'not enough voltage on aux',
  ],
  'battery': [
    'low battery trouble',
    'battery does not hold when power goes out',
    'panel says no battery',
    'battery keeps going bad',
    'low battery trouble',
    'battery missing',
    'the panel dies soon after a power cut',
    'standby does not last',
    'battery will not hold',
    'replaced the battery and it still says low',
  ],
  'mains-lost': [
    'ac trouble on the keypad',
    'panel says ac loss',
    'no ac power light',
    'transformer hums but no power',
    'ac failure on the panel',
    'no mains at the panel',
    'ac trouble light',
    'transformer gives nothing',
    'panel says ac loss',
    'mains light is off',
  ],
  'line-side': [
    'phone line trouble',
    'line cut message on keypad',
    'no dial tone at the panel',
    'house phones died after the install',
    'telephone line trouble',
    'the unit does not hear the panel dial',
    'no dial tone at the panel',
    'phone line cut message',
    'line fault on the dialler',
    'panel cannot dial through the unit',
  ],
  'zone': [
    'zone will not clear',
    'front door shows open all the time',
    'motion stays in fault',
    'cannot arm zone 3 open',
    'zone will not restore',
    'a loop stays open',
    'zone stuck open after the work',
    'window zone never closes',
    'zone shows trouble all day',
    'sensor loop will not clear',
  ],
  'sounder': [
    'siren does not sound',
    'bell trouble',
    'siren is very quiet',
    'horn circuit fault',
    'siren is weak',
    'bell circuit trouble',
    'no sound from the bell',
    'outside bell does not ring',
    'siren hardly makes a noise',
  ],
  'earth-fault': [
    'ground fault on the panel',
    'earth trouble',
    'earth fault light on',
    'earth fault shows',
    'panel reports a ground',
    'fault to earth somewhere',
    'ground trouble on the keypad',
  ],
  'low-supply': [
    'no lights on the communicator',
    'low input voltage at the radio',
    'unit has no power',
    'add-on box is dead',
    'no supply at the new unit',
    'low volts at the add-on',
    'the module gets too little voltage',
    'no power at the communicator',
    'voltage at the unit is low',
  ],
  strike: [
    'the door strike does not open',
    'electric strike buzzes and will not let go',
    'door lock release is weak',
    'the strike stays unlocked',
    'lock does not release from the panel',
    'pressing the button does not open the door',
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
