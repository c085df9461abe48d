import { describe, expect, it } from 'vitest';
import { finish } from '../../src/diagnosis/work.ts';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import type { Answer } from '../../src/session/events.ts';
import { fold } from '../../src/session/fold.ts';
import { Mind } from '../../src/session/mind.ts';
import { sums } from '../../src/wording/sums.ts';
import { knowledge as exact, quick } from '../session/player.ts';

const flow = quick.flows['low-supply'];
if (!flow) throw new Error('no flow');

/** The sums for one repair when these numbers were told. */
function sumsOf(told: Record<string, number>, repair: string, knowledge = quick): string[] {
  const state = fold(knowledge, flow ?? never(), []);
  const answers = Object.entries(told).map(([step, value], i) => {
    const answer: Answer = { kind: 'number', value, unit: '', said: String(value) };
    return { id: `p${i}`, step, value: answer, after: [], proof: false };
  });
  const mind = new Mind(knowledge, flow ?? never(), 1);
  return finish(sums(knowledge, flow ?? never(), finish(mind.think({ ...state, told: answers })), repair));
}

function never(): never {
  throw new Error('no flow');
}

describe('the sums of a run', () => {
  it('22 AWG, 120 ft each way at 0.18 A takes 0.7 V of 3.2 V; the other 2.5 V is 14 ohm', () => {
    const told = {
      'aux-volts': 13.4,
      'unit-volts': 10.2,
      'unit-current': 0.18,
      'run-length': 36.576,
      'run-size': awgToMm2(22),
    };
    const [first] = sumsOf(told, 'remake-minus');
    expect(first).toMatch(
      /^22 AWG, 120 ft each way, 0\.18 A: the copper takes 0\.7 V, give or take 0\.[12] V\. You lost 3\.2 V\. /,
    );
    expect(first).toMatch(/The other 2\.5 V at 0\.18 A is 14 ohm: a joint, not the cable\.$/);
  });

  it('take the amperes of a meter in series as they take those of a clamp', () => {
    const told = { 'aux-volts': 13.4, 'unit-volts': 10.2, 'unit-current-series': 0.18, 'run-length': 36.576 };
    const [first] = sumsOf({ ...told, 'run-size': awgToMm2(22) }, 'remake-minus');
    expect(first).toMatch(
      /each way, 0\.18 A: .* The other 2\.5 V at 0\.18 A is 14 ohm: a joint, not the cable\.$/,
    );
  });

  it('of a short: 3.2 ohm at the panel is at most 100 ft of 22 AWG, out and back', () => {
    // 22 AWG takes 16.14 ohm a thousand feet (NBS Handbook 100, table 6): 100 ft out and back take 3.2 ohm.
    const told = { 'pair-ohms': 3.23, 'run-length': 45.72, 'run-size': awgToMm2(22) };
    const [first] = sumsOf(told, 'clear-pair');
    expect(first).toMatch(/^100 ft of 22 AWG take 3\.2 ohm, out and back\. You read 3\.2 ohm: /);
    expect(first).toMatch(/the short is no farther than 100 ft from the panel\.$/);
  });

  it('of a short read from both ends: the contact drops out, 2.2 and 3.8 ohm put it 50 ft along 150 ft', () => {
    // 50 ft of loop 1.61 ohm and 100 ft 3.23 ohm, with 0.6 ohm of contact in both.
    const told = { 'pair-ohms': 2.21, 'pair-ohms-far': 3.83, 'run-length': 45.72, 'run-size': awgToMm2(22) };
    const [first] = sumsOf(told, 'clear-pair');
    expect(first).toMatch(/the short is (49|50|51) ft from the panel, give or take \d+ ft\.$/);
  });

  it('of a short say nothing of where while the cable has not been told', () => {
    const all = sumsOf({ 'pair-ohms': 2.21 }, 'clear-pair');
    expect(all.join(' ')).not.toMatch(/from here/);
    expect(all.length).toBeGreaterThan(0);
  });

  it('without a reading at the panel takes what the panel most likely gives, and says about', () => {
    const told = { 'unit-volts': 10.2, 'unit-current': 0.18, 'run-length': 36.576, 'run-size': awgToMm2(22) };
    const [first] = sumsOf(told, 'remake-minus');
    expect(first).toMatch(/^22 AWG, 120 ft each way/);
    expect(first).toMatch(/You lost about \d(\.\d+)? V\./);
  });

  it('with a current that nobody read takes what the unit most likely draws, and says about', () => {
    const told = { 'aux-volts': 13.4, 'unit-volts': 10.2, 'run-length': 36.576, 'run-size': awgToMm2(22) };
    const [first] = sumsOf(told, 'remake-minus', exact);
    expect(first).toMatch(/^22 AWG, 120 ft each way, about \d+(\.\d+)? m?A: the copper takes/);
    // What the unit draws is known to a factor of two only, so that copper-clad cable is not ruled out.
    expect(first).toMatch(
      /You lost 3\.2 V\. (The other .* at about .* ohm: a joint|A cable that is not all copper)/,
    );
  });

  it('blames no joint for what a cable that is not all copper could take', () => {
    const told = {
      'aux-volts': 13.4,
      'unit-volts': 9.3,
      'unit-current': 0.3,
      'run-length': 79.25,
      'run-size': awgToMm2(22),
    };
    const [first] = sumsOf(told, 'more-copper');
    expect(first).toMatch(/^22 AWG, 260 ft each way, 0\.3 A: the copper takes 2\.5 V/);
    expect(first).toMatch(/not all copper could take \d\.\d V\.$/);
  });

  it('says what was read with the digits of the meter: 13.35 V is not 13.3 V', () => {
    const words = sumsOf({ 'aux-volts': 13.35, 'unit-volts': 10.2 }, 'remake-minus').join(' ');
    expect(words).toContain('13.35 V');
  });

  it('the same loss over 500 ft is the cable alone, and nothing is blamed on a joint', () => {
    const told = {
      'aux-volts': 13.4,
      'unit-volts': 10.6,
      'unit-current': 0.18,
      'run-length': 152.4,
      'run-size': awgToMm2(22),
    };
    const [first] = sumsOf(told, 'more-copper');
    expect(first).toContain('The cable alone explains it.');
  });
});
