import type { Prompt } from '../../dialogue/messages.ts';
import { whileThere } from '../../diagnosis/likelihood.ts';
import type { Flow } from '../../knowledge/schema/flow.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { circuitModel } from '../../models/circuit.ts';
import { formatQuantity } from '../../quantities/format.ts';

/** Answers each prompt as a site with one fault would, in the middle of every range and without a meter's error. */
export function modelSite(knowledge: Knowledge, flow: Flow, fault: string): (prompt: Prompt) => string {
  const [meter] = Object.values(knowledge.meters);
  if (!meter) throw new RangeError('the knowledge has no meter');
  const model = circuitModel({ knowledge, flow, meter, facts: new Map() });
  const broken = model.faults.findIndex(({ id }) => id === fault);
  const instance = model.instance([broken], new Float64Array(model.dimensions([broken])).fill(0.5));
  let healed: number[] = [];
  return (prompt) => {
    if (prompt.cures?.includes(fault)) healed = [broken];
    const settled = withoutTheSite(knowledge, prompt);
    if (settled !== null) return settled;
    if (!model.foretells(prompt.step)) return prompt.choices?.[0]?.id ?? 'unknown';
    const prediction = whileThere(instance.predict(model.question(prompt.step), healed));
    if (prediction.kind === 'choice') {
      const likeliest = prediction.odds.indexOf(Math.max(...prediction.odds));
      return prompt.choices?.[likeliest]?.id ?? 'unknown';
    }
    const value = prediction.kind === 'value' ? prediction.value : (prediction.low + prediction.high) / 2;
    if (!Number.isFinite(value)) return 'OL';
    return prompt.reading ? formatQuantity(value, prompt.reading.quantity) : 'unknown';
  };
}

/** What is answered whatever is broken; null where the site has to be asked. */
function withoutTheSite({ brief }: Knowledge, prompt: Prompt): string | null {
  if (prompt.purpose === 'brief') {
    const choices = brief[prompt.step]?.choices ?? [];
    const safe =
      choices.find(({ does }) => does === 'on-test') ?? choices.find(({ does }) => does === 'go-on');
    return safe?.id ?? '555 0142';
  }
  if (prompt.purpose === 'challenge') return 'stands';
  if (prompt.kind === 'confirm') return 'done';
  return prompt.purpose === 'set-site' ? '0 V' : null;
}
