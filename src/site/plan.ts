import type { Point, Site } from './site.ts';
import type { Act, ActKind, Ground, Standing, Target } from './act.ts';
import { isUnpowered, siteKey } from './state.ts';

/** The name under which a proof is kept. */
export function proofOf(act: Pick<Act, 'kind' | 'what' | 'and'>): string {
  return [act.kind, act.what, act.and].filter(Boolean).join(' ');
}

/**
 * The acts that lead from how the site stands to the target, in a safe order. Doing the first and planning again gives
 * the rest, so the list only ever gets shorter. Dead work is planned only behind power-off and proof. Common practice,
 * no source: plus first off and last on, otherwise power off; links out before power comes back.
 */
export function plan(standing: Standing, target: Target, ground: Ground): Act[] {
  const builder = new Builder(standing, ground);
  if (!standing.known) builder.act('confirm-site', standing.site);
  if (target.site.device === 'rest') builder.rest();
  const moves = builder.moves(target.site);
  const dead = target.dead === true || target.ohms !== undefined || moves.some((move) => move.dead);
  const off = dead || isUnpowered(target.site);
  if (off) builder.powerDown();
  if (dead) builder.proveDead();
  builder.rearrange(target.site);
  if (target.ohms) builder.provePair(target.ohms);
  builder.power(target.site);
  if (target.site.device === 'sending' && builder.site.device === 'rest') {
    builder.act('send', { ...builder.site, device: 'sending' });
  }
  if (builder.site.onTest && !target.site.onTest) builder.act('off-test', { ...builder.site, onTest: false });
  return builder.acts;
}

class Builder {
  readonly acts: Act[] = [];
  site: Site;
  private proved: readonly string[];

  constructor(
    standing: Standing,
    private readonly ground: Ground,
  ) {
    this.site = standing.site;
    this.proved = standing.known ? standing.proved : [];
  }

  act(kind: ActKind, site: Site, points: { what?: Point; and?: Point } = {}, dead = false): void {
    this.acts.push({ kind, site, dead, ...points });
    this.site = site;
  }

  rest(): void {
    if (this.site.device === 'sending') this.act('rest', { ...this.site, device: 'rest' });
  }

  powerDown(): void {
    this.rest();
    if (this.site.battery === 'connected') this.act('battery-lift', { ...this.site, battery: 'lifted' });
    if (this.site.mains === 'on') this.act('mains-off', { ...this.site, mains: 'off' });
    if (this.site.others === 'on') this.act('others-off', { ...this.site, others: 'off' });
  }

  /** Meter on a known source, on the terminals, and on the known source again; then the site counts as dead. */
  proveDead(): void {
    const [what, and] = this.ground.proveDeadAt;
    this.prove('prove-meter', {});
    this.prove('prove-dead-dc', { what, and });
    this.prove('prove-dead-ac', { what, and });
    this.prove('prove-meter-again', {});
  }

  provePair([what, and]: readonly [Point, Point]): void {
    this.prove('prove-meter', {});
    this.prove('prove-dead-dc', { what, and });
    this.prove('prove-dead-ac', { what, and });
  }

  private prove(kind: ActKind, points: { what?: Point; and?: Point }): void {
    const name = proofOf({ kind, ...points });
    if (this.proved.includes(name)) return;
    this.proved = [...this.proved, name];
    this.act(kind, this.site, points);
  }

  /** What has to be lifted, landed, linked and unlinked, and which of it is dead work. */
  moves(target: Site): { dead: boolean }[] {
    const lifts = [...without(target.lifted, this.site.lifted), ...without(this.site.lifted, target.lifted)];
    const links = [...unlike(target.joined, this.site.joined), ...unlike(this.site.joined, target.joined)];
    const meter = target.meterIn !== this.site.meterIn;
    return [
      ...lifts.map((end) => ({ dead: !this.ground.isPlus(end) })),
      ...links.map(() => ({ dead: true })),
      ...(meter ? [{ dead: true }] : []),
    ];
  }

  rearrange(target: Site): void {
    if (this.site.meterIn !== null && this.site.meterIn !== target.meterIn) {
      this.act('meter-out', { ...this.site, meterIn: null }, { what: this.site.meterIn }, true);
    }
    for (const pair of unlike(this.site.joined, target.joined)) {
      const joined = this.site.joined.filter((other) => other !== pair);
      this.act('unjoin', { ...this.site, joined }, { what: pair[0], and: pair[1] }, true);
    }
    const plusLast = (ends: Point[]): Point[] => this.ordered(ends, 1);
    for (const end of plusLast(without(this.site.lifted, target.lifted))) {
      const lifted = this.site.lifted.filter((other) => other !== end);
      this.act('land', { ...this.site, lifted }, { what: end }, !this.ground.isPlus(end));
    }
    for (const end of this.ordered(without(target.lifted, this.site.lifted), -1)) {
      this.act(
        'lift',
        { ...this.site, lifted: [...this.site.lifted, end] },
        { what: end },
        !this.ground.isPlus(end),
      );
    }
    for (const pair of unlike(target.joined, this.site.joined)) {
      this.act(
        'join',
        { ...this.site, joined: [...this.site.joined, pair] },
        { what: pair[0], and: pair[1] },
        true,
      );
    }
    if (target.meterIn !== null && target.meterIn !== this.site.meterIn) {
      this.act('meter-in', { ...this.site, meterIn: target.meterIn }, { what: target.meterIn }, true);
    }
  }

  power(target: Site): void {
    const site = this.site;
    const comes =
      (target.mains === 'on' && site.mains === 'off') ||
      (target.battery === 'connected' && site.battery === 'lifted');
    // In series it stands on amps, and its reading needs it there.
    const isFree = site.meterIn === null;
    if (comes && isFree && isUnpowered(site)) this.prove('meter-off-ohms', {});
    // What comes on comes first, so that a change of supplies never passes through a dead site.
    for (const coming of [true, false]) {
      if (target.others !== site.others && coming === (target.others === 'on')) {
        this.act(`others-${target.others}`, { ...this.site, others: target.others });
      }
      if (target.mains !== site.mains && coming === (target.mains === 'on')) {
        this.act(`mains-${target.mains}`, { ...this.site, mains: target.mains });
      }
      if (target.battery !== site.battery && coming === (target.battery === 'connected')) {
        const kind = target.battery === 'connected' ? 'battery-connect' : 'battery-lift';
        this.act(kind, { ...this.site, battery: target.battery });
      }
    }
  }

  /** Sign 1 puts plus last, -1 plus first. */
  private ordered(ends: Point[], sign: 1 | -1): Point[] {
    return [...ends].sort((a, b) => sign * (Number(this.ground.isPlus(a)) - Number(this.ground.isPlus(b))));
  }
}

type Pair = Site['joined'][number];

function without(ends: readonly Point[], gone: readonly Point[]): Point[] {
  return ends.filter((end) => !gone.includes(end));
}

function unlike(pairs: readonly Pair[], gone: readonly Pair[]): Pair[] {
  const name = (pair: Pair): string => [...pair].sort().join('~');
  const names = new Set(gone.map(name));
  return pairs.filter((pair) => !names.has(name(pair)));
}

/** How the site stands once an act is done: proofs fall when power returns, pair proofs when anything is moved. */
export function done(standing: Standing, act: Act): Standing {
  if (act.kind.startsWith('prove-') || act.kind === 'meter-off-ohms')
    return { ...standing, proved: [...standing.proved, proofOf(act)] };
  const proved = isUnpowered(act.site) ? standing.proved : [];
  const known = act.kind === 'confirm-site' ? true : standing.known;
  return { site: act.site, known, proved: act.kind === 'confirm-site' ? [] : proved };
}

/** Whether the site may be worked on dead: fed by nothing, and proved so since. */
export function isProvedDead({ site, known, proved }: Standing, ground: Ground): boolean {
  const [what, and] = ground.proveDeadAt;
  const needed: Pick<Act, 'kind' | 'what' | 'and'>[] = [
    { kind: 'prove-meter' },
    { kind: 'prove-dead-dc', what, and },
    { kind: 'prove-dead-ac', what, and },
    { kind: 'prove-meter-again' },
  ];
  return known && isUnpowered(site) && needed.every((proof) => proved.includes(proofOf(proof)));
}

/** True when the two states are the same to the circuit. */
export function sameSite(a: Site, b: Site): boolean {
  return siteKey(a) === siteKey(b);
}
