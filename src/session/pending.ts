import type { Prompt } from '../dialogue/messages.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import type { Act } from '../site/act.ts';
import type { Answer } from './events.ts';

/** A question as the flow has it: `asked` is its id in the journal. */
export type Question =
  Told | { kind: 'act'; act: Act; asked: string } | { kind: 'repair'; step: string; asked: string };

/** A question answered by typing a number, a choice or words. */
export interface Told {
  readonly kind: 'brief' | 'check' | 'proof';
  readonly step: string;
  readonly asked: string;
  readonly quantity: QuantityKind | null;
}

/** What the prompt on the screen waits for: a question, or what an answer to one has brought up. */
export type Pending =
  | Question
  /** An answer, by its id, that nothing explains, that a slip would, or of a proof that failed where the other readings point to a good repair. */
  | {
      kind: 'challenge';
      step: string;
      of: string;
      asked: string;
      quantity: QuantityKind | null;
      slip?: boolean;
      proof?: Answer;
    }
  /** An earlier answer, by its id, that is being changed; `as` is how it was asked, `back` what waits meanwhile. */
  | {
      kind: 'edit';
      step: string;
      of: string;
      asked: string;
      quantity: QuantityKind | null;
      as: Prompt;
      back: { readonly prompt: Prompt; readonly pending: Pending };
    }
  | { kind: 'danger'; back: Prompt; pending: Pending };
