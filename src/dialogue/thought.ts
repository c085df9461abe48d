import type { Belief, Evidence } from '../diagnosis/model.ts';
import type { FlowModel } from '../models/circuit.ts';

/** What is believed, over which model, and the evidence with the check that each piece answers. */
export interface Thought {
  readonly model: FlowModel;
  readonly belief: Belief;
  readonly evidence: readonly Evidence[];
  /** Check ids, beside evidence. */
  readonly steps: readonly string[];
  /** Facts told, by check id: a number in its base unit, or the index of the choice. */
  readonly facts: ReadonlyMap<string, number>;
}
