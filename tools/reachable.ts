import { knowledge } from '../tests/session/player.ts';
import { visit } from '../tests/session/reachable.ts';

/** `tsx tools/reachable.ts FLOW [FAULT...]`: plays one clean visit for each fault and prints what it came to. */
const [flow = '', ...named] = process.argv.slice(2);
const faults = named.length > 0 ? named : (knowledge.flows[flow]?.faults ?? []);
if (faults.length === 0) {
  console.error(`There is no flow "${flow}". There are: ${Object.keys(knowledge.flows).join(', ')}`);
  process.exit(2);
}
let missed = 0;
for (const fault of faults) {
  const { repair, wanted, probability, asked, ending } = await visit(flow, fault);
  if (repair !== wanted) missed++;
  console.log(
    `${repair === wanted ? 'right' : 'MISSED'}  ${fault}: ${repair ?? 'no verdict'} ${probability.toFixed(2)}` +
      `${repair === wanted ? '' : ` (wanted ${wanted})`}, ${String(ending)}, asked ${asked.join(' ')}`,
  );
}
console.log(`${faults.length - missed} of ${faults.length} right`);
process.exitCode = missed > 0 ? 1 : 0;
