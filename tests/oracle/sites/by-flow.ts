import { busFault } from './bus-fault.ts';
import { earth } from './earth.ts';
import { lineSide } from './line-side.ts';
import { lowSupply, LowSupplySite, type Symptom } from './low-supply.ts';
import { faultsOf, type FaultId } from './panel-supply-ranges.ts';
import { PanelSupplySite } from './panel-supply.ts';
import { resetsOnTransmit } from './resets-on-transmit.ts';
import type { SimulatedSite } from './simulated-site.ts';
import { sounder } from './sounder.ts';
import { strike } from './strike.ts';
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

/** Wires of which a repair leaves something as it was: what was there `before` tells the mended site. */
type Lasting<Parameters> = Omit<Wired<Parameters>, 'draw'> & {
  draw(seed: number, fault: string | null, wide: boolean, before?: Parameters): Parameters;
};

const onLastingWires = <Parameters>(lasting: Lasting<Parameters>): SitesOfFlow => ({
  faults: Object.keys(lasting.faults),
  site: (options) => {
    let before: Parameters | undefined;
    const draw = (seed: number, fault: string | null, wide: boolean): Parameters => {
      const now = lasting.draw(seed, fault, wide, before);
      before ??= now;
      return now;
    };
    return new WiredSite({ ...lasting, draw }, options);
  },
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
  sounder: onLastingWires(sounder),
  'line-side': onLastingWires(lineSide),
  'bus-fault': onLastingWires(busFault),
  strike: onLastingWires(strike),
};
