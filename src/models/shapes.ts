import { uniform } from '../diagnosis/draws.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Fault } from '../knowledge/schema/fault.ts';
import {
  changesOf,
  distribution,
  formOf,
  formsOf,
  type Distribution,
  type Drawn,
  type Telling,
} from './parameters.ts';
import type { Draw } from './wired-element.ts';

/** A site as it could be, before its parameters are drawn. */
export interface Drawing {
  /** Indexes of its faults, with those of them that are healed. */
  readonly faults: readonly number[];
  readonly healed: readonly number[];
  /** Whether what is wrong and not healed is not there at the moment. */
  readonly away: boolean;
  /** A number in (0, 1) for each parameter, then one for the form of each fault. */
  readonly numbers: Float64Array;
}

/** How every parameter of a circuit is spread, whatever is wrong with it, weighed by what was told of it. */
export class Shapes {
  private readonly ids: readonly string[];
  private readonly spreads = new Map<string, Distribution>();
  /** One for each set of faults in each of their forms, healed or away. */
  private readonly shapes = new Map<string, Shape>();

  constructor(
    private readonly circuit: Circuit,
    private readonly faults: readonly Fault[],
    private readonly tellings: ReadonlyMap<string, Telling>,
    /** Parameters that a repair makes new, so that what was told of them is true no more. */
    private readonly renewedBy: (repair: string) => readonly string[],
  ) {
    this.ids = Object.keys(circuit.parameters);
  }

  /** The parameters of one draw, those of healed faults as on a good site. */
  parameters(drawing: Drawing): Draw {
    const { numbers } = drawing;
    return this.shape(drawing).map(({ spread, isNew }, i) => {
      const number = numbers[i] ?? 0;
      return spread.at(isNew ? anew(number, i) : number);
    });
  }

  /** How likely the facts told are under a fault, on the average of its forms. */
  marginal(fault: Fault): number {
    const forms = formsOf(fault);
    const all = forms.reduce((sum, { weight }) => sum + weight, 0);
    return forms.reduce((sum, { weight }, form) => {
      const every: Changes = changesOf(fault, form);
      const told = [...this.tellings.keys()].reduce((p, id) => p * this.spread(id, every[id]).marginal, 1);
      return sum + (weight / all) * told;
    }, 0);
  }

  private shape({ faults, healed, away, numbers }: Drawing): Shape {
    const forms = faults.map((f, k) => {
      const fault = this.faults[f];
      return fault ? formOf(fault, numbers[this.ids.length + k] ?? 0) : 0;
    });
    const key = `${faults.join()}|${forms.join()}|${healed.join()}|${away}`;
    const known = this.shapes.get(key);
    if (known) return known;
    const made = this.shapeOf(faults, forms, healed, away);
    this.shapes.set(key, made);
    return made;
  }

  private shapeOf(
    faults: readonly number[],
    forms: readonly number[],
    healed: readonly number[],
    away: boolean,
  ): Shape {
    const changes: Changes = {};
    const mended = new Set<string>();
    const replaced = new Set<string>();
    faults.forEach((f, k) => {
      const fault = this.faults[f];
      if (!fault) return;
      const made = changesOf(fault, forms[k] ?? 0);
      const isMended = healed.includes(f);
      if (!isMended && !away) {
        Object.assign(changes, made);
        return;
      }
      for (const id of Object.keys(made)) mended.add(id);
      if (!isMended) return;
      for (const id of this.renewedBy(fault.repair)) replaced.add(id);
    });
    return this.ids.map((id) => ({
      spread: this.spread(id, changes[id], !replaced.has(id)),
      isNew: mended.has(id) || replaced.has(id),
    }));
  }

  /** How a parameter is spread; weighed by what was told of it, unless what it was told of is there no more. */
  private spread(id: string, change: Changes[string], told = true): Distribution {
    const key = JSON.stringify([id, change, told]);
    const found = this.spreads.get(key);
    if (found) return found;
    const spread = change ?? this.circuit.parameters[id];
    const telling = told ? this.tellings.get(id) : undefined;
    const made = distribution(spread as Parameters<typeof distribution>[0], telling);
    this.spreads.set(key, made);
    return made;
  }
}

type Changes = Record<string, Drawn | object | undefined>;

/** Each parameter's spread, and whether it is drawn anew. */
type Shape = readonly { readonly spread: Distribution; readonly isNew: boolean }[];

/**
 * Another number in (0, 1) for the same draw: what is mended is new, and what was learned of it while it was broken says
 * nothing of it any more.
 */
function anew(number: number, parameter: number): number {
  return uniform(Math.floor(number * 2 ** 32), parameter);
}
