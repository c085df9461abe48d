import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { siteFor, inService } from '../site/state.ts';

/** Everything a program must know to play the site: terminals, site states, observations with their answers, repairs. */
export function describe(knowledge: Knowledge) {
  const checks = Object.values(knowledge.checks);
  return {
    type: 'description',
    protocol: 1,
    flows: Object.values(knowledge.flows).map(({ id, title, checks: asked, faults }) => ({
      id,
      title,
      checks: asked,
      faults,
    })),
    terminals: Object.values(knowledge.terminals).map(({ id, label, place, role }) => ({
      id,
      label,
      place,
      role,
    })),
    meterPoints: Object.assign(
      {},
      ...Object.values(knowledge.circuits).map(({ meterPoints }) => meterPoints),
    ) as Record<string, string>,
    inService,
    readings: checks.flatMap((check) =>
      check.kind === 'reading'
        ? [
            {
              id: check.id,
              quantity: check.quantity,
              red: check.red,
              black: check.black,
              take: check.take,
              by: check.by,
              site: siteFor(check.site, false),
            },
          ]
        : [],
    ),
    observations: checks.flatMap((check) =>
      check.kind === 'observation'
        ? [
            {
              id: check.id,
              of: check.of,
              site: siteFor(check.site, false),
              answers: check.choices.map(({ id, label }) => ({ id, label })),
            },
          ]
        : [],
    ),
    facts: checks.flatMap((check) =>
      check.kind === 'fact'
        ? [
            {
              id: check.id,
              ask: check.ask,
              ...(check.answer.kind === 'choice'
                ? { answers: check.answer.choices.map(({ id, label }) => ({ id, label })) }
                : { answer: check.answer.kind }),
            },
          ]
        : [],
    ),
    briefing: Object.values(knowledge.brief).map(({ id, ask, choices }) => ({
      id,
      ask,
      answers: choices.map((c) => ({ id: c.id, label: c.label })),
    })),
    faults: Object.values(knowledge.faults).map(({ id, title, repair }) => ({ id, title, repair })),
    repairs: Object.values(knowledge.repairs).map(({ id, title, minutes, place, dead, way }) => ({
      id,
      title,
      minutes,
      place,
      dead,
      way,
    })),
    transitions: Object.values(knowledge.transitions).map(({ act, minutes }) => ({ act, minutes })),
  };
}
