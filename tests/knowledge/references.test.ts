import { describe, expect, test } from 'vitest';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { filesOf } from './tree.ts';
import { told } from './told.ts';
import type { Wrong } from './told.ts';

const faults = 'knowledge/faults/supply.yaml';
const circuit = 'knowledge/circuits/run.yaml';
const read = 'knowledge/checks/read.yaml';
const seen = 'knowledge/checks/seen.yaml';
const facts = 'knowledge/checks/told.yaml';
const flow = 'flows/no-power.yaml';

const names: Wrong[] = [
  {
    fact: 'a flow has its circuit',
    file: flow,
    take: 'circuit: run',
    put: 'circuit: ¦rum',
    says: 'flows.no-power.circuit: there is no circuit "rum". Did you mean "run"?',
  },
  {
    fact: 'a flow has its briefing questions',
    file: flow,
    take: 'brief: [danger]',
    put: 'brief: [¦dangers]',
    says: 'flows.no-power.brief[0]: there is no briefing question "dangers". Did you mean "danger"?',
  },
  {
    fact: 'a flow has its checks',
    file: flow,
    take: 'lamp, tug,',
    put: 'lamp, ¦tugg,',
    says: 'flows.no-power.checks[3]: there is no check "tugg". Did you mean "tug"?',
  },
  {
    fact: 'a flow has its faults',
    file: flow,
    take: 'faults: [bad-joint, not-fed]',
    put: 'faults: [bad-joint, ¦not-feed]',
    says: 'flows.no-power.faults[1]: there is no fault "not-feed". Did you mean "not-fed"?',
  },
  {
    fact: 'what is asked first is among the checks',
    file: flow,
    take: 'first: [how-fed]',
    put: 'first: [¦how-fad]',
    says: 'flows.no-power.first[0]: there is no check of this flow "how-fad". Did you mean "how-fed"?',
  },
  {
    fact: 'what proves the repair is among the checks',
    file: flow,
    take: 'acceptance: [unit-volts]',
    put: 'acceptance: [¦unit-watts]',
    says: 'flows.no-power.acceptance[0]: there is no check of this flow "unit-watts". Did you mean "unit-volts"?',
  },
  {
    fact: 'a check stands in a flow once',
    file: flow,
    take: 'lamp, tug,',
    put: 'lamp, ¦lamp, tug,',
    says: 'flows.no-power.checks[3]: "lamp" stands here twice. Take one away.',
  },
  {
    fact: 'sums are about the faults of the flow',
    file: flow,
    take: 'run-drop, faults: [bad-joint]',
    put: 'run-drop, faults: [¦bad-point]',
    says: 'flows.no-power.sums[0].faults[0]: there is no fault of this flow "bad-point". Did you mean "bad-joint"?',
  },
  {
    fact: 'sums are made of checks of the flow',
    file: flow,
    take: 'far: unit-volts',
    put: 'far: ¦unit-bolts',
    says: 'flows.no-power.sums[0].far: there is no check of this flow "unit-bolts". Did you mean "unit-volts"?',
  },
  {
    fact: 'sums take the load of the circuit',
    file: flow,
    take: 'load: unit,',
    put: 'load: ¦units,',
    says: 'flows.no-power.sums[0].load: there is no load of run "units". Did you mean "unit"?',
  },
  {
    fact: 'sums take parameters of the circuit',
    file: flow,
    take: 'size: size',
    put: 'size: ¦sizes',
    says: 'flows.no-power.sums[0].size: there is no parameter of run "sizes". Did you mean "size"?',
  },
  {
    fact: 'a fault has its repair',
    file: faults,
    take: 'repair: remake',
    put: 'repair: ¦remak',
    says: 'faults.bad-joint.repair: there is no repair "remak". Did you mean "remake"?',
  },
  {
    fact: 'a fault leads to a flow that is there',
    file: faults,
    take: 'leadsTo: no-power',
    put: 'leadsTo: ¦no-data',
    says: 'faults.not-fed.leadsTo: there is no flow "no-data". Write one of no-power.',
  },
  {
    fact: 'a fault has a source',
    file: faults,
    take: '  weight: 3\n  source: practice',
    put: '  weight: 3\n  source: ¦practise',
    says: 'faults.bad-joint.source: there is no source "practise". Did you mean "practice"?',
  },
  {
    fact: 'a fault changes parameters that its circuit has',
    file: faults,
    take: 'changes: {joint:',
    put: 'changes: {¦join:',
    says: 'faults.bad-joint.oneOf[0].changes.join: there is no parameter of run "join". Did you mean "joint"?',
  },
  {
    fact: 'a fault picks a choice that its parameter has',
    file: faults,
    take: 'feed: none',
    put: 'feed: ¦nome',
    says: 'faults.not-fed.changes.feed: there is no choice of feed "nome". Did you mean "none"?',
  },
  {
    fact: 'a choice is not changed to a range',
    file: faults,
    take: 'feed: none',
    put: 'feed: ¦{range: [1, 2]}',
    says: 'faults.not-fed.changes.feed: feed is a choice, not a range of numbers. Write one of aux, none.',
  },
  {
    fact: 'a range is not changed to a name',
    file: faults,
    take: 'feed: none',
    put: 'volts: ¦none',
    says: 'faults.not-fed.changes.volts: volts is a range of numbers, not a choice. Write range: [low, high], or a number.',
  },
  {
    fact: 'a repair is done at a place',
    file: 'knowledge/repairs.yaml',
    take: 'place: panel\n  dead: true\n  cautions: [dead-work]\n  success: 0.9\n- id',
    put: 'place: ¦panels\n  dead: true\n  cautions: [dead-work]\n  success: 0.9\n- id',
    says: 'repairs.remake.place: there is no place "panels". Did you mean "panel"?',
  },
  {
    fact: 'a repair has cautions that are there',
    file: 'knowledge/repairs.yaml',
    take: 'cautions: [dead-work]\n  success: 0.9\n- id',
    put: 'cautions: [¦dead-wok]\n  success: 0.9\n- id',
    says: 'repairs.remake.cautions[0]: there is no caution "dead-wok". Did you mean "dead-work"?',
  },
  {
    fact: 'what a repair makes new is a parameter of the circuit',
    file: 'knowledge/repairs.yaml',
    take: 'cautions: [dead-work]\n  success: 0.9\n- id',
    put: 'cautions: [dead-work]\n  renews: [¦lenght]\n  success: 0.9\n- id',
    says: 'repairs.remake.renews[0]: there is no parameter of run "lenght". Did you mean "length"?',
  },
  {
    fact: 'a transition warns again of what exists',
    file: 'knowledge/transitions.yaml',
    take: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live]',
    put: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live], warns: [{needs: {danger: [safe]}, caution: ¦liv}]',
    says: 'transitions.lift.warns[0].caution: there is no caution "liv". Did you mean "live"?',
  },
  {
    fact: 'a transition warns again of what the briefing can be answered',
    file: 'knowledge/transitions.yaml',
    take: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live]',
    put: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live], warns: [{needs: {danger: [¦saf]}, caution: live}]',
    says: 'transitions.lift.warns[0].needs.danger[0]: there is no answer of danger "saf". Did you mean "safe"?',
  },
  {
    fact: 'a transition has cautions that are there',
    file: 'knowledge/transitions.yaml',
    take: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live]',
    put: '{act: lift, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [¦life]',
    says: 'transitions.lift.cautions[0]: there is no caution "life". Did you mean "live"?',
  },
  {
    fact: 'what a circuit calls the act that drives its device has cautions that are there',
    file: 'knowledge/circuits/run.yaml',
    take: 'proveDeadAt: [panel.plus, panel.minus]',
    put: 'proveDeadAt: [panel.plus, panel.minus]\nacts: {send: {ask: Sound it., say: Sound it., listen: done, again: Make it loud., cautions: [¦life]}, rest: {ask: Hush it., say: Hush it., listen: done, again: Be quiet.}}',
    says: 'circuits.run.acts.send.cautions[0]: there is no caution "life". Did you mean "live"?',
  },
  {
    fact: 'a terminal is at a place',
    file: 'knowledge/terminals.yaml',
    take: 'place: device, role: lamp',
    put: 'place: ¦devise, role: lamp',
    says: 'terminals.device.lamp.place: there is no place "devise". Did you mean "device"?',
  },
  {
    fact: 'a place is walked to from a place',
    file: 'knowledge/places.yaml',
    take: 'walk: {device: 2}',
    put: 'walk: {¦devices: 2}',
    says: 'places.panel.walk.devices: there is no place "devices". Did you mean "device"?',
  },
  {
    fact: 'a briefing answer has its caution',
    file: 'knowledge/brief/danger.yaml',
    take: 'caution: live',
    put: 'caution: ¦alive',
    says: 'brief.danger.choices[1].caution: there is no caution "alive". Did you mean "live"?',
  },
  {
    fact: 'a briefing answer has its meter',
    file: 'knowledge/brief/danger.yaml',
    take: 'meter: plain',
    put: 'meter: ¦plan',
    says: 'brief.danger.choices[0].meter: there is no meter "plan". Did you mean "plain"?',
  },
  {
    fact: 'costs have a source',
    file: 'knowledge/costs.yaml',
    take: 'source: practice',
    put: 'source: ¦practices',
    says: 'costs.source: there is no source "practices". Did you mean "practice"?',
  },
  {
    fact: 'a meter has a source',
    file: 'knowledge/meters.yaml',
    take: 'source: practice',
    put: 'source: ¦memory',
    says: 'meters.plain.source: there is no source "memory". Write one of practice.',
  },
  {
    fact: 'a table has a source',
    file: seen,
    take: 'source: practice',
    put: 'source: ¦practiced',
    says: 'checks.tug.shows.source: there is no source "practiced". Did you mean "practice"?',
  },
];

const circuits: Wrong[] = [
  {
    fact: 'a parameter has a source',
    file: circuit,
    take: 'unit: V, source: practice',
    put: 'unit: V, source: ¦practic',
    says: 'circuits.run.parameters.volts.source: there is no source "practic". Did you mean "practice"?',
  },
  {
    fact: 'an element takes parameters that are there',
    file: circuit,
    take: 'volts: volts',
    put: 'volts: ¦bolts',
    says: 'circuits.run.elements[0].volts: there is no parameter "bolts". Did you mean "volts"?',
  },
  {
    fact: 'a case takes parameters that are there',
    file: circuit,
    take: 'cases: {rest: 1, ',
    put: 'cases: {rest: ¦fed, ',
    says: 'circuits.run.elements[4].watts.cases.rest: there is no parameter "fed". Did you mean "feed"?',
  },
  {
    fact: 'cases are picked by a parameter that is there',
    file: circuit,
    take: 'by: feed',
    put: 'by: ¦feet',
    says: 'circuits.run.elements[3].ohms.by: there is no parameter "feet". Did you mean "feed"?',
  },
  {
    fact: 'cases are picked by a choice',
    file: circuit,
    take: 'by: feed',
    put: 'by: ¦joint',
    says: 'circuits.run.elements[3].ohms.by: "joint" has no choices to pick by. Name a parameter with choices, or device.',
  },
  {
    fact: 'every choice has its case',
    file: circuit,
    take: 'cases: {aux: 0.001, none: 1.0e+12}',
    put: '¦cases: {aux: 0.001}',
    says: 'circuits.run.elements[3].ohms.cases: nothing is said for none. Add a case for each choice.',
  },
  {
    fact: 'every case is a choice',
    file: circuit,
    take: 'none: 1.0e+12}}',
    put: 'none: 1.0e+12, ¦auxx: 1}}',
    says: 'circuits.run.elements[3].ohms.cases.auxx: there is no case "auxx". Did you mean "aux"?',
  },
  {
    fact: 'a unit is at rest or sends, nothing else',
    file: circuit,
    take: 'sending: 5',
    put: 'sending: 5, ¦idle: 2',
    says: 'circuits.run.elements[4].watts.cases.idle: there is no case "idle". Write one of rest, sending.',
  },
  {
    fact: 'a unit lives by a choice that is there',
    file: circuit,
    take: 'is: aux',
    put: 'is: ¦auxi',
    says: 'circuits.run.elements[4].alive.is: there is no choice of feed "auxi". Did you mean "aux"?',
  },
  {
    fact: 'the ground is in the circuit',
    file: circuit,
    take: 'ground: panel.minus',
    put: 'ground: ¦panel.mines',
    says: 'circuits.run.ground: there is no node "panel.mines". Did you mean "panel.minus"?',
  },
  {
    fact: 'a terminal in a circuit is one of the terminals',
    file: circuit,
    take: 'between: [far, device.plus]',
    put: 'between: [far, ¦device.pluss]',
    says: 'circuits.run.elements[3].between[1]: there is no terminal "device.pluss". Did you mean "device.plus"?',
  },
  {
    fact: 'a node is joined to something',
    file: circuit,
    take: 'between: [far, device.plus]',
    put: 'between: [¦farr, device.plus]',
    says: 'circuits.run.elements[3].between[0]: nothing else is joined to "farr". Did you mean "far"?',
  },
  {
    fact: 'an element is named once',
    file: circuit,
    take: 'id: pick',
    put: 'id: ¦wire',
    says: 'circuits.run.elements[3].id: "wire" is already an element here. Give it another id.',
  },
  {
    fact: 'the ammeter breaks into a conductor that is landed',
    file: circuit,
    take: 'panel.plus: run.plus@panel\n',
    put: 'panel.plus: ¦run.plus@device\n',
    says: 'circuits.run.meterPoints.panel.plus: there is no conductor end in this circuit "run.plus@device". Write one of run.plus@panel.',
  },
];

const checks: Wrong[] = [
  {
    fact: 'a check is done at a place',
    file: seen,
    take: 'place: device\n  choices:\n    - {id: dark',
    put: 'place: ¦devic\n  choices:\n    - {id: dark',
    says: 'checks.lamp.place: there is no place "devic". Did you mean "device"?',
  },
  {
    fact: 'a check has cautions that are there',
    file: read,
    take: 'cautions: [live]',
    put: 'cautions: [¦lives]',
    says: 'checks.unit-volts.cautions[0]: there is no caution "lives". Did you mean "live"?',
  },
  {
    fact: 'a probe goes to a terminal that is there',
    file: read,
    take: 'red: device.plus',
    put: 'red: ¦devise.plus',
    says: 'checks.unit-volts.red: there is no terminal "devise.plus". Did you mean "device.plus"?',
  },
  {
    fact: 'a conductor end is landed by a circuit',
    file: read,
    take: 'lifted: [run.plus@panel]',
    put: 'lifted: [¦run.plus@panels]',
    says: 'checks.series-amps.site.lifted[0]: there is no conductor end "run.plus@panels". Did you mean "run.plus@panel"?',
  },
  {
    fact: 'a link goes between terminals that are there',
    file: read,
    take: 'joined: [[device.plus, ',
    put: 'joined: [[¦device.pus, ',
    says: 'checks.series-amps.site.joined[0][0]: there is no terminal "device.pus". Did you mean "device.plus"?',
  },
  {
    fact: 'what is looked at is there',
    file: seen,
    take: 'of: device.lamp',
    put: 'of: ¦device.lamb',
    says: 'checks.lamp.of: there is no terminal "device.lamb". Did you mean "device.lamp"?',
  },
  {
    fact: 'a probe goes to a point of the circuit of its flow',
    file: read,
    take: 'red: device.plus',
    put: 'red: ¦device.lamp',
    says: 'checks.unit-volts.red: there is no point in run "device.lamp". Write one of panel.minus, panel.plus, run.plus@panel, far, device.plus.',
  },
  {
    fact: 'the probes are on two points',
    file: read,
    take: 'black: panel.minus',
    put: 'black: ¦device.plus',
    says: 'checks.unit-volts.black: both probes are on the same point. Name another point.',
  },
  {
    fact: 'the ammeter goes where the circuit can be broken into',
    file: read,
    take: 'meterIn: panel.plus',
    put: 'meterIn: ¦panel.minus',
    says: 'checks.series-amps.site.meterIn: run does not say which conductor the ammeter breaks into at "panel.minus". Did you mean "panel.plus"? Or add it to meterPoints.',
  },
  {
    fact: 'a check needs a question that is there',
    file: read,
    take: 'needs: {how-fed',
    put: 'needs: {¦how-fedd',
    says: 'checks.unit-volts.needs.how-fedd: there is no check or briefing question "how-fedd". Did you mean "how-fed"?',
  },
  {
    fact: 'a check needs an answer that can be given',
    file: read,
    take: 'danger: [safe]',
    put: 'danger: [¦save]',
    says: 'checks.unit-volts.needs.danger[0]: there is no answer of danger "save". Did you mean "safe"?',
  },
  {
    fact: 'a fact fixes a parameter that is there',
    file: facts,
    take: 'parameter: length',
    put: 'parameter: ¦lenght',
    says: 'checks.run-length.parameter: there is no parameter of run "lenght". Did you mean "length"?',
  },
  {
    fact: 'a size fixes a parameter that has sizes',
    file: facts,
    take: 'kind: size',
    put: 'kind: ¦number, quantity: length, error: 0.1}\n# {',
    says: 'checks.run-size.answer.kind: size has no range to answer with a number. Name a parameter with a range, or change the kind.',
  },
  {
    fact: 'an answer is a choice of its parameter',
    file: facts,
    take: '{id: none, label: Nothing}',
    put: '{id: ¦non, label: Nothing}',
    says: 'checks.how-fed.answer.choices[1].id: there is no choice of feed "non". Did you mean "none"?',
  },
  {
    fact: 'an answer about a range has its band',
    file: facts,
    take: '{id: short, label: Short, band: [0, 5]}',
    put: '¦{id: short, label: Short}',
    says: 'checks.how-long.answer.choices[0]: up is a range of numbers. Add band: [low, high].',
  },
  {
    fact: 'an answer about a choice has no band',
    file: facts,
    take: '{id: none, label: Nothing}',
    put: '{id: none, label: Nothing, band: ¦[0, 1]}',
    says: 'checks.how-fed.answer.choices[1].band: feed is not a range of numbers. Take the band away.',
  },
  {
    fact: 'a lamp hangs on a load of the circuit',
    file: seen,
    take: 'load: unit,',
    put: 'load: ¦supply,',
    says: 'checks.lamp.shows.load: there is no load of run "supply". Write one of unit.',
  },
  {
    fact: 'a lamp blinks by minutes that are there',
    file: seen,
    take: 'since: up',
    put: 'since: ¦upp',
    says: 'checks.lamp.shows.starting.since: there is no parameter of run "upp". Did you mean "up"?',
  },
  {
    fact: 'a lamp is dark, dim, steady, blinking or cycling, by these names',
    file: seen,
    take: 'id: blinking',
    put: 'id: ¦blink',
    says: 'checks.lamp.choices[3].id: there is no answer in the lamp "blink". Write one of dark, dim, steady, blinking, cycling.',
  },
  {
    fact: 'every way of a lamp can be answered',
    file: seen,
    take: 'choices:\n    - {id: dark, label: Dark}\n',
    put: '¦choices:\n',
    says: 'checks.lamp.choices: dark cannot be answered. Offer each of them as a choice.',
  },
  {
    fact: 'a table foretells every answer',
    file: seen,
    take: '    - {id: moves, label: It moves}\n',
    put: '    - {id: moves, label: It moves}\n    - {id: ¦gone, label: It is gone}\n',
    says: 'checks.tug.choices[2].id: there is no answer in the table "gone". Write one of holds, moves.',
  },
  {
    fact: 'an answer is offered once',
    file: seen,
    take: '    - {id: moves, label: It moves}\n',
    put: '    - {id: moves, label: It moves}\n    - {id: ¦holds, label: It holds}\n',
    says: 'checks.tug.choices[2].id: "holds" is offered twice. Take one away.',
  },
  {
    fact: 'a table has faults that are there',
    file: seen,
    take: 'bad-joint: {',
    put: '¦bad-joints: {',
    says: 'checks.tug.shows.faults.bad-joints: there is no fault "bad-joints". Did you mean "bad-joint"?',
  },
  {
    fact: 'a row of a table has answers that can be given',
    file: seen,
    take: 'bad-joint: {holds: 0.5',
    put: 'bad-joint: {¦hold: 0.5',
    says: 'checks.tug.shows.faults.bad-joint.hold: there is no answer "hold". Did you mean "holds"?',
  },
];

describe('every name stands for something, and things fit each other', () => {
  test.each([...names, ...circuits, ...checks])('$fact', (wrong) => {
    const { problems, expected } = told(wrong);
    expect(problems).toContain(expected);
  });

  test('a tree in which all of that holds has nothing wrong', () => {
    expect(examine(filesOf()).problems).toEqual([]);
  });

  test('an act without words is missed', () => {
    const all = filesOf().find((file) => file.path === 'knowledge/transitions.yaml')?.text ?? '';
    const without = all.split('\n').filter((line) => !line.includes('act: unjoin')).join('\n');
    const { problems } = examine(filesOf({ 'knowledge/transitions.yaml': without }));
    expect(problems.map((p) => [p.file, p.line, p.column, p.what])).toEqual([
      ['knowledge/transitions.yaml', 1, 1, 'the act unjoin has no words'],
    ]);
  });

  test('missing costs are missed', () => {
    const { problems } = examine(filesOf({ 'knowledge/costs.yaml': null }));
    expect(problems.map((p) => [p.file, p.what])).toEqual([['knowledge/costs.yaml', 'this file is missing']]);
  });

  test('a file in the wrong place is told where it belongs', () => {
    const { problems } = examine(filesOf({ 'knowledge/fautls/more.yaml': '[]', 'knowledge/a/b/c.yaml': '[]' }));
    expect(problems.map((p) => [p.file, p.what, p.instead])).toEqual([
      ['knowledge/a/b/c.yaml', 'nothing reads a file at this place', 'Put it in flows/ (one flow a file) or in knowledge/<kind>/ (a list of items), and name it *.yaml.'],
      ['knowledge/fautls/more.yaml', 'there is no kind "fautls"', 'Did you mean "faults"?'],
    ]);
  });

  test('a file that cannot be read keeps its names, so that what refers to them is not blamed', () => {
    const text = filesOf().find((file) => file.path === faults)?.text ?? '';
    const { problems } = examine(filesOf({ [faults]: `${text}  broken: [\n` }));
    expect(new Set(problems.map((p) => p.file))).toEqual(new Set([faults]));
  });
});
