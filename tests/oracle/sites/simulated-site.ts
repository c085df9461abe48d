import type { Input, Prompt } from '../../../src/dialogue/messages.ts';

/** A real place, as far as a session can tell: it knows what is wrong and answers whatever is asked. */
export interface SimulatedSite {
  readonly truth: {
    /** What is wrong, by id. */
    readonly faults: readonly string[];
    /** What mends it, by id. */
    readonly repair: string;
  };
  answer(prompt: Prompt): Promise<Input>;
}
