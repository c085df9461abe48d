import { describe, expect, it } from 'vitest';
import { proveFlow } from '../../src/dialogue/prove.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import type { Act } from '../../src/site/act.ts';
import { plan } from '../../src/site/plan.ts';

const knowledge = loadKnowledge('.');

/** What is found wrong when every plan is spoilt so. */
function found(spoilt: (acts: Act[]) => Act[], id = 'zone'): string {
  const flow = knowledge.flows[id];
  if (!flow) throw new Error(`no flow ${id}`);
  return proveFlow(knowledge, flow, (...asked) => spoilt(plan(...asked))).faults.join('\n');
}

describe('the prover', () => {
  it('finds nothing wrong with the plans as they are', () => {
    expect(found((acts) => acts)).toBe('');
  });

  it('finds dead work that nobody proves dead for, and ohms on a pair that nobody proves dead', () => {
    const faults = found((acts) => acts.filter(({ kind }) => !kind.startsWith('prove-dead')), 'low-supply');
    expect(faults).toMatch(/"lift" is asked on a site not proved dead/);
    expect(faults).toMatch(/hands go in before the site is proved dead/);
    expect(faults).toMatch(/ohms are read on .* before they are proved dead/);
  });

  it('finds a site that is left otherwise than it is needed', () => {
    expect(found((acts) => acts.filter(({ kind }) => kind !== 'land'))).toMatch(/not left as it is needed/);
  });

  it('finds acts that lead no nearer', () => {
    const faults = found((acts) =>
      acts.map((act) => (act.kind === 'mains-on' ? { ...act, site: { ...act.site, mains: 'off' } } : act)),
    );
    expect(faults).toMatch(/"mains-on" leads no nearer/);
  });
});
