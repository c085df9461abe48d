import { expect, test } from 'vitest';
import { asFound } from './read-site.ts';
import { LowSupplySite } from './sites/low-supply.ts';
import { resetsOnTransmit } from './sites/resets-on-transmit.ts';
import { typedAs } from './sites/typed-as.ts';

test('the level is typed as a unit shows it, and is mostly weak or none behind a loose plug', async () => {
  const seen: Record<string, number> = {};
  for (let seed = 1; seed <= 60; seed++) {
    const site = new LowSupplySite({ seed, symptom: resetsOnTransmit, fault: 'antenna-plug-loose' });
    const said = await site.answer({
      ...({ type: 'prompt', id: 'p1', purpose: 'check', kind: 'entry', step: 'sending-level' } as const),
      ...{ ask: '', say: '', listen: '', caution: null, site: asFound },
    });
    const text = 'answer' in said ? said.answer : '';
    seen[text] = (seen[text] ?? 0) + 1;
  }
  const levels = ['unknown', 'none', 'weak', 'fair', 'good'].map((id) => typedAs('level', id));
  expect(levels).toEqual(expect.arrayContaining(Object.keys(seen)));
  const low = (seen[typedAs('level', 'weak')] ?? 0) + (seen[typedAs('level', 'none')] ?? 0);
  expect(low).toBeGreaterThan(25);
});
