import * as z from 'zod';
import { Check } from './check.ts';
import { Circuit } from './circuit.ts';
import { Fault, Repair } from './fault.ts';
import { BriefItem, Costs, Flow, Meter, Place, Setup, Terminal } from './flow.ts';
import { Transition } from './transition.ts';
import { Caution, Id, Source } from './words.ts';

/** Everything that flows/ and knowledge/ say, by kind and id. */
export const Knowledge = z.strictObject({
  sources: z.record(Id, Source),
  cautions: z.record(Id, Caution),
  places: z.record(Id, Place),
  terminals: z.record(z.string(), Terminal),
  meters: z.record(Id, Meter),
  costs: Costs,
  brief: z.record(Id, BriefItem),
  setups: z.record(z.string(), Setup),
  circuits: z.record(Id, Circuit),
  faults: z.record(Id, Fault),
  repairs: z.record(Id, Repair),
  checks: z.record(Id, Check),
  transitions: z.record(z.string(), Transition),
  flows: z.record(Id, Flow),
  /** Groups of words that people use for one thing, for the search. */
  synonyms: z.array(z.array(z.string()).min(2)),
});
export type Knowledge = z.infer<typeof Knowledge>;
