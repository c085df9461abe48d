import type { Site, SiteNeed } from './site.ts';

/** Everything landed, fed and at rest: the only state in which a visit may end. */
export const inService: Site = {
  mains: 'on',
  battery: 'connected',
  others: 'on',
  lifted: [],
  joined: [],
  meterIn: null,
  device: 'rest',
  onTest: false,
};

/** The absolute state that a check needs, on a site that is in service but for the check's own demands. */
export function siteFor(need: SiteNeed, onTest: boolean): Site {
  return { ...inService, ...need, onTest };
}

/** True when nothing feeds the site, so that it can be proved dead. */
export function isUnpowered(site: Site): boolean {
  return site.mains === 'off' && site.battery === 'lifted' && site.others === 'off';
}

/** One string for one electrical state, whatever the order in which ends were lifted; the account being on test is not electrical. */
export function siteKey(site: Site): string {
  const joined = site.joined.map((pair) => [...pair].sort().join('~')).sort();
  return [
    `mains=${site.mains}`,
    `battery=${site.battery}`,
    `others=${site.others}`,
    `lifted=${[...site.lifted].sort().join(',')}`,
    `joined=${joined.join(',')}`,
    `meter=${site.meterIn ?? ''}`,
    `device=${site.device}`,
  ].join(' ');
}
