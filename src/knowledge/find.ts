import Fuse from 'fuse.js';
import { stem, synonymGroups, tellingWords, tokensOf } from './find/tokens.ts';
import type { Concepts } from './find/tokens.ts';
import { distance } from './nearest.ts';
import type { Flow } from './schema/flow.ts';
import type { Knowledge } from './schema/knowledge.ts';

export interface Found {
  readonly flow: Flow;
  /** From 0 to 1; 1 says the words of a phrase of this flow, or their synonyms, and nothing else. */
  readonly score: number;
}

type Searched = Pick<Knowledge, 'flows' | 'synonyms'>;

/**
 * The flows that a person's words may mean, best first; none when the words mean nothing here. Typing errors are
 * forgiven, the order of words is free, a rare word counts for more than one that every flow has.
 */
export function findFlows(knowledge: Searched, words: string): Found[] {
  const index = indexOf(knowledge);
  const asked = index.meant(words);
  if (asked.length === 0) return [];
  const found = index.entries
    .map(({ flow, phrases }) => ({ flow, ...scoreOf(asked, phrases, index.weight) }))
    .filter(({ score }) => score >= least)
    .sort((a, b) => b.score - a.score || b.often - a.often || (a.flow.id < b.flow.id ? -1 : 1));
  return found.map(({ flow, score }) => ({ flow, score }));
}

/** A flow that scores less only happens to have a word in common. */
const least = 0.2;

/** A word of the question: what it stands for, and how surely (1 as written, less with typing errors, 0 not known). */
interface Meant {
  readonly concept: string;
  readonly sureness: number;
}

/** What a phrase is about, in any order. */
type Phrase = ReadonlySet<string>;

interface Index {
  readonly entries: readonly { flow: Flow; phrases: readonly Phrase[] }[];
  meant(words: string): Meant[];
  /** What a concept counts for: the fewer flows have it, the more. */
  weight(concept: string): number;
}

const indexes = new WeakMap<Searched, Index>();

function indexOf(knowledge: Searched): Index {
  const known = indexes.get(knowledge) ?? build(knowledge);
  indexes.set(knowledge, known);
  return known;
}

function build(knowledge: Searched): Index {
  const concepts = synonymGroups(knowledge.synonyms);
  const entries = Object.values(knowledge.flows).map((flow) => ({
    flow,
    phrases: [flow.title, ...flow.heard].map((phrase) => new Set(concepts.of(tokensOf(phrase)))),
  }));
  const spread = new Map<string, number>();
  for (const { phrases } of entries) {
    for (const concept of new Set(phrases.flatMap((phrase) => [...phrase]))) {
      spread.set(concept, (spread.get(concept) ?? 0) + 1);
    }
  }
  const vocabulary = vocabularyOf(knowledge);
  return {
    entries,
    meant: (words) => meant(words, vocabulary, concepts),
    // A word of no flow at all still counts a little, so that a story about something else finds nothing.
    weight: (concept) => Math.log(1 + entries.length / (spread.get(concept) ?? Infinity)) || unheard,
  };
}

const unheard = 0.4;

/** The words that flows and synonyms use, as typed and without endings, and a fuzzy search among them. */
interface Vocabulary {
  readonly tokens: ReadonlySet<string>;
  readonly fuse: Fuse<string>;
}

function vocabularyOf(knowledge: Searched): Vocabulary {
  const phrases = Object.values(knowledge.flows).flatMap((flow) => [flow.title, ...flow.heard]);
  const words = [...phrases, ...knowledge.synonyms.flat()].flatMap(tellingWords);
  const tokens = new Set(words.map(stem));
  const fuse = new Fuse([...new Set([...words, ...tokens])], { ignoreLocation: true, threshold: 0.5 });
  return { tokens, fuse };
}

/** Each word as the nearest one known, then phrases and words as the concepts they stand for. */
function meant(text: string, vocabulary: Vocabulary, concepts: Concepts): Meant[] {
  const read = tellingWords(text).map((word) => nearestToken(word, vocabulary));
  const found = new Map<string, number>();
  let at = 0;
  for (const [concept, length] of concepts.spans(read.map((each) => each.token))) {
    const sureness = Math.min(...read.slice(at, at + length).map((each) => each.sureness));
    found.set(concept, Math.max(sureness, found.get(concept) ?? 0));
    at += length;
  }
  return [...found].map(([concept, sureness]) => ({ concept, sureness }));
}

interface Read {
  readonly token: string;
  readonly sureness: number;
}

function nearestToken(word: string, { tokens, fuse }: Vocabulary): Read {
  const token = stem(word);
  if (tokens.has(token)) return { token, sureness: 1 };
  const unknown = { token, sureness: 0 };
  // Three letters with one wrong are another word.
  if (word.length < 4) return unknown;
  const best = fuse
    .search(word)
    .map(({ item }): Read => ({ token: stem(item), sureness: likeness(word, item) }))
    .reduce((a, b) => (b.sureness > a.sureness ? b : a), unknown);
  return best.sureness >= 0.7 ? best : unknown;
}

/** Fuse also finds a word inside a longer one, and counts two letters swapped as two errors; here they are one. */
function likeness(typed: string, word: string): number {
  const alike = 1 - distance(typed, word) / Math.max(typed.length, word.length);
  return word.startsWith(typed) ? Math.max(alike, 0.8) : alike;
}

interface Score {
  readonly score: number;
  /** In how many of its phrases the flow has these words: it decides between equals. */
  readonly often: number;
}

/** Half the share of the question that a flow has, half how well its best phrase and the question cover each other. */
function scoreOf(asked: readonly Meant[], phrases: readonly Phrase[], weight: (concept: string) => number): Score {
  const total = sum(asked, ({ concept }) => weight(concept));
  const shared = (phrase: Phrase): number =>
    sum(asked, ({ concept, sureness }) => (phrase.has(concept) ? sureness * weight(concept) : 0));
  const fit = (phrase: Phrase): number => (2 * shared(phrase)) / (total + sum([...phrase], weight));
  const everywhere = new Set(phrases.flatMap((phrase) => [...phrase]));
  const score = 0.5 * (shared(everywhere) / total) + 0.5 * Math.max(...phrases.map(fit));
  return { score: Math.min(1, score), often: sum(phrases, shared) };
}

const sum = <T>(items: readonly T[], of: (item: T) => number): number => items.reduce((all, item) => all + of(item), 0);
