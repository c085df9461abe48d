import type { Draft } from './parse.ts';
import type { Path } from './problem.ts';

type Acts = NonNullable<Draft['circuits'][string]['acts']>;

/** The acts that circuits have words of their own for, with where they stand. */
export function deviceActs({ circuits }: Pick<Draft, 'circuits'>): { path: Path; act: Acts[keyof Acts] }[] {
  return Object.entries(circuits).flatMap(([id, { acts }]) =>
    Object.entries(acts ?? {}).map(([kind, act]) => ({ path: ['circuits', id, 'acts', kind], act })),
  );
}
