/** Words that say nothing of what is wrong. "No", "not", "low", "off" and the like do, and stay. */
const fillers = new Set(
  (
    'a an the this that these those it its is are was were be been being am i we you they he she my our your their me us ' +
    'them and or but so then than of to in at for with by from as on into there here when while whenever every time times ' +
    'each all any some just very really keep keeps kept keeping seem seems get gets getting got have has had having do ' +
    'does did doing wo ca will would can could should may might please help one thing something what which who why how again ' +
    'still always now today yesterday since if about'
  ).split(' '),
);

/** The telling words of a text, small, as they were typed, in order. */
export function tellingWords(text: string): string[] {
  const plain = text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/\b(ca|do|does|did|is|are|was|wo|has|had)n['’]?t\b/g, '$1 not')
    .replace(/['’]s\b|['’]/g, '');
  return (plain.match(/[\p{L}\d]+/gu) ?? []).filter((word) => !fillers.has(word));
}

/** The telling words without their endings. */
export function tokensOf(text: string): string[] {
  return tellingWords(text).map(stem);
}

/** Reboots, rebooted and rebooting are one word; short words keep their endings. */
export function stem(word: string): string {
  if (word.length > 5 && /(ies|ied)$/.test(word)) return `${word.slice(0, -3)}y`;
  const bare = word.replace(/(?<=.{4})(?:ing|ed)$/, '').replace(/(?<=.{3}[^s])s$/, '');
  return bare.replace(/(?<=.{3})e$/, '').replace(/(?<=.{2})([b-df-hj-np-rt-z])\1$/, '$1');
}

/** Words and phrases by what they stand for. */
export interface Concepts {
  of(tokens: readonly string[]): string[];
  /** Concepts in order, each with the number of tokens it takes; a token of no group stands for itself. */
  spans(tokens: readonly string[]): [concept: string, length: number][];
}

/** What the groups of synonyms make of tokens. The longest phrase is taken first. */
export function synonymGroups(groups: readonly (readonly string[])[]): Concepts {
  const phrases = groups.flatMap((group, i) => group.map((phrase) => ({ tokens: tokensOf(phrase), concept: `#${i}` })));
  const known = phrases.filter(({ tokens }) => tokens.length > 0).sort((a, b) => b.tokens.length - a.tokens.length);
  const spans = (tokens: readonly string[]): [string, number][] => {
    const found: [string, number][] = [];
    for (let at = 0; at < tokens.length; ) {
      const here = known.find((each) => each.tokens.every((token, i) => tokens[at + i] === token));
      const span: [string, number] = here ? [here.concept, here.tokens.length] : [tokens[at] ?? '', 1];
      found.push(span);
      at += span[1];
    }
    return found;
  };
  return {
    of: (tokens) => spans(tokens).map(([concept]) => concept),
    spans,
  };
}
