import { describe, expect, test } from 'vitest';
import { nearest, suggestion } from '../../src/knowledge/nearest.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { KnowledgeError, formatProblem } from '../../src/knowledge/problem.ts';
import { edited, filesOf } from './tree.ts';

const broken = edited({ file: 'knowledge/faults/supply.yaml', take: 'repair: remake', put: 'repair: ¦remak' }).files;

describe('a problem as it is printed', () => {
  test('has place, path, what is wrong, what to write, and a caret under the spot', () => {
    const [problem] = parseKnowledge(broken).problems;
    expect(problem && formatProblem(problem)).toBe(
      [
        'knowledge/faults/supply.yaml:7:11  faults.bad-joint.repair: there is no repair "remak". Did you mean "remake"?',
        '      repair: remak',
        '              ^',
      ].join('\n'),
    );
  });

  test('says warning when it is one', () => {
    const [problem] = parseKnowledge(broken).problems;
    expect(problem && formatProblem({ ...problem, level: 'warning' })).toContain(':7:11  warning: faults.bad-joint');
  });

  test('keeps tabs before the caret, and shows only the part of a long line around it', () => {
    const problem = { level: 'error', file: 'a.yaml', line: 1, where: '', what: 'x', instead: 'y.' } as const;
    const tabbed = formatProblem({ ...problem, column: 3, source: '\t\tz' });
    expect(tabbed.split('\n').at(-1)).toBe('    \t\t^');
    const long = formatProblem({ ...problem, column: 301, source: `${'a'.repeat(300)}Z${'b'.repeat(300)}` });
    const [, line = '', caret = ''] = long.split('\n');
    expect(line.length).toBe(104);
    expect(line[caret.indexOf('^')]).toBe('Z');
  });

  test('all problems of all files come at once, in the order of files and lines', () => {
    const files = filesOf({
      'knowledge/costs.yaml': 'source: practice\nrefer: soon\n',
      'knowledge/places.yaml': '- {id: panel, label: the panel, spoken: the panel}\n- {id: device, label: [}\n',
      'knowledge/synonyms.yaml': '- [one]\n- 3\n',
      'flows/no-power.yaml': 'title: No power\nheard: [a, b, c]\ncircuit: run\nbrief: [dangr]\nchecks: [lamp]\nfaults: [bad-joint, not-fed]\nacceptance: [lamp]\n',
    });
    const { problems, knowledge } = parseKnowledge(files);
    expect(knowledge).toBeUndefined();
    expect(problems.map((p) => `${p.file}:${p.line} ${p.what}`)).toEqual([
      'flows/no-power.yaml:4 there is no briefing question "dangr"',
      'knowledge/costs.yaml:1 "outlier" is missing',
      'knowledge/costs.yaml:1 "second" is missing',
      'knowledge/costs.yaml:1 "unlisted" is missing',
      'knowledge/costs.yaml:1 "walk" is missing',
      'knowledge/costs.yaml:1 "wrong" is missing',
      'knowledge/costs.yaml:2 a number is needed here, not "soon"',
      expect.stringMatching(/^knowledge\/places.yaml:2 this is not valid YAML/),
      expect.stringMatching(/^knowledge\/places.yaml:\d this is not valid YAML/),
      'knowledge/synonyms.yaml:1 this list has 1 item',
      'knowledge/synonyms.yaml:2 a list is needed here, not 3',
    ]);
    expect(new KnowledgeError(problems).message.match(/^\S+:\d+:\d+ {2}/gm)).toHaveLength(11);
  });
});

describe('near misses', () => {
  test('two letters swapped, one dropped, added or changed are near', () => {
    for (const typo of ['reamke', 'remke', 'remakee', 'remaka']) expect(nearest(typo, ['change', 'remake'])).toBe('remake');
  });

  test('another word is not near', () => {
    expect(nearest('polish', ['change', 'remake'])).toBeUndefined();
    expect(suggestion('polish', ['change', 'remake'])).toBe('Write one of change, remake.');
  });

  test('a long list is cut short', () => {
    const many = Array.from({ length: 12 }, (_, i) => `some-name-${i}`);
    expect(suggestion('zebra', many)).toMatch(/some-name-7 and 4 more\.$/);
    expect(suggestion('zebra', [])).toBe('None is known here: add it first.');
  });
});
