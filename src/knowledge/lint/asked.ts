import type { LintRule } from './lint.ts';

/** A reading says what to do and where both probes go, and never what the meter should show, so that nobody is led. */
export const askedReadings: LintRule = function* (k) {
  for (const [id, check] of Object.entries(k.checks)) {
    if (check.kind !== 'reading') continue;
    const path = ['checks', id, 'ask'];
    const wanted = check.by === 'clamp' ? ['clamp'] : ['red', 'black'];
    for (const word of wanted.filter((each) => !new RegExp(`\\b${each}\\b`, 'i').test(check.ask))) {
      const instead = word === 'clamp' ? 'Say where the clamp goes.' : `Say where the ${word} probe goes.`;
      yield { path, what: `the ${word} ${word === 'clamp' ? '' : 'probe '}is not named`.replace('  ', ' '), instead };
    }
    for (const field of ['ask', 'say'] as const) {
      const led = figure.exec(check[field])?.[0];
      if (led !== undefined) {
        yield { path: ['checks', id, field], what: `"${led}" tells what the meter may show`, instead: 'Ask without a figure.' };
      }
    }
  }
};

/** The dial is not set by a reading's own words: on the phone its set-up says so, where it has to be said. */
export const setOnce: LintRule = function* (k) {
  for (const [id, check] of Object.entries(k.checks)) {
    const doubled = check.kind === 'reading' ? dial.exec(check.say)?.[0] : undefined;
    if (doubled === undefined) continue;
    yield { path: ['checks', id, 'say'], what: `"${doubled}" is said by the set-up of the meter`, instead: 'Leave it out.' };
  }
};

/** Ohms are read on a site that nothing feeds: the check itself says so, and it is proved dead before. */
export const deadOhms: LintRule = function* (k) {
  for (const [id, check] of Object.entries(k.checks)) {
    if (check.kind !== 'reading' || check.quantity !== 'ohms') continue;
    const { mains, battery, others } = check.site;
    if (mains === 'off' && battery === 'lifted' && others === 'off') continue;
    const instead = 'Write site: {mains: "off", battery: lifted, others: "off"}, with what is lifted.';
    yield { path: ['checks', id, 'quantity'], what: 'ohms are read here on a site that is fed', instead };
  }
};

const dial = /\b(?:(?:set|turn) the (?:meter|dial|clamp) (?:back )?to (?:[AD] C \w+|ohms)|zero (?:the|a)\b[^.]*\bclamp)/i;
const figure = /\d+(?:\.\d+)?\s*(?:m|k|M)?(?:V|A|W|Ω|ohms?|volts?|amps?|millivolts?|milliamps?)\b/;
