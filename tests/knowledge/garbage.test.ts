import { describe, expect, test } from 'vitest';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { filesOf, tree } from './tree.ts';
import { told } from './told.ts';
import type { Wrong } from './told.ts';

const faults = 'knowledge/faults/supply.yaml';
const circuit = 'knowledge/circuits/run.yaml';
const told_ = 'knowledge/checks/told.yaml';

const garbage: Wrong[] = [
  {
    fact: 'a missing field is named, at the item it is missing from',
    file: faults,
    take: '- id: bad-joint\n  title: a bad joint\n',
    put: '- ¦id: bad-joint\n',
    says: 'faults.bad-joint.title: "title" is missing. Add it. Write some text.',
  },
  {
    fact: 'an item without an id is counted',
    file: faults,
    take: '- id: not-fed\n  title: nothing feeds it',
    put: '- ¦title: nothing feeds it',
    says: 'faults[1].id: "id" is missing. Add it. Write some text.',
  },
  {
    fact: 'a misspelt key is told once, and not that the right one is missing',
    file: faults,
    take: '  title: a bad joint',
    put: '  ¦titel: a bad joint',
    says: 'faults.bad-joint.titel: "titel" is not known here. Did you mean "title"?',
  },
  {
    fact: 'a misspelt key beside a choice of forms finds the form that was meant',
    file: circuit,
    take: 'feed: {choices: {aux: 1, none: 0}',
    put: 'feed: {¦choises: {aux: 1, none: 0}',
    says: 'circuits.run.parameters.feed.choises: "choises" is not known here. Did you mean "choices"?',
  },
  {
    fact: 'a key too many beside a form that is whole',
    file: circuit,
    take: 'volts: {range: [13, 14], unit: V',
    put: 'volts: {range: [13, 14], ¦colour: red, unit: V',
    says: 'circuits.run.parameters.volts.colour: "colour" is not known here. Write one of unit, source, note, range, scale, choices, sizes.',
  },
  {
    fact: 'a range of one number',
    file: circuit,
    take: 'up: {range: [12, 200]',
    put: 'up: {range: ¦[12]',
    says: 'circuits.run.parameters.up.range: this list has 1 item. Write at least 2.',
  },
  {
    fact: 'a number in a text field goes in quotes, as it was typed',
    file: told_,
    take: 'listen: a gauge',
    put: 'listen: ¦012',
    says: 'checks.run-size.listen: 012 without quotes is not text. Put it in quotes: "012".',
  },
  {
    fact: 'a version number keeps its last nought',
    file: told_,
    take: 'title: size of the conductors',
    put: 'title: ¦1.10',
    says: 'checks.run-size.title: 1.10 without quotes is not text. Put it in quotes: "1.10".',
  },
  {
    fact: 'true is not a text either',
    file: told_,
    take: 'listen: a gauge',
    put: 'listen: ¦true',
    says: 'checks.run-size.listen: true without quotes is not text. Put it in quotes: "true".',
  },
  {
    fact: 'a text where a number is needed',
    file: faults,
    take: 'weight: 3',
    put: 'weight: ¦often',
    says: 'faults.bad-joint.weight: a number is needed here, not "often". Write a plain number, such as 0.5.',
  },
  {
    fact: 'an infinite weight',
    file: faults,
    take: 'weight: 3',
    put: 'weight: ¦.inf',
    says: 'faults.bad-joint.weight: Infinity is not a number to reckon with. Write a plain number, such as 0.5.',
  },
  {
    fact: 'a weight of nothing',
    file: faults,
    take: 'weight: 3',
    put: 'weight: ¦0',
    says: 'faults.bad-joint.weight: 0 is out of bounds. Write more than 0.',
  },
  {
    fact: 'a chance above one',
    file: 'knowledge/repairs.yaml',
    take: '  cautions: [dead-work]\n  success: 0.9\n- id: feed-it',
    put: '  cautions: [dead-work]\n  success: ¦1.2\n- id: feed-it',
    says: 'repairs.remake.success: 1.2 is out of bounds. Write at most 1.',
  },
  {
    fact: 'a repair without a caution',
    file: 'knowledge/repairs.yaml',
    take: '  cautions: [dead-work]\n  success: 0.9\n- id: feed-it',
    put: '  cautions: ¦[]\n  success: 0.9\n- id: feed-it',
    says: 'repairs.remake.cautions: this list has 0 items. Write at least 1.',
  },
  {
    fact: 'a prompt that cannot be spoken for want of words',
    file: told_,
    take: '- id: run-length\n  kind: fact\n  title: length of the run\n  ask: How long is the cable?\n  say: How long is the cable?\n',
    put: '- ¦id: run-length\n  kind: fact\n  title: length of the run\n  ask: How long is the cable?\n',
    says: 'checks.run-length.say: "say" is missing. Add it. Write some text.',
  },
  {
    fact: 'a check with nothing more to say to whoever did not follow',
    file: told_,
    take: '- id: run-length\n  kind: fact\n  title: length of the run\n  ask: How long is the cable?\n  say: How long is the cable?\n  listen: a length\n  again: Say it another way.\n',
    put: '- ¦id: run-length\n  kind: fact\n  title: length of the run\n  ask: How long is the cable?\n  say: How long is the cable?\n  listen: a length\n',
    says: 'checks.run-length.again: "again" is missing. Add it. Write some text.',
  },
  {
    fact: 'a briefing question with nothing more to say to whoever did not follow',
    file: 'knowledge/brief/danger.yaml',
    take: 'id: danger\nwhy: People come first.\nask: Is anyone in danger?\nsay: Is anyone in danger?\nlisten: yes or no\nagain: Could anybody be hurt?\n',
    put: '¦id: danger\nwhy: People come first.\nask: Is anyone in danger?\nsay: Is anyone in danger?\nlisten: yes or no\n',
    says: 'brief.danger.again: "again" is missing. Add it. Write some text.',
  },
  {
    fact: 'nothing written after a key',
    file: 'flows/no-power.yaml',
    take: 'acceptance: [unit-volts]',
    put: '¦acceptance:',
    says: 'flows.no-power.acceptance: a list is needed here, not nothing. Write a list: [one, two].',
  },
  {
    fact: 'a list where a map is needed',
    file: 'knowledge/circuits/run.yaml',
    take: '{by: device, cases: {rest: 1, sending: 5}}',
    put: '¦[1, 5]',
    says: 'circuits.run.elements[4].watts: a list does not fit here. Write a number, or text, or a map.',
  },
  {
    fact: 'a kind that is not known',
    file: told_,
    take: '- id: run-length\n  kind: fact',
    put: '- id: run-length\n  kind: ¦fakt',
    says: 'checks.run-length.kind: "fakt" is not one of reading, observation, fact, entry. Did you mean "fact"?',
  },
  {
    fact: 'a kind left out',
    file: told_,
    take: 'answer: {kind: size, slip: 0.1}',
    put: 'answer: ¦{slip: 0.1}',
    says: 'checks.run-size.answer.kind: "kind" is missing. Add it: one of number, size, choice.',
  },
  {
    fact: 'a word of a closed list misspelt',
    file: 'knowledge/cautions.yaml',
    take: 'signal: WARNING',
    put: 'signal: ¦WARNIGN',
    says: 'cautions.dead-work.signal: "WARNIGN" is not one of DANGER, WARNING, CAUTION, NOTICE. Did you mean "WARNING"?',
  },
  {
    fact: 'an id in capitals',
    file: 'knowledge/sources.yaml',
    take: 'id: practice',
    put: 'id: ¦Practice',
    says: 'sources[0].id: "Practice" is not well formed. An id is written in small letters with dashes: bad-joint.',
  },
  {
    fact: 'a parameter whose name is no id',
    file: circuit,
    take: '  up: {range',
    put: '  ¦Up Time: {range',
    says: 'circuits.run.parameters.Up Time: "Up Time" cannot be a name here. An id is written in small letters with dashes: bad-joint.',
  },
  {
    fact: 'a terminal without its device',
    file: 'knowledge/checks/read.yaml',
    take: 'red: device.plus',
    put: 'red: ¦plus',
    says: 'checks.unit-volts.red: "plus" is not well formed. A terminal is written device.terminal, a conductor end run.conductor@place, in small letters.',
  },
  {
    fact: 'a group of one synonym',
    file: 'knowledge/synonyms.yaml',
    take: '[unit, box]',
    put: '¦[unit]',
    says: 'synonyms[1]: this list has 1 item. Write at least 2.',
  },
  {
    fact: 'costs with a word too many',
    file: 'knowledge/costs.yaml',
    take: 'wrong: 60\n',
    put: 'wrong: 60\n¦beer: 5\n',
    says: 'costs.beer: "beer" is not known here. Write one of source, refer, wrong, walk, second, unlisted, outlier, again and 3 more.',
  },
  {
    fact: 'a flow called otherwise than its file',
    file: 'flows/no-power.yaml',
    take: 'id: no-power',
    put: 'id: ¦power',
    says: 'flows.power.id: the flow is called "power" but its file "no-power". Write id: no-power, or rename the file.',
  },
  {
    fact: 'an id used twice names both places',
    file: faults,
    take: 'id: not-fed',
    put: 'id: ¦bad-joint',
    says: 'faults.bad-joint.id: "bad-joint" is already a fault at knowledge/faults/supply.yaml:1:7. Give one of the two another id.',
  },
  {
    fact: 'the same act twice',
    file: 'knowledge/transitions.yaml',
    take: 'act: mains-on,',
    put: 'act: ¦mains-off,',
    says: 'transitions.mains-off.act: "mains-off" is already a transition at knowledge/transitions.yaml:2:9. Keep one of the two.',
  },
  {
    fact: 'a bracket left open',
    file: 'knowledge/cautions.yaml',
    take: 'first.}\n',
    put: 'first.\n¦',
    says: 'this is not valid YAML: Flow map in block collection must be sufficiently indented and end with a }. Close the bracket, or line it up with the entries around it, two spaces for each step in.',
  },
  {
    fact: 'the same key twice',
    file: 'knowledge/costs.yaml',
    take: 'wrong: 60\n',
    put: 'wrong: 60\n¦wrong: 50\n',
    says: 'this is not valid YAML: Map keys must be unique. Keep one of the two.',
  },
  {
    fact: 'a tab',
    file: 'knowledge/meters.yaml',
    take: '  dc-amps',
    put: '¦\tdc-amps',
    says: 'this is not valid YAML: Tabs are not allowed as indentation. Use spaces, not tabs.',
  },
  {
    fact: 'an anchor',
    file: 'knowledge/costs.yaml',
    take: 'refer: 90',
    put: 'refer: ¦&long 90',
    says: '&long is an anchor or alias. Write the value out in each place.',
  },
  {
    fact: 'an empty file',
    file: 'knowledge/synonyms.yaml',
    take: tree['knowledge/synonyms.yaml'] ?? '',
    put: '¦# later\n',
    says: 'this file is empty. Write a group of synonyms, or take the file away.',
  },
];

describe('garbage is turned away, with its place and what to write instead', () => {
  test.each(garbage)('$fact', (wrong) => {
    const { problems, expected } = told(wrong);
    expect(problems).toContain(expected);
  });

  test('the tree without garbage is taken whole', () => {
    const { knowledge, problems } = parseKnowledge(filesOf());
    expect(problems).toEqual([]);
    expect(knowledge?.faults['bad-joint']?.repair).toBe('remake');
    expect(knowledge?.places['device']?.walk).toEqual({});
  });
});
