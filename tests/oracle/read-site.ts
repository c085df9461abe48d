import type { Prompt } from '../../src/dialogue/messages.ts';
import type { Point, Site } from '../../src/site/site.ts';
import type { SimulatedSite } from './sites/simulated-site.ts';
import { WiredSite, type Wired } from './sites/wired-site.ts';

export const asFound: Site = {
  ...({ mains: 'on', battery: 'connected', others: 'on', device: 'rest' } as const),
  ...{ lifted: [], joined: [], meterIn: null, onTest: true },
};
export const sending: Site = { ...asFound, device: 'sending' };
export const dead: Site = { ...asFound, mains: 'off', battery: 'lifted', others: 'off' };

/** A site with just these parameters, whatever its number would give it. */
export function siteOf<Parameters>(wired: Wired<Parameters>, parameters: Parameters): SimulatedSite {
  return new WiredSite({ ...wired, draw: () => parameters }, { seed: 1 });
}

type Quantity = NonNullable<Prompt['reading']>['quantity'];

/** What the technician there types for a reading: V or ohm, over-range as Infinity. */
export async function read(
  site: SimulatedSite,
  state: Site,
  [red, black]: readonly [Point, Point],
  quantity: Quantity = 'dc-volts',
): Promise<number> {
  const said = await site.answer({
    ...({ type: 'prompt', id: 'p1', purpose: 'proof', kind: 'reading', step: `${red} ${black}` } as const),
    ...{ ask: '', say: '', listen: '', caution: null, site: state },
    reading: { quantity, red, black, take: 'steady', unit: quantity === 'ohms' ? 'ohm' : 'V' },
  });
  if (!('answer' in said)) throw new Error('the site could not read it');
  return said.answer === 'OL' ? Infinity : parseFloat(said.answer);
}

/** What is seen or told there. */
export async function ask(site: SimulatedSite, step: string): Promise<string> {
  const said = await site.answer({
    ...({ type: 'prompt', id: 'p1', purpose: 'check', kind: 'choice', step } as const),
    ...{ ask: '', say: '', listen: '', caution: null, site: asFound },
  });
  return 'answer' in said ? said.answer : '';
}
