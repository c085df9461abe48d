import { Simulation } from 'eecircuit-engine';

/**
 * An independent circuit simulator: ngspice, compiled to WebAssembly. One instance serves a whole test file, one
 * netlist at a time.
 */
let shared: Promise<Simulation> | undefined;
let turn: Promise<unknown> = Promise.resolve();

/**
 * The DC operating point of a netlist in ngspice's own language, `.op` and options included.
 * @returns volts by node and amperes by branch, under ngspice's names in small letters: `v(n1)`, `i(v1)`
 * @throws Error with what ngspice said, when it found no operating point
 */
export function operatingPoint(netlist: string): Promise<Map<string, number>> {
  const result = turn.then(() => run(netlist));
  turn = result.catch(() => undefined);
  return result;
}

async function run(netlist: string): Promise<Map<string, number>> {
  shared ??= start();
  const simulation = await shared;
  simulation.setNetList(netlist);
  const errors = (): string[] => simulation.getError().filter((line) => /error|aborted/i.test(line));
  // An instance that found nothing to write never answers: it is known by its errors, and given up.
  let watch: NodeJS.Timeout | undefined;
  const failed = new Promise<'failed'>((resolve) => {
    watch = setInterval(() => errors().length > 0 && resolve('failed'), 20);
  });
  const result = await Promise.race([simulation.runSim(), failed]).finally(() => clearInterval(watch));
  // ngspice also notes here by which detour it found a point; that is no failure.
  if (result === 'failed' || errors().length > 0 || result.dataType !== 'real') {
    shared = undefined;
    throw new Error(`ngspice found no operating point: ${errors().join(' ')}\n${netlist}`);
  }
  return new Map(result.data.map(({ name, values }) => [name.toLowerCase(), values.at(0) ?? NaN]));
}

async function start(): Promise<Simulation> {
  const simulation = new Simulation();
  await simulation.start();
  return simulation;
}
