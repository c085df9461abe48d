import fc from 'fast-check';
import type { Circuit, CircuitElement } from '../../../src/knowledge/schema/circuit.ts';
import type { Knowledge } from '../../../src/knowledge/schema/knowledge.ts';
import type { Site } from '../../../src/site/site.ts';
import { inService } from '../../../src/site/state.ts';
import {
  circuitsOf,
  sceneOf,
  type Reading,
  type Scene,
  type Sketch,
} from '../../../src/wording/drawing/scene.ts';
import { endsOf } from '../../../src/wording/wires.ts';
import { knowledge } from '../../session/player.ts';

/** A length of cable; only what it joins matters to a drawing. */
const cable = (id: string, a: string, b: string): CircuitElement => ({
  kind: 'conductor',
  id,
  between: [a, b],
  length: 10,
  size: 0.5,
  temperature: 20,
  factor: 1,
});
const landing = (id: string, end: string, at: string): CircuitElement => ({
  kind: 'landing',
  id,
  end,
  at,
  ohms: 0.01,
});

/** Two devices, each on a cable of its own from the panel, and terminals that no place claims. */
const star: Circuit = {
  id: 'star',
  title: 'Two devices, each on its own cable',
  ground: 'panel.bus-minus',
  proveDeadAt: ['panel.bus-plus', 'panel.bus-minus'],
  parameters: {},
  meterPoints: {},
  elements: [
    landing('first-end', 'first.line@panel', 'panel.bus-plus'),
    cable('first', 'first.line@panel', 'first.line@splice'),
    landing('first-far', 'first.line@splice', 'splice.plus'),
    landing('second-end', 'second.line@panel', 'panel.bus-plus'),
    cable('second', 'second.line@panel', 'second.line@device'),
    landing('second-far', 'second.line@device', 'device.plus'),
    cable('stray', 'panel.bus-minus', 'attic.box'),
  ],
};

/** A loop closed by a resistor at its far end. */
const loop: Circuit = {
  id: 'loop',
  title: 'A loop with a resistor at its end',
  ground: 'panel.loop-b',
  proveDeadAt: ['panel.loop-a', 'panel.loop-b'],
  parameters: {},
  meterPoints: {},
  elements: [
    cable('out', 'panel.loop-a', 'contact.a@device'),
    { kind: 'resistor', id: 'contact', between: ['contact.a@device', 'contact.b@device'], ohms: 0.2 },
    { kind: 'resistor', id: 'end', between: ['contact.b@device', 'back.a@device'], ohms: 5600 },
    cable('back', 'back.a@device', 'panel.loop-b'),
  ],
};

/** The knowledge, with circuits of other shapes beside those it has. */
export const drawn: Knowledge = { ...knowledge, circuits: { ...knowledge.circuits, star, loop } };

/** Every point of a circuit, and one that it does not have. */
export function pointsOf({ elements }: Circuit): string[] {
  return [...new Set([...elements.flatMap(endsOf).filter((node) => node.includes('.')), 'nobody.knows'])];
}

/** A label of one word that belongs to one point. */
export const token = (point: string): string =>
  `Q${Object.values(drawn.circuits).flatMap(pointsOf).indexOf(point)}Q`;

export const label = (point: string): string => drawn.terminals[point]?.label ?? point;

/** Any two terminals of any circuit, with anything lifted, linked and in series. */
export function sketches(naming: Sketch['label']): fc.Arbitrary<Sketch> {
  return fc.constantFrom(...Object.values(drawn.circuits)).chain((circuit) => {
    const point = fc.constantFrom(...pointsOf(circuit));
    const reading: fc.Arbitrary<Reading> = fc.record({
      quantity: fc.constantFrom('dc-volts', 'ac-volts', 'dc-amps', 'ohms'),
      red: point,
      black: point,
      take: fc.constantFrom('steady', 'lowest'),
      by: fc.constantFrom('probes', 'series'),
    });
    const site: fc.Arbitrary<Site> = fc.record({
      mains: fc.constantFrom('on', 'off'),
      battery: fc.constantFrom('connected', 'lifted'),
      others: fc.constantFrom('on', 'off'),
      lifted: fc.uniqueArray(point, { maxLength: 5 }),
      joined: fc.array(fc.tuple(point, point), { maxLength: 2 }),
      meterIn: fc.option(point, { nil: null, freq: 3 }),
      device: fc.constantFrom('rest', 'sending'),
      onTest: fc.boolean(),
    });
    const among = fc.option(fc.constant([circuit.id]), { nil: undefined });
    return fc.record({ reading, site, label: fc.constant(naming), among });
  });
}

/** One reading in one circuit, on a site in service but for what is named. */
export function sketch(
  red: string,
  black: string,
  site: Partial<Site> = {},
  reading: Partial<Reading> = {},
  among = 'device-on-run',
): Sketch {
  return {
    reading: { quantity: 'dc-volts', red, black, take: 'steady', by: 'probes', ...reading },
    site: { ...inService, ...site },
    label,
    among: [among],
  };
}

/** The scene in the circuit that has most of it. */
export function sceneIn(asked: Sketch): Scene {
  return sceneOf(drawn, asked, circuitsOf(drawn, asked)[0]);
}
