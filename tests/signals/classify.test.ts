import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classesOf, classify, Classifier } from '../../src/signals/classify.ts';

const likely = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'binary', maxLength: 6 }),
      fc.constantFrom(
        '192.168.1.',
        '/24',
        'gw',
        '0.0.0.0',
        '255.255.255.0',
        'CSQ',
        'RSRP',
        '-97',
        ' dBm',
        'bars',
        ' of ',
        '+CESQ: ',
        ',',
      ),
      fc.constantFrom(
        '1234 18 1131',
        ' 01 015',
        '#1|',
        'F',
        ':',
        '-',
        ' ',
        'alfa ',
        'oh',
        'code ',
        'id ',
        '__proto__',
        'constructor',
      ),
      fc.integer().map(String),
    ),
    { maxLength: 12 },
  )
  .map((parts) => parts.join(''));

describe.each(Classifier.options)('the classifier %s', (classifier) => {
  it('takes any text at all: one of its classes with words, or a sentence', () => {
    fc.assert(
      fc.property(fc.oneof(likely, fc.string({ unit: 'binary', maxLength: 300 })), (text) => {
        const found = classify(classifier, text);
        if (found.ok) {
          expect(classesOf[classifier]).toContain(found.class);
          expect(found.understood).not.toBe('');
          expect(found.understood + found.says).not.toMatch(/undefined|NaN|Infinity|\p{Cc}/u);
          expect(found.says).toMatch(/[.?]$/);
        } else {
          expect(found.problem).toMatch(/\.$/);
          expect(found.problem).not.toMatch(/undefined|NaN|Infinity|\p{Cc}/u);
          expect(found.problem.length).toBeLessThan(300);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('takes a long paste in no time', () => {
    for (const piece of ['1', '1.', ' ', 'a ', '1234 ', '0:', '-', 'zero ', ',1']) {
      const began = performance.now();
      expect(classify(classifier, piece.repeat(50_000)).ok).toBe(false);
      classify(classifier, piece.repeat(Math.floor(118 / piece.length)));
      expect(performance.now() - began).toBeLessThan(200);
    }
  });
});
