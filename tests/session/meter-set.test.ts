import { describe, expect, it } from 'vitest';
import type { Message, Prompt } from '../../src/dialogue/messages.ts';
import { knowledge } from './player.ts';
import { phoneVisit } from './phone-visit.ts';

interface Heard {
  readonly prompt: Prompt;
  /** What was said to the caller since the answer before. */
  readonly told: string;
}

/** Everything that a caller hears whose site is asked all of these, one after the other. */
async function heardInOrder(order: string[], last = order.at(-1)): Promise<Heard[]> {
  const heard: Heard[] = [];
  await phoneVisit(['supply-fine'], (_, prompt, since) => void heard.push({ prompt, told: notices(since) }), {
    order,
    last,
  });
  return heard;
}

const notices = (messages: readonly Message[]): string =>
  messages.flatMap((each) => (each.type === 'notice' && each.spoken ? [each.text] : [])).join(' ');

/** The meter of somebody who does what is said of it and nothing else. */
class Meter {
  dial = '';
  jack = '';

  hear(text: string): void {
    for (const sentence of text.split(/(?<=[.?!])\s+/)) {
      const [, kind = '', unit] = /\b([AD]) C (volts|amps)\b/.exec(sentence) ?? [];
      if (/dial|set the meter back|for a battery/i.test(sentence) && unit)
        this.dial = `${kind.toLowerCase()}c-${unit}`;
      if (/dial to ohms/.test(sentence)) this.dial = 'ohms';
      const jack = /red lead (?:back )?(?:to|in) the (amps|volts) jack/.exec(sentence)?.[1];
      this.jack = jack ?? this.jack;
    }
  }
}

const order = [
  ...['aux-volts', 'unit-current', 'transformer-volts', 'unit-volts'],
  ...['unit-current-series', 'plus-copper-volts', 'pair-ohms', 'battery-volts'],
];

describe('the meter of a caller', () => {
  it('is set right at every reading, if nothing is done but what is said', async () => {
    const meter = new Meter();
    const read: string[] = [];
    for (const { prompt, told } of await heardInOrder(order)) {
      meter.hear(told);
      meter.hear(prompt.say);
      const check = knowledge.checks[prompt.step];
      if (!prompt.reading || (check?.kind === 'reading' && check.by === 'clamp')) continue;
      const { quantity } = prompt.reading;
      read.push(prompt.step);
      expect(meter, prompt.step).toMatchObject({
        dial: quantity,
        jack: quantity === 'dc-amps' ? 'amps' : 'volts',
      });
    }
    expect(read).toEqual(
      expect.arrayContaining(['aux-volts', 'unit-current-series', 'pair-ohms', 'prove-dead-ac']),
    );
  }, 120_000);

  it('has no lead moved for a clamp, and is put back on volts after it', async () => {
    const heard = await heardInOrder(['aux-volts', 'unit-current', 'unit-volts']);
    const at = heard.findIndex(({ prompt }) => prompt.step === 'unit-current');
    expect(heard[at]?.prompt.say).toMatch(/^Turn the clamp to D C amps\. Zero it with nothing in the jaws\./);
    expect(heard[at + 1]?.prompt).toMatchObject({ step: 'unit-volts' });
    for (const { prompt, told } of heard.slice(at, at + 2))
      expect(`${told} ${prompt.say}`).not.toContain('amps jack');
    expect(heard[at + 1]?.prompt.say).toContain('Turn the dial to D C volts.');
  }, 60_000);

  it('is told of the amps jack as it goes into the circuit, and of the volts jack only as it comes out', async () => {
    const heard = await heardInOrder(['unit-current-series'], 'meter-out');
    const at = heard.findIndex(({ prompt }) => prompt.step === 'unit-current-series');
    expect(heard.find(({ prompt }) => prompt.step === 'meter-in')?.prompt.say).toContain(
      'Move the red lead to the amps jack.',
    );
    expect(heard[at]?.prompt.say).not.toMatch(/dial|red lead to/);
    expect(heard[at + 1]?.told).not.toContain('jack');
    const out = heard.slice(at).find(({ prompt }) => prompt.step === 'meter-out');
    expect(out?.prompt.say).toContain('Put the red lead back in the volts jack.');
  }, 60_000);

  it('is tried on a battery once, and never again once it has been proved', async () => {
    const live = await heardInOrder(['aux-volts', 'transformer-volts', 'unit-volts']);
    expect(live.filter(({ prompt }) => prompt.say.includes('Try it on a battery'))).toHaveLength(1);
    const dead = await heardInOrder(['pair-ohms']);
    const proved = dead.findIndex(({ prompt }) => prompt.step === 'prove-meter');
    expect(dead[proved]?.prompt.say).toMatch(/^Black lead in the common jack, red lead in the volts jack\./);
    expect(dead[proved + 1]?.prompt.say).toMatch(/^Read D C volts/);
    for (const { prompt } of dead) expect(prompt.say).not.toContain('Try it on a battery');
  }, 60_000);

  it('is turned back from AC before it is proved again', async () => {
    const heard = await heardInOrder(['pair-ohms']);
    const at = heard.findIndex(({ prompt }) => prompt.step === 'prove-meter-again');
    expect(heard[at - 1]?.prompt.reading?.quantity).toBe('ac-volts');
    expect(heard[at]?.prompt.say).toMatch(/^Set the meter back .*D C volts\. Then prove it again/);
    expect(heard[at]?.prompt.ask).toMatch(/^Set the meter back .*DC volts/);
  }, 60_000);
});
