import type { Prompt } from '../../dialogue/messages.ts';
import { middling } from '../../drill/luck.ts';
import { ModelSite } from '../../drill/site.ts';
import type { Flow } from '../../knowledge/schema/flow.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';

/** Answers each prompt as a site with one fault would, in the middle of every range and without a meter's error. */
export function modelSite(knowledge: Knowledge, flow: Flow, fault: string): (prompt: Prompt) => string {
  const site = new ModelSite({ knowledge, flow, fault, luck: middling });
  return (prompt) => {
    if (prompt.purpose === 'repair') site.repaired(prompt.step);
    return site.shows(prompt).typed;
  };
}
