/**
 * What was made of typed text. `value` is in the base unit of the kind, which `unit` names; Infinity is
 * over-range (OL). `understood` repeats the text as it was taken, in the unit that was typed: "850 mV".
 * A `problem` says in one or two short sentences what was understood and what to type instead.
 */
export type Parsed =
  | { readonly ok: true; readonly value: number; readonly understood: string; readonly unit: string }
  | { readonly ok: false; readonly problem: string };

/** A refusal, in words for the person who typed. */
export function problem(text: string): Parsed {
  return { ok: false, problem: text };
}
