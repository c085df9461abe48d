import type { Prompt } from '../../dialogue/messages.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { wordedFor } from '../../knowledge/worded.ts';
import type { Point, Site } from '../../site/site.ts';
import { isUnpowered } from '../../site/state.ts';
import { drivenWords } from '../prompts.ts';
import { capital } from '../values.ts';
import { placeOf } from '../wires.ts';
import type { Reading, Sketch } from './scene.ts';

/** The sentence of a prompt; nothing where nothing is read. */
export function saidPrompt(knowledge: Knowledge, prompt: Prompt, label: Sketch['label']): string[] {
  const sketch = sketchOf(knowledge, prompt, label);
  return sketch ? [probeSentence(wordedFor(knowledge, knowledge.flows[prompt.flow ?? '']), sketch)] : [];
}

/** What a prompt wants read, with how it is taken, which only its check says; null where nothing is read. */
export function sketchOf(knowledge: Knowledge, prompt: Prompt, label: Sketch['label']): Sketch | null {
  const { reading, site, step } = prompt;
  if (!reading) return null;
  const check = knowledge.checks[step];
  const by = check?.kind === 'reading' ? check.by : 'probes';
  return { reading: { ...reading, by }, site, label, among: circuitsAsked(knowledge, prompt) };
}

/** The circuits of the flow that asks, else of every flow that could ask this; undefined for what any flow asks. */
function circuitsAsked({ flows }: Knowledge, { flow, step }: Prompt): string[] | undefined {
  const asking = Object.values(flows).filter(({ id, checks }) =>
    flow ? id === flow : checks.includes(step),
  );
  return asking.length === 0 ? undefined : [...new Set(asking.flatMap(({ circuit }) => circuit ?? []))];
}

/** Where the probes go, to be read aloud: no sign that a screen reader would spell. */
export function probeSentence(knowledge: Knowledge, { reading, site, label }: Sketch): string {
  const name = (point: Point): string => placed(label(point), placeLabel(knowledge, point));
  const links = site.joined.map(([a, b]) => `${name(a)} to ${name(b)}`);
  return [
    probes(reading, name),
    `${dials[reading.quantity]}${reading.take === 'lowest' ? ', holding the lowest' : ''}.`,
    ...(site.lifted.length > 0 ? [`Lifted now: ${site.lifted.map(name).join(', ')}.`] : []),
    ...(links.length > 0 ? [`Linked now: ${links.join(', ')}.`] : []),
    ...(site.meterIn !== null && reading.by !== 'series'
      ? [`Meter in series at ${name(site.meterIn)}.`]
      : []),
    ...states(site, drivenWords(knowledge)),
  ].join(' ');
}

const dials = {
  'dc-volts': 'Dial on volts D C',
  'ac-volts': 'Dial on volts A C',
  'dc-amps': 'Dial on amps D C',
  ohms: 'Dial on ohms',
} as const;

function probes({ red, black, by }: Reading, name: (point: Point) => string): string {
  if (by === 'clamp') return `Clamp round ${name(red)}.`;
  const both = `ed on ${name(red)}, black on ${name(black)}.`;
  return by === 'series' ? `Meter in series, red lead in the amps jack: r${both}` : `R${both}`;
}

function states(site: Site, driven: string): string[] {
  const power = isUnpowered(site) ? ['Power off.'] : site.mains === 'off' ? ['Mains off.'] : [];
  return [...power, ...(site.device === 'sending' ? [`${capital(driven)}.`] : [])];
}

function placeLabel(knowledge: Knowledge, point: Point): string | null {
  return knowledge.places[placeOf(knowledge, point) ?? '']?.label ?? null;
}

/** "aux plus at the panel"; a label that names its place already stands alone: "unit plus". */
function placed(label: string, place: string | null): string {
  const noun = place?.split(' ').at(-1);
  return noun === undefined || label.split(' ').includes(noun) ? label : `${label} at ${place}`;
}
