import * as z from 'zod';
import { Id, Words } from './words.ts';

/**
 * One kind of act that changes the site, with its words. `{what}`, `{and}` and `{where}` in the words stand for
 * the conductor end, the second point of a link, and the terminal, in the label map's words.
 */
export const Transition = z.strictObject({
  act: z.enum([
    'mains-off',
    'mains-on',
    'battery-lift',
    'battery-connect',
    'others-off',
    'others-on',
    'lift',
    'land',
    'join',
    'unjoin',
    'meter-in',
    'meter-out',
    'send',
    'rest',
    'on-test',
    'off-test',
    'prove-meter',
    'prove-dead-dc',
    'prove-dead-ac',
    'meter-off-ohms',
    'confirm-site',
    'prove-meter-again',
  ]),
  ...Words,
  minutes: z.number().nonnegative(),
  cautions: z.array(Id).default([]),
});
export type Transition = z.infer<typeof Transition>;
