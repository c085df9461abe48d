import type { SourceFile } from '../../src/knowledge/document.ts';
import { Transition } from '../../src/knowledge/schema/transition.ts';

/** A whole tree of knowledge, as small as it can be with one of everything in it, and nothing wrong. */
export const tree: Readonly<Record<string, string>> = {
  'knowledge/sources.yaml': `- id: practice
  kind: common practice, no source
  title: Common practice, no source
`,
  'knowledge/cautions.yaml': `- {id: live, signal: CAUTION, text: These terminals are live.}
- {id: dead-work, signal: WARNING, text: Prove it dead first.}
`,
  'knowledge/places.yaml': `- {id: panel, label: the panel, spoken: the panel, walk: {device: 2}}
- {id: device, label: the unit, spoken: the unit}
`,
  'knowledge/terminals.yaml': `- {id: panel.plus, label: plus, spoken: the plus terminal, place: panel, role: plus, plausible: [-1, 16]}
- {id: panel.minus, label: minus, spoken: the minus terminal, place: panel, role: minus, plausible: [-1, 16]}
- {id: device.plus, label: unit plus, spoken: the plus of the unit, place: device, role: plus, plausible: [-1, 16]}
- {id: device.lamp, label: lamp, spoken: the lamp of the unit, place: device, role: lamp, plausible: [0, 0]}
`,
  'knowledge/meters.yaml': `id: plain
title: any meter
source: practice
ohmsInput: 10.0e+6
ohmsOver: 20.0e+6
errors:
  dc-volts: {percent: 0.8, counts: 3, count: 0.01}
  ac-volts: {percent: 1.5, counts: 8, count: 0.01}
  dc-amps: {percent: 2.5, counts: 5, count: 0.01}
  ohms: {percent: 1, counts: 5, count: 0.1}
`,
  'knowledge/brief/danger.yaml': `id: danger
why: People come first.
ask: Is anyone in danger?
say: Is anyone in danger?
listen: yes or no
again: Could anybody be hurt?
choices:
  - {id: safe, label: "No", meter: plain}
  - {id: danger, label: "Yes", does: stop, caution: live}
`,
  'knowledge/circuits/run.yaml': `id: run
title: A unit on a run
ground: panel.minus
parameters:
  volts: {range: [13, 14], unit: V, source: practice}
  length: {range: [5, 45], scale: log, unit: m, source: practice}
  size: {sizes: {18 AWG: 2, 22 AWG: 5}, source: practice}
  joint: {range: [0.01, 0.05], scale: log, unit: ohm, source: practice}
  feed: {choices: {aux: 1, none: 0}, source: practice}
  up: {range: [12, 200], unit: minutes, source: practice}
elements:
  - {kind: supply, id: supply, plus: panel.plus, minus: panel.minus, volts: volts, ohms: 0.1, limit: 2}
  - {kind: landing, id: landing, end: run.plus@panel, at: panel.plus, ohms: joint}
  - {kind: conductor, id: wire, between: [run.plus@panel, far], length: length, size: size, temperature: 20, factor: 1}
  - {kind: resistor, id: pick, between: [far, device.plus], ohms: {by: feed, cases: {aux: 0.001, none: 1.0e+12}}}
  - kind: load
    id: unit
    plus: device.plus
    minus: panel.minus
    watts: {by: device, cases: {rest: 1, sending: 5}}
    cutoff: 9
    start: 11
    alive: {parameter: feed, is: aux}
meterPoints:
  panel.plus: run.plus@panel
proveDeadAt: [panel.plus, panel.minus]
`,
  'knowledge/faults/supply.yaml': `- id: bad-joint
  title: a bad joint
  weight: 3
  source: practice
  oneOf:
    - {title: at the panel, weight: 1, changes: {joint: {range: [6, 300], scale: log}}}
  repair: remake
- id: not-fed
  title: nothing feeds it
  weight: 2
  source: practice
  changes:
    feed: none
  repair: feed-it
  leadsTo: no-power
`,
  'knowledge/repairs.yaml': `- id: remake
  title: remake the joint
  ask: Remake the joint.
  say: Remake the joint.
  listen: done
  again: Do it another way.
  minutes: 5
  place: panel
  dead: true
  cautions: [dead-work]
  success: 0.9
- id: feed-it
  title: feed it
  ask: Feed the unit.
  say: Feed the unit.
  listen: done
  again: Do it another way.
  minutes: 5
  place: panel
  dead: true
  cautions: [dead-work]
  success: 0.9
`,
  'knowledge/checks/read.yaml': `- id: unit-volts
  kind: reading
  title: volts at the unit
  ask: Read DC volts, red on the unit's plus and black on minus.
  say: Put red on plus and black on minus.
  listen: a number in volts
  again: Say it another way.
  minutes: 1
  place: device
  cautions: [live]
  needs: {how-fed: [aux], danger: [safe]}
  quantity: dc-volts
  red: device.plus
  black: panel.minus
- id: series-amps
  kind: reading
  title: current of the run
  ask: Read the current, red on plus and black on the conductor.
  say: Read the current.
  listen: a number in amps
  again: Say it another way.
  minutes: 2
  place: panel
  site: {meterIn: panel.plus, lifted: [run.plus@panel], joined: [[device.plus, panel.minus]]}
  quantity: dc-amps
  red: panel.plus
  black: run.plus@panel
  by: series
`,
  'knowledge/checks/seen.yaml': `- id: lamp
  kind: observation
  title: lamp of the unit
  of: device.lamp
  ask: What does the lamp do?
  say: What does the lamp do?
  listen: dark, dim, steady, blinking or coming and going
  again: Say it another way.
  minutes: 1
  place: device
  choices:
    - {id: dark, label: Dark}
    - {id: dim, label: Dim}
    - {id: steady, label: Steady}
    - {id: blinking, label: Blinking}
    - {id: cycling, label: Comes and goes}
  shows: {rule: lamp, load: unit, dim: 10.8, starting: {since: up, needs: up}, misread: 0.04}
- id: tug
  kind: observation
  title: tug at the wire
  of: device.plus
  ask: Tug at the wire. Does it hold?
  say: Tug at the wire. Does it hold?
  listen: it holds or it moves
  again: Say it another way.
  minutes: 2
  place: device
  choices:
    - {id: holds, label: It holds}
    - {id: moves, label: It moves}
  shows:
    rule: table
    source: practice
    default: {holds: 0.9, moves: 0.1}
    faults:
      bad-joint: {holds: 0.5, moves: 0.5}
`,
  'knowledge/checks/told.yaml': `- id: run-length
  kind: fact
  title: length of the run
  ask: How long is the cable?
  say: How long is the cable?
  listen: a length
  again: Say it another way.
  minutes: 1
  place: panel
  parameter: length
  answer: {kind: number, quantity: length, error: 0.15}
- id: run-size
  kind: fact
  title: size of the conductors
  ask: What size is printed on the cable?
  say: What size is printed on the cable?
  listen: a gauge
  again: Say it another way.
  minutes: 1
  place: panel
  parameter: size
  answer: {kind: size, slip: 0.1}
- id: how-fed
  kind: fact
  title: what feeds it
  ask: What feeds the unit?
  say: What feeds the unit?
  listen: the panel or nothing
  again: Say it another way.
  minutes: 1
  place: panel
  parameter: feed
  answer: {kind: choice, slip: 0.1, choices: [{id: aux, label: The panel}, {id: none, label: Nothing}]}
- id: how-long
  kind: fact
  title: how long it is up
  ask: How long has it had power?
  say: How long has it had power?
  listen: short or long
  again: Say it another way.
  minutes: 1
  place: panel
  parameter: up
  answer:
    kind: choice
    slip: 0.1
    choices:
      - {id: short, label: Short, band: [0, 5]}
      - {id: long, label: Long, band: [5, 1000]}
`,
  'knowledge/transitions.yaml': Transition.shape.act.options
    .map((act) => `- {act: ${act}, ask: "Do it to {what}.", say: "Do it to {what}.", listen: done, again: "Look for {what}.", minutes: 1, cautions: [live]}\n`)
    .join(''),
  'knowledge/costs.yaml': `source: practice
refer: 90
wrong: 60
walk: 1
second: 0.05
unlisted: 0.02
outlier: 0.015
`,
  'knowledge/synonyms.yaml': `- [dead, dark, nothing]
- [unit, box]
`,
  'flows/no-power.yaml': `id: no-power
title: No power at a unit
heard:
  - the unit is dead
  - no lights on the box
  - it keeps rebooting
circuit: run
brief: [danger]
first: [how-fed]
checks: [unit-volts, series-amps, lamp, tug, run-length, run-size, how-fed, how-long]
faults: [bad-joint, not-fed]
acceptance: [unit-volts]
sums:
  - {form: run-drop, faults: [bad-joint], supply: [unit-volts], far: unit-volts, load: unit, length: length, size: size, factor: length}
`,
};

/** The tree as files, with some of them other than they are (a text) or taken away (null). */
export function filesOf(changes: Readonly<Record<string, string | null>> = {}): SourceFile[] {
  const all = { ...tree, ...changes };
  return Object.entries(all).flatMap(([path, text]) => (text === null ? [] : [{ path, text }]));
}

/** A change to one file; the mark ¦ in what is put there is the spot that a problem should point at. */
export interface Edit {
  readonly file: string;
  readonly take: string;
  readonly put: string;
}

/** The edited tree, and the spot as file:line:column, counted from the text alone. */
export function edited({ file, take, put }: Edit): { files: SourceFile[]; spot: string } {
  const before = tree[file] ?? '';
  if (before.split(take).length !== 2) throw new Error(`"${take}" stands ${before.split(take).length - 1} times in ${file}`);
  const marked = before.replace(take, () => put);
  const ahead = marked.slice(0, marked.indexOf('¦')).split('\n');
  const spot = `${file}:${ahead.length}:${(ahead.at(-1) ?? '').length + 1}`;
  return { files: filesOf({ [file]: marked.replace('¦', '') }), spot };
}
