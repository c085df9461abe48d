import type { Copper, Figures } from './figures.ts';

/** What a campaign should come to. */
export interface Target {
  readonly what: string;
  readonly wanted: string;
  readonly met: boolean;
}

export interface Sites {
  readonly flow: string;
  readonly wide?: boolean;
  readonly hostile?: string;
}

/**
 * What is asked of sites of this sort: most of fair ones, less of hostile ones, nothing of wide ones. Of a flow by itself
 * the right repair is asked; all that a campaign can tell is asked of low supply.
 */
export function targets(figures: Figures, { flow, wide = false, hostile }: Sites): Target[] {
  if (hostile === 'off-the-list')
    return [target('closed right or referred', figures.closed.well >= 0.9, 'at least 90 %')];
  if (hostile !== undefined)
    return [target('wrong and confident', figures.wrongAndConfident <= 0.02, 'at most 2 %')];
  if (wide) return [];
  if (flow !== 'low-supply')
    return [target('right repair', figures.firstVerdict.rightRepair >= 0.95, 'at least 95 %')];
  return fair(figures);
}

function fair({ firstVerdict, wrongAndConfident, closed, calibration, copper }: Figures): Target[] {
  const inside = calibration.every(({ stated, interval: [low, high] }) => stated >= low && stated <= high);
  return [
    target('right repair', firstVerdict.rightRepair >= 0.97, 'at least 97 %'),
    target('wrong and confident', wrongAndConfident <= 0.01, 'at most 1 %'),
    target('readings', closed.readings <= 5, 'at most 5'),
    target('calibration', inside, 'what is stated lies inside the interval of every band'),
    // A wrong resistivity hides from every repair that is told by reading: here it shows.
    ...(copper.n > 0 ? [target('copper of the sums', isNearOne(copper), copperWanted)] : []),
  ];
}

const copperWanted = 'its interval comes within a tenth of the wire table';

function isNearOne({ interval: [low, high] }: Copper): boolean {
  return low <= 1.1 && high >= 0.9;
}

function target(what: string, met: boolean, wanted: string): Target {
  return { what, wanted, met };
}
