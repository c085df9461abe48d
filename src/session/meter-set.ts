import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { SetupId } from '../knowledge/schema/words.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import type { Act } from '../site/act.ts';
import type { Visit } from './visit.ts';

/** How the meter stands, as far as it has been said aloud in this call; null where nobody can know. */
export interface MeterSet {
  readonly as: SetupId | null;
  /** It has been proved, or its trial has been asked for. */
  readonly tried: boolean;
}

export const unsaid: MeterSet = { as: null, tried: false };

/** How a meter is set for a check; undefined where it needs none. */
export function setupOf({ checks }: Knowledge, step: string): SetupId | undefined {
  const check = checks[step];
  if (check?.kind !== 'reading') return undefined;
  return check.by === 'clamp' ? 'clamp' : check.quantity;
}

/** What is said of the meter before a reading or an act, and how it stands then. Nothing where it stands so already. */
export function setMeter(visit: Visit, setup: SetupId | undefined, act?: Act): string {
  const { knowledge, meter } = visit;
  const words = knowledge.setups[setup ?? ''];
  const proves = act?.kind === 'prove-meter';
  const trial = words?.try !== undefined && !meter.tried && !proves ? words.try : undefined;
  const said = words && meter.as !== setup ? [words.say, ...(trial === undefined ? [] : [trial])] : [];
  const turns = act !== undefined && (knowledge.transitions[act.kind]?.turnsMeter ?? false);
  visit.meter = {
    as: turns ? null : (setup ?? meter.as),
    tried: meter.tried || proves || (trial !== undefined && said.length > 0),
  };
  return said.join(' ');
}

/** What has to be put back on the meter once a reading is taken; null where nothing has, or where the act that ends it says so. */
export function putBack(visit: Visit, step: string, quantity: QuantityKind | null): string | null {
  const { knowledge, site } = visit;
  const after = knowledge.setups[setupOf(knowledge, step) ?? quantity ?? '']?.after;
  if (!after || site.meterIn !== null) return null;
  visit.meter = { ...visit.meter, as: after.leaves };
  return after.say;
}
