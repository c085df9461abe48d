import type { ElementShape, OperatingPoint } from '../../circuit/netlist.ts';
import type { Circuit, CircuitElement, Value } from '../../knowledge/schema/circuit.ts';
import type { Site } from '../../site/site.ts';
import { Netlist, partsOf, present, type Part } from './netlist.ts';
import { reading, termReader, type Drawn, type ParameterNames, type Term } from './values.ts';

/** The circuit at one electrical state of the site, to DC and to ripple, shared by every draw. */
export class SiteCircuit {
  readonly dc: Netlist;
  private readonly parts: readonly Part[];
  private ripples: Netlist<OperatingPoint> | undefined;

  /** `index` is its place among the model's. Throws a RangeError for a point that the circuit lacks. */
  constructor(
    readonly index: number,
    readonly site: Site,
    private readonly circuit: Circuit,
    private readonly names: ParameterNames,
  ) {
    this.parts = partsOf(circuit, names, site);
    this.dc = new Netlist(this.parts, circuit.ground);
  }

  /** Place of a point among the volts of `dc`. Throws a RangeError naming a point that is not there. */
  node(point: string): number {
    this.mustHave(point);
    return this.dc.topology.node(point);
  }

  /** Place of a point among the volts of `ac`, likewise. */
  rippleNode(point: string): number {
    this.mustHave(point);
    return this.ac.topology.node(point);
  }

  /** Index of an element by id, or -1 while the site leaves it out. */
  element(id: string): number {
    return this.parts.findIndex(({ shape }) => shape.id === id);
  }

  /** How a value of the circuit is read from a draw here. */
  term(value: Value): Term {
    return termReader(this.names, this.site)(value);
  }

  /**
   * The circuit to ripple, compiled when first wanted. A supply that ripples is a source of volts in step with its
   * amperes, the rest is resistance, loads and diodes are open. Behavioural, from memory.
   */
  get ac(): Netlist<OperatingPoint> {
    if (this.ripples) return this.ripples;
    const elements = new Map(present(this.circuit, this.site).map((element) => [element.id, element]));
    const parts = this.parts.map((part, i) => this.ripplePart(part, i, elements.get(part.shape.id)));
    this.ripples = new Netlist(parts, this.circuit.ground);
    return this.ripples;
  }

  private ripplePart(part: Part, index: number, element: CircuitElement | undefined): RipplePart {
    const { shape, terms } = part;
    const resistor = (ohms: RippleTerm): RipplePart => ({ shape: { ...shape, kind: 'resistor' }, terms: [ohms] });
    switch (element?.kind) {
      case 'load':
      case 'diode':
        return resistor(Infinity);
      case 'source':
        return resistor(terms[1] ?? 0);
      case 'fuse': {
        const [whole, tripped] = [reading(terms[0] ?? 0), reading(terms[2] ?? 0)];
        return resistor((drawn, dc) => (dc.tripped(index) ? tripped : whole)(drawn));
      }
      case 'supply': {
        if (element.ripple === undefined) return resistor(terms[1] ?? 0);
        const ohms = this.term(element.ripple);
        const read = reading(ohms);
        return { shape: { ...shape, kind: 'source' }, terms: [(drawn, dc) => read(drawn) * dc.high.amps(index), ohms] };
      }
      default:
        return part;
    }
  }

  private mustHave(point: string): void {
    if (!this.dc.topology.nodes.includes(point)) {
      throw new RangeError(`circuit "${this.circuit.id}" has no point "${point}" at this state of the site`);
    }
  }
}

type RippleTerm = number | ((drawn: Drawn, dc: OperatingPoint) => number);
interface RipplePart {
  readonly shape: ElementShape;
  readonly terms: readonly RippleTerm[];
}
