import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import { Chance } from './chance.ts';
import type { SimulatedSite } from './simulated-site.ts';

/** One check in five is not taken, and no fact is known. */
export function reluctant(site: SimulatedSite, seed: number): SimulatedSite {
  return {
    truth: site.truth,
    answer(prompt) {
      const refuses = new Chance(seed, 'refuses', prompt.step).happens(0.2);
      if (prompt.purpose === 'check' && refuses) return Promise.resolve({ do: 'cannot' });
      if (prompt.purpose === 'fact') return Promise.resolve({ answer: "don't know" });
      return site.answer(prompt);
    },
  };
}

type Mishap = 'thousand' | 'swapped' | 'mistyped';

/** So many of the first readings can be the one that goes wrong. */
const early = 3;

/**
 * A meter that is 1 % and three counts out, always to the same side, and one reading of the first few gone wrong: read
 * on the wrong range, with the probes swapped, or with two figures changed over. Asked again, it is read rightly.
 */
export function clumsy(site: SimulatedSite, seed: number): SimulatedSite {
  const chance = new Chance(seed, 'mishap');
  const mishap = chance.pick<Mishap>({ thousand: 1, swapped: 1, mistyped: 1 });
  const which = Math.floor(chance.between(0, early));
  const side = chance.happens(0.5) ? 1 : -1;
  let read = 0;
  let gone = '';
  return {
    truth: site.truth,
    async answer(prompt) {
      if (prompt.purpose === 'challenge' && gone === prompt.step) {
        gone = '';
        return again(prompt, site, side);
      }
      const input = await site.answer(prompt);
      if (!('answer' in input) || !prompt.reading || prompt.purpose !== 'check') return input;
      const shown = shifted(input.answer, side);
      if (read++ !== which) return { answer: shown };
      gone = prompt.step;
      return { answer: spoilt(shown, mishap, prompt) };
    },
  };
}

/** A slip is owned up to; a reading that nothing explains is taken once more. */
async function again(prompt: Prompt, site: SimulatedSite, side: number): Promise<Input> {
  const slip = prompt.choices?.find(({ id }) => id === 'slip');
  if (slip) return { answer: slip.id };
  const input = await site.answer({ ...prompt, purpose: 'check', choices: undefined });
  return 'answer' in input ? { answer: shifted(input.answer, side) } : input;
}

const number = /^(-?\d+(?:\.\d+)?) (V|A|ohm)$/;

function shifted(answer: string, side: number): string {
  const [, digits = '', unit = ''] = number.exec(answer) ?? [];
  if (digits === '') return answer;
  const places = unit === 'ohm' ? 1 : 2;
  return `${(Number(digits) * (1 + side * 0.01) + side * 3 * 10 ** -places).toFixed(places)} ${unit}`;
}

function spoilt(answer: string, mishap: Mishap, { reading }: Prompt): string {
  const [, digits = '', unit = ''] = number.exec(answer) ?? [];
  if (digits === '') return answer;
  if (mishap === 'thousand') return `${digits} m${unit}`;
  if (mishap === 'swapped') return reading?.quantity === 'dc-volts' ? `${-Number(digits)} ${unit}` : answer;
  return `${changedOver(digits)} ${unit}`;
}

/** The first two figures that differ, changed over: 12.4 is typed as 21.4. */
function changedOver(digits: string): string {
  const at = [...digits].findIndex((figure, i) => {
    const next = digits[i + 1] ?? '.';
    return /\d/.test(figure) && /\d/.test(next) && figure !== next;
  });
  if (at < 0) return digits;
  return digits.slice(0, at) + (digits[at + 1] ?? '') + (digits[at] ?? '') + digits.slice(at + 2);
}
