import { earth } from './earth.ts';
import { lowSupply, LowSupplySite, type Symptom } from './low-supply.ts';
import { faultsOf, type FaultId } from './panel-supply-ranges.ts';
import { PanelSupplySite } from './panel-supply.ts';
import { resetsOnTransmit } from './resets-on-transmit.ts';
import type { SimulatedSite } from './simulated-site.ts';
import { WiredSite, type Wired } from './wired-site.ts';
import { zone } from './zone.ts';

export interface SiteOptions {
  seed: number;
  wide: boolean;
  /** Left out: as often as it is met. */
  fault: string | undefined;
}

/** The simulated sites of one flow that has a circuit. */
interface SitesOfFlow {
  readonly faults: readonly string[];
  site(options: SiteOptions): SimulatedSite;
}

const onRun = (symptom: Symptom): SitesOfFlow => ({
  faults: Object.keys(symptom.faults),
  site: (options) => new LowSupplySite({ ...options, symptom }),
});

const atPanel = (among: readonly FaultId[]): SitesOfFlow => ({
  faults: among,
  site: ({ fault, ...options }) =>
    new PanelSupplySite({ ...options, among, fault: among.find((id) => id === fault) }),
});

const onWires = <Parameters>(wired: Wired<Parameters>): SitesOfFlow => ({
  faults: Object.keys(wired.faults),
  site: (options) => new WiredSite(wired, options),
});

/** By flow. */
export const sitesByFlow: Readonly<Record<string, SitesOfFlow>> = {
  'low-supply': onRun(lowSupply),
  'resets-on-transmit': onRun(resetsOnTransmit),
  'low-aux': atPanel(faultsOf['low-aux']),
  battery: atPanel(faultsOf.battery),
  'mains-lost': atPanel(faultsOf['mains-lost']),
  zone: onWires(zone),
  'earth-fault': onWires(earth),
};
