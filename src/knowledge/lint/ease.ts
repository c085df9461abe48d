/**
 * Flesch's reading ease of an English text: 206.835 - 1.015 words a sentence - 84.6 syllables a word
 * (R. Flesch, A New Readability Yardstick, Journal of Applied Psychology 32, 1948). 60 and more is plain English.
 * Syllables are counted by groups of vowels.
 */
export function readingEase(text: string): number {
  const all = words(text);
  const count = Math.max(1, all.length);
  const syllables = all.reduce((sum, word) => sum + syllablesOf(word), 0);
  return 206.835 - 1.015 * (count / Math.max(1, sentences(text).length)) - 84.6 * (syllables / count);
}

/** The sentences of a text, split after full stops, question and exclamation marks. */
export function sentences(text: string): string[] {
  return text.split(/(?<=[.?!])\s+/).filter((each) => words(each).length > 0);
}

/** The words of a text; plug-in and don't are one word each. */
export function words(text: string): string[] {
  return text.match(/[\p{L}\d]+(?:['’-][\p{L}\d]+)*/gu) ?? [];
}

function syllablesOf(word: string): number {
  const spoken = word.toLowerCase().replace(/(?:[^laeiouy]es|[^taeiouyd]ed|[^laeiouy]e)$/, '');
  return Math.max(1, spoken.match(/[aeiouy]+/g)?.length ?? 0);
}
