import * as z from 'zod';
import { addressClasses, classifyAddress } from './address.ts';
import type { Classified } from './classified.ts';
import { classifyIdPair, idPairClasses } from './id-pair.ts';
import { classifyLevel } from './level.ts';
import { levelClasses } from './level-bands.ts';
import { classifyMessage, messageClasses } from './message.ts';
import { classifyUnitId, unitIdClasses } from './unit-id.ts';

/** What typed text can be classified as. A closed set; YAML picks by name. */
export const Classifier = z.enum(['address', 'unit-id', 'id-pair', 'level', 'message']);
export type Classifier = z.infer<typeof Classifier>;

/** Every class that a classifier can give. */
export const classesOf: Readonly<Record<Classifier, readonly string[]>> = {
  address: addressClasses,
  'unit-id': unitIdClasses,
  'id-pair': idPairClasses,
  level: levelClasses,
  message: messageClasses,
};

/** What typed text is, by one of the classifiers: one of its classes with what was understood, or what to type instead. Never throws. */
export function classify(classifier: Classifier, text: string): Classified {
  return classifiers[classifier](text);
}

const classifiers: Readonly<Record<Classifier, (text: string) => Classified>> = {
  address: classifyAddress,
  'unit-id': classifyUnitId,
  'id-pair': classifyIdPair,
  level: classifyLevel,
  message: classifyMessage,
};
