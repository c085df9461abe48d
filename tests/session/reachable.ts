import { answering, begin, knowledge } from './player.ts';

/** What became of one visit to a site with this fault, played without noise: the first verdict, and the ending. */
export interface Visit {
  readonly fault: string;
  /** The leading repair of the first verdict; null when the visit was referred without one. */
  readonly repair: string | null;
  readonly wanted: string;
  readonly probability: number;
  readonly asked: readonly string[];
  readonly ending: string | null;
}

/** Plays one visit to its end. Throws Error when it does not end within 150 prompts. */
export async function visit(flow: string, fault: string, seed = 1): Promise<Visit> {
  const { conversation, open, send, all, prompt } = begin(seed, undefined, knowledge, flow);
  const answer = answering([fault], knowledge, flow);
  const asked: string[] = [];
  await open();
  for (let i = 0; !conversation.ended; i++) {
    if (i > 150) throw new Error(`${flow} with ${fault} does not end: ${asked.slice(-10).join(' ')}`);
    const now = prompt();
    if (['fact', 'check'].includes(now.purpose)) asked.push(now.step);
    await send({ answer: answer(now) });
  }
  const verdict = all.find((message) => message.type === 'verdict');
  const lead = verdict?.type === 'verdict' ? verdict.group[0] : undefined;
  const end = all.at(-1);
  return {
    fault,
    repair: lead?.repair ?? null,
    wanted: knowledge.faults[fault]?.repair ?? '',
    probability: lead?.probability ?? 0,
    asked,
    ending: end?.type === 'end' ? end.ending : null,
  };
}
