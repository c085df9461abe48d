import type { Input, Prompt } from '../../../src/dialogue/messages.ts';

/** A real place, as far as a session can tell: it knows what is wrong and answers whatever is asked. */
export interface SimulatedSite {
  readonly truth: {
    /** What is wrong, by id. */
    readonly faults: readonly string[];
    /** What mends it, by id; empty where nothing that is known does. */
    readonly repair: string;
    /** What else has to be mended, by id. */
    readonly also?: readonly string[];
  };
  /** Ohms of the run's two conductors were they good copper, as the netlist has them; where there is a run. */
  readonly runOhms?: number;
  answer(prompt: Prompt): Promise<Input>;
}
