import { describe, expect, test } from 'vitest';
import { readingEase, sentences, words } from '../../src/knowledge/lint/ease.ts';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { filesOf, tree } from './tree.ts';
import { told } from './told.ts';
import type { Wrong } from './told.ts';

const read = 'knowledge/checks/read.yaml';
const facts = 'knowledge/checks/told.yaml';
const flow = 'flows/no-power.yaml';
const circuit = 'knowledge/circuits/run.yaml';
const say = { file: facts, take: 'say: How long is the cable?' };
const where = 'checks.run-length.say: ';

const wrong: Wrong[] = [
  { fact: 'digits are not spoken', ...say, put: 'say: ¦Is it 12 or 40 feet?', says: `${where}"12, 40" is in digits. Spell numbers in words, as they are spoken.` },
  { fact: 'symbols are not spoken', ...say, put: 'say: ¦Is it long & thin (or not)?', says: `${where}"& ( )" cannot be spoken. Say it in words.` },
  { fact: 'D C is said letter by letter', ...say, put: 'say: ¦Read DC volts.', says: `${where}"DC" is an abbreviation. Write "D C".` },
  { fact: 'a unit is said in full', ...say, put: 'say: ¦Read the V there.', says: `${where}"V" is an abbreviation. Write "volts".` },
  { fact: 'a prefixed unit is said in full', ...say, put: 'say: ¦Read the mA there.', says: `${where}"mA" is an abbreviation. Write "milliamps".` },
  { fact: 'a shortened word is said in full', ...say, put: 'say: ¦It is approx how long?', says: `${where}"approx" is an abbreviation. Write "about".` },
  {
    fact: 'a spoken sentence has twenty words at most',
    ...say,
    put: 'say: ¦Short one. One two three four five six seven eight nine ten one two three four five six seven eight nine ten more.',
    says: `${where}the sentence "One two three four five ..." has 21 words. Split it: at most 20 words.`,
  },
  {
    fact: 'why a question of the briefing is asked can be spoken',
    file: 'knowledge/brief/danger.yaml',
    take: 'why: People come first.',
    put: 'why: ¦People & pets come first.',
    says: 'brief.danger.why: "&" cannot be spoken. Say it in words.',
  },
  {
    fact: 'a terminal is spoken in words',
    file: 'knowledge/terminals.yaml',
    take: 'spoken: the lamp of the unit',
    put: 'spoken: ¦the LED of the unit',
    says: 'terminals.device.lamp.spoken: "LED" is an abbreviation. Write the words, or the letters apart.',
  },
  {
    fact: 'a repair is said another way to whoever did not follow',
    file: 'knowledge/repairs.yaml',
    take: 'say: Remake the joint.\n  listen: done\n  again: Do it another way.',
    put: 'say: Remake the joint.\n  listen: done\n  again: ¦Remake the joint!',
    says: 'repairs.remake.again: this is what is said the first time. Say it another way, with what it looks like.',
  },
  {
    fact: 'what is listened for at a repair can be entered',
    file: 'knowledge/repairs.yaml',
    take: 'say: Remake the joint.\n  listen: done',
    put: 'say: Remake the joint.\n  listen: ¦done, or it came good',
    says: 'repairs.remake.listen: "done, or it came good" is not taken as an answer. Write done or understood, and ask for more in say.',
  },
  {
    fact: 'a step at the site is said another way too',
    file: 'knowledge/transitions.yaml',
    take: '- {act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}."',
    put: '- {act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: ¦"Do it to {what}"',
    says: 'transitions.lift.again: this is what is said the first time. Say it another way, with what it looks like.',
  },
  {
    fact: 'the act that drives a device of a circuit is said another way too',
    file: 'knowledge/circuits/run.yaml',
    take: 'proveDeadAt: [panel.plus, panel.minus]',
    put: 'proveDeadAt: [panel.plus, panel.minus]\nacts: {send: {ask: Sound it., say: Sound it., listen: done, again: ¦Sound it, cautions: [live]}, rest: {ask: Hush it., say: Hush it., listen: done, again: Be quiet.}}',
    says: 'circuits.run.acts.send.again: this is what is said the first time. Say it another way, with what it looks like.',
  },
  {
    fact: 'what is listened for at the act that drives a device can be entered',
    file: 'knowledge/circuits/run.yaml',
    take: 'proveDeadAt: [panel.plus, panel.minus]',
    put: 'proveDeadAt: [panel.plus, panel.minus]\nacts: {send: {ask: Sound it., say: Sound it., listen: ¦loud, again: Make it loud., cautions: [live]}, rest: {ask: Hush it., say: Hush it., listen: done, again: Be quiet.}}',
    says: 'circuits.run.acts.send.listen: "loud" is not taken as an answer. Write done or understood, and ask for more in say.',
  },
  {
    fact: 'a briefing question is asked another way too',
    file: 'knowledge/brief/danger.yaml',
    take: 'again: Could anybody be hurt?',
    put: 'again: ¦Is anyone in danger?',
    says: 'brief.danger.again: this is what is said the first time. Say it another way, with what it looks like.',
  },
  {
    fact: 'a second wording of a briefing question can be spoken as well',
    file: 'knowledge/brief/danger.yaml',
    take: 'again: Could anybody be hurt?',
    put: 'again: ¦Could CO hurt anybody?',
    says: 'brief.danger.again: "CO" is an abbreviation. Write "carbon monoxide".',
  },
  {
    fact: 'a second wording can be spoken as well',
    file: 'knowledge/repairs.yaml',
    take: 'say: Feed the unit.\n  listen: done\n  again: Do it another way.',
    put: 'say: Feed the unit.\n  listen: done\n  again: ¦Give it 12 of them.',
    says: 'repairs.feed-it.again: "12" is in digits. Spell numbers in words, as they are spoken.',
  },
  {
    fact: 'ohms are read only on a site that nothing feeds',
    file: 'knowledge/checks/read.yaml',
    take: '  quantity: dc-amps',
    put: '  quantity: ¦ohms',
    says: 'checks.series-amps.quantity: ohms are read here on a site that is fed. Write site: {mains: "off", battery: lifted, others: "off"}, with what is lifted.',
  },
  {
    fact: 'how the meter is set is said once',
    file: read,
    take: 'say: Put red',
    put: 'say: ¦Turn the dial to D C volts. Put red',
    says: 'checks.unit-volts.say: "Turn the dial to D C volts" is said by the set-up of the meter. Leave it out.',
  },
  {
    fact: 'a reading says where the black probe goes',
    file: read,
    take: "ask: Read DC volts, red on the unit's plus and black on minus.",
    put: "ask: ¦Read DC volts, red on the unit's plus.",
    says: 'checks.unit-volts.ask: the black probe is not named. Say where the black probe goes.',
  },
  {
    fact: 'a clamp reading says where the clamp goes',
    file: read,
    take: 'ask: Read the current, red on plus and black on the conductor.\n  say: Read the current.\n  listen: a number in amps\n  again: Say it another way.\n  minutes: 2\n  place: panel\n  site: {meterIn: panel.plus, lifted: [run.plus@panel], joined: [[device.plus, panel.minus]]}\n  quantity: dc-amps\n  red: panel.plus\n  black: run.plus@panel\n  by: series',
    put: 'ask: ¦Read the current.\n  say: Read the current.\n  listen: a number in amps\n  again: Say it another way.\n  minutes: 2\n  place: panel\n  quantity: dc-amps\n  red: panel.plus\n  black: run.plus@panel\n  by: clamp',
    says: 'checks.series-amps.ask: the clamp is not named. Say where the clamp goes.',
  },
  {
    fact: 'a phrase is heard in one flow once',
    file: flow,
    take: '  - it keeps rebooting\n',
    put: '  - it keeps rebooting\n  - ¦The unit is dead!\n',
    says: 'flows.no-power.heard[3]: "The unit is dead!" is already heard in this flow. Take one away, or say more in it.',
  },
  {
    fact: 'a range runs upwards',
    file: circuit,
    take: 'volts: {range: [13, 14]',
    put: 'volts: {range: ¦[14, 13]',
    says: 'circuits.run.parameters.volts.range: 14 to 13 runs backwards. Write [13, 14].',
  },
  {
    fact: 'a logarithmic range stays above zero',
    file: circuit,
    take: 'length: {range: [5, 45]',
    put: 'length: {range: ¦[0, 45]',
    says: 'circuits.run.parameters.length.range: a logarithmic range cannot reach zero or below. Start above zero, or leave scale: log out.',
  },
  {
    fact: 'a choice has some weight',
    file: circuit,
    take: '{choices: {aux: 1, none: 0}',
    put: '{choices: ¦{aux: 0, none: 0}',
    says: 'circuits.run.parameters.feed.choices: no choice has a weight. Give at least one more than 0.',
  },
  {
    fact: 'a changed range runs upwards',
    file: 'knowledge/faults/supply.yaml',
    take: 'range: [6, 300]',
    put: 'range: ¦[300, 6]',
    says: 'faults.bad-joint.oneOf[0].changes.joint.range: 300 to 6 runs backwards. Write [6, 300].',
  },
  {
    fact: 'what a terminal can show runs upwards',
    file: 'knowledge/terminals.yaml',
    take: '- {id: panel.plus, label: plus, spoken: the plus terminal, place: panel, role: plus, plausible: [-1, 16]}',
    put: '- {id: panel.plus, label: plus, spoken: the plus terminal, place: panel, role: plus, plausible: ¦[16, -1]}',
    says: 'terminals.panel.plus.plausible: 16 to -1 runs backwards. Write [-1, 16].',
  },
  {
    fact: 'publications are named, not linked',
    file: 'knowledge/sources.yaml',
    take: 'title: Common practice, no source',
    put: 'title: ¦see www.example.org',
    says: 'sources.practice.title: "www.example.org" is a web address. Name the publication instead.',
  },
  {
    fact: 'a question has no placeholders',
    file: facts,
    take: 'ask: How long is the cable?',
    put: 'ask: ¦"How long is {what}?"',
    says: 'checks.run-length.ask: nothing fills in {what} here. Write the words themselves.',
  },
  {
    fact: 'a transition has the three placeholders that are filled in',
    file: 'knowledge/transitions.yaml',
    take: '{act: join, ask: "Do it to {what}."',
    put: '{act: join, ask: ¦"Join {waht} and {and} at {where}."',
    says: 'transitions.join.ask: nothing fills in {waht}. Write one of {what}, {and}, {where}.',
  },
];

describe('knowledge that can be spoken, searched and trusted', () => {
  test.each(wrong)('$fact', (each) => {
    const { problems, expected } = told(each);
    expect(problems).toEqual([expected]);
  });

  test('a tree in which all of that holds has nothing wrong', () => {
    expect(examine(filesOf()).problems).toEqual([]);
  });

  test('a question never tells what the meter should show', () => {
    const text = (tree[read] ?? '').replace('and black on minus.\n', 'and black on minus. It should be 13.6 V.\n');
    const { problems } = examine(filesOf({ [read]: text }));
    expect(problems.map((p) => [p.line, p.column, p.what])).toEqual([[4, 8, '"13.6 V" tells what the meter may show']]);
  });

  test('A C, D C and I are said as they are written', () => {
    const text = (tree[facts] ?? '').replace('say: How long is the cable?', 'say: Do I read A C or D C? A plug-in supply is C O proof.');
    expect(examine(filesOf({ [facts]: text })).problems).toEqual([]);
  });

  test('two flows are not heard by the same words', () => {
    const other = (tree[flow] ?? '')
      .replace('id: no-power', 'id: other')
      .replace('no lights on the box', 'it hums')
      .replace('it keeps rebooting', 'it smells');
    const { problems } = examine(filesOf({ 'flows/other.yaml': other }));
    expect(problems.map((p) => [p.file, p.line, p.column, p.what])).toEqual([
      ['flows/other.yaml', 4, 5, '"the unit is dead" is already heard in no-power'],
    ]);
  });

  test('what nothing leads to is a warning, at its id', () => {
    const more = {
      'knowledge/cautions/more.yaml': '- {id: hot, signal: CAUTION, text: It may be hot.}\n',
      'knowledge/sources/more.yaml': '- {id: handbook, kind: published, title: A handbook}\n',
      'knowledge/checks/more.yaml': (tree[facts] ?? '').split('- id: run-size')[0]?.replace('run-length', 'spare-check') ?? '',
      'knowledge/faults/more.yaml': '- {id: spare-fault, title: a spare, weight: 1, source: practice, repair: remake}\n',
      'knowledge/repairs/more.yaml': (tree['knowledge/repairs.yaml'] ?? '').split('- id: feed-it')[0]?.replace('id: remake', 'id: spare-repair') ?? '',
    };
    const { problems } = examine(filesOf(more));
    expect(problems.map((p) => `${p.level} ${p.file}:${p.line}:${p.column} ${p.what}`)).toEqual([
      'warning knowledge/cautions/more.yaml:1:8 no step uses this caution',
      'warning knowledge/checks/more.yaml:1:7 no flow uses this check',
      'warning knowledge/faults/more.yaml:1:8 no flow uses this fault',
      'warning knowledge/repairs/more.yaml:1:7 no fault uses this repair',
      'warning knowledge/sources/more.yaml:1:8 no number uses this source',
    ]);
  });
});

describe('reading ease', () => {
  test('six words of one syllable score 206.835 - 1.015 * 6 - 84.6', () => {
    expect(readingEase('The cat sat on the mat.')).toBeCloseTo(116.145, 3);
  });

  test('two sentences count as two', () => {
    expect(sentences('Lift it. Is it dead? Good!')).toEqual(['Lift it.', 'Is it dead?', 'Good!']);
    expect(words("Don't pull the plug-in supply.")).toEqual(["Don't", 'pull', 'the', 'plug-in', 'supply']);
  });

  test.each([
    ['volts', 1],
    ['terminal', 3],
    ['conductor', 3],
    ['made', 1],
    ['landed', 2],
    ['table', 2],
    ['device', 2],
  ])('%s has %i syllables', (word, count) => {
    expect(readingEase(word)).toBeCloseTo(206.835 - 1.015 - 84.6 * count, 3);
  });

  test('long words in long sentences read harder than short ones', () => {
    const hard = 'Disconnect the communicator conductor and subsequently determine the resistance of the installation.';
    expect(readingEase(hard)).toBeLessThan(readingEase('Lift the wire. Read the ohms.') - 50);
  });
});
