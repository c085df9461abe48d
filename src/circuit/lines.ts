import type { Ports } from './branches.ts';
import * as is from './elements.ts';

/** Amperes by which the line of a diode may miss its curve, and as a share: what leaks through one may be all that a floating node gets. */
const leastMiss = 1e-16;
const closeness = 4e-12;
/** What rounding of volts makes of the amperes of a load that holds its cut-off. */
const enough = 2e-11;

/** Lines to start from: supplies regulating, diodes at their knee, loads off. */
export function startLines(ports: Ports, x: Float64Array): void {
  ports.g.fill(0);
  ports.c.fill(0);
  for (let p = ports.supplies; p < ports.diodes; p++)
    setSupply(ports, x, p, is.supplyTopPiece(x, ports.offset[p] ?? 0));
  for (let p = ports.diodes; p < ports.count; p++)
    setDiode(ports, x, p, is.diodeKnee(x, ports.offset[p] ?? 0));
}

/**
 * Gives every port whose line misses its characteristic at the present volts a better line. A load is left alone
 * unless it is collapsing: its line is the caller's.
 * @param bounded whether to hold a line back from leaping to the far side of its characteristic
 * @returns true when no line had to change, so that the volts solve the true circuit
 */
export function followLines(
  ports: Ports,
  x: Float64Array,
  collapsing: Uint8Array,
  bounded: boolean,
): boolean {
  let settled = true;
  for (let p = 0; p < ports.supplies; p++)
    if (collapsing[p] === 1 && !followCollapse(ports, x, p, bounded)) settled = false;
  if (!followSupplies(ports, x, bounded)) settled = false;
  for (let p = ports.diodes; p < ports.count; p++) if (!followDiode(ports, x, p, bounded)) settled = false;
  return settled;
}

/** True slope of every port at the present volts, loads that draw `on` with their negative one. */
export function slopeLines(ports: Ports, x: Float64Array, on: (port: number) => boolean): void {
  for (let p = 0; p < ports.count; p++) {
    const o = ports.offset[p] ?? 0;
    const v = ports.volts[p] ?? 0;
    if (p >= ports.diodes) setDiode(ports, x, p, v);
    else if (p >= ports.supplies) setSupply(ports, x, p, is.supplyPieceAt(x, o, v));
    else setLoad(ports, p, on(p) ? is.loadWatts(x, o) : 0, v, true);
  }
}

/** A load of constant watts: its tangent at v volts, or (not `tangent`) the amperes it draws there, whatever the volts. */
export function setLoad(ports: Ports, p: number, watts: number, v: number, tangent: boolean): void {
  const amps = watts === 0 ? 0 : watts / v;
  ports.g[p] = tangent && watts !== 0 ? -amps / v : 0;
  ports.c[p] = tangent ? 2 * amps : amps;
}

/** Starts a load off on its collapse, holding its cut-off volts. */
export function setCollapsing(ports: Ports, x: Float64Array, p: number): void {
  setCollapse(ports, x, p, 1);
}

function lineAmps(ports: Ports, p: number): number {
  return (ports.g[p] ?? 0) * (ports.volts[p] ?? 0) + (ports.c[p] ?? 0);
}

/**
 * Bounded, only one supply that has left its piece moves on: two across one battery would chase each other through absurd
 * volts. One that is pushed off goes first, for it may be all that overloads the other.
 */
function followSupplies(ports: Ports, x: Float64Array, bounded: boolean): boolean {
  let mover: number | undefined;
  let pushedOff = false;
  for (let p = ports.supplies; p < ports.diodes; p++) {
    const piece = is.supplyPieceAt(x, ports.offset[p] ?? 0, ports.volts[p] ?? 0);
    if (piece === (ports.piece[p] ?? 0)) continue;
    const off = piece === is.supplyPiece.off;
    if (!bounded) setSupply(ports, x, p, piece);
    if (mover === undefined || (off && !pushedOff)) {
      mover = p;
      pushedOff = off;
    }
  }
  if (bounded && mover !== undefined) moveOn(ports, x, mover);
  return mover === undefined;
}

/**
 * Off only from the piece next to it: a supply stuck on another one has been left without its load, not overdriven. On
 * again only by it, too: the low volts at which it comes on are those of a circuit without it.
 */
function moveOn(ports: Ports, x: Float64Array, p: number): void {
  const o = ports.offset[p] ?? 0;
  const { off } = is.supplyPiece;
  const piece = is.supplyPieceAt(x, o, ports.volts[p] ?? 0);
  const now = ports.piece[p] ?? 0;
  const top = is.supplyTopPiece(x, o);
  const byTop = now === off || (piece === off && now !== top);
  setSupply(ports, x, p, byTop ? top : piece);
}

function setSupply(ports: Ports, x: Float64Array, p: number, piece: number): void {
  const o = ports.offset[p] ?? 0;
  ports.piece[p] = piece;
  ports.g[p] = is.supplySlope(x, o, piece);
  ports.c[p] = -is.supplyShortAmps(x, o, piece);
}

function followDiode(ports: Ports, x: Float64Array, p: number, bounded: boolean): boolean {
  const o = ports.offset[p] ?? 0;
  const v = ports.volts[p] ?? 0;
  const amps = is.diodeAmps(x, o, v);
  const miss = amps - lineAmps(ports, p);
  if (Math.abs(miss) <= leastMiss + closeness * Math.abs(amps)) return true;
  setDiode(ports, x, p, bounded ? is.diodeLimited(x, o, ports.touch[p] ?? 0, v) : v);
  return false;
}

function setDiode(ports: Ports, x: Float64Array, p: number, v: number): void {
  const o = ports.offset[p] ?? 0;
  const slope = is.diodeSlope(x, o, v);
  ports.touch[p] = v;
  ports.g[p] = slope;
  ports.c[p] = is.diodeAmps(x, o, v) - slope * v;
}

function followCollapse(ports: Ports, x: Float64Array, p: number, bounded: boolean): boolean {
  const o = ports.offset[p] ?? 0;
  const v = ports.volts[p] ?? 0;
  // One piece at a time: the ramp between the two flat ones is so steep that a jump across it would come straight back.
  const current = ports.piece[p] ?? 0;
  const amps = is.collapseAmps(x, o, v);
  const wanted = amps <= 0 ? 0 : amps < is.loadWatts(x, o) / is.loadCutoff(x, o) ? 1 : 2;
  if (wanted === current || Math.abs(amps - lineAmps(ports, p)) <= enough) return true;
  setCollapse(ports, x, p, bounded ? current + Math.sign(wanted - current) : wanted);
  return false;
}

/** Pieces of a collapse by rising volts: 0 nothing, 1 holding the cut-off volts, 2 the whole draw. */
function setCollapse(ports: Ports, x: Float64Array, p: number, piece: number): void {
  const o = ports.offset[p] ?? 0;
  const cutoff = is.loadCutoff(x, o);
  ports.piece[p] = piece;
  ports.g[p] = piece === 1 ? is.collapseSlope : 0;
  ports.c[p] = piece === 1 ? -is.collapseSlope * cutoff : piece === 2 ? is.loadWatts(x, o) / cutoff : 0;
}
