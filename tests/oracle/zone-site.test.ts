import { expect, test } from 'vitest';
import { asFound, dead, read, siteOf } from './read-site.ts';
import { drawParameters } from './sites/zone-ranges.ts';
import { zone } from './sites/zone.ts';

const input = ['panel.zone-hot', 'panel.zone-return'] as const;

test('a zone input shows volts while the panel is fed, and none once mains and battery are off', async () => {
  const site = siteOf(zone, drawParameters(1, null, false));
  expect(await read(site, asFound, input)).toBeGreaterThan(1);
  expect(await read(site, { ...dead, battery: 'connected' }, input)).toBeGreaterThan(1);
  expect(Math.abs(await read(site, dead, input))).toBeLessThan(0.1);
  expect(Math.abs(await read(site, { ...dead, lifted: ['zone.hot@sensor'] }, input))).toBeLessThan(0.1);
});
