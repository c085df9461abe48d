import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { drawing } from '../circuit/draws.ts';
import { editKinds, editsOf, type Edit } from './edits.ts';
import { equivalence } from './equivalent.ts';
import { CopiedTree, type Outcome } from './tree.ts';

/**
 * How many slips in the physics and in the diagnosis do the published values and the independent simulator catch?
 * `npx tsx tests/mutants/run.ts --seed 1 [--count 30] [--in circuit,diagnosis] [--json]`. Exit code 1 under 90 %.
 */
const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    count: { type: 'string', default: '30' },
    in: { type: 'string', default: 'circuit,diagnosis' },
    json: { type: 'boolean', default: false },
  },
});
const wanted = 0.9;

const folders = values.in.split(',');
const draw = drawing(Number(values.seed));
const each = Math.ceil(Number(values.count) / folders.length);
const chosen = folders.flatMap((folder) => choose(join('src', folder), each)).slice(0, Number(values.count));

const tree = new CopiedTree(process.cwd());
process.on('exit', () => tree.remove());
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => process.exit(130));
const untouched = await tree.testUntouched(chosen.map(({ file }) => file));
if (untouched.fate !== 'survived') throw new Error(`without any edit the tests do not pass: ${untouched.by}`);
say(`${chosen.length} edits, seed ${values.seed}; without any the tests pass in ${untouched.seconds} s`);

const results: { edit: Edit; outcome: Outcome; why: string | undefined }[] = [];
for (const edit of chosen) {
  const why = equivalence(edit);
  const outcome =
    why === undefined ? await tree.testWith(edit) : ({ fate: 'survived', by: '', seconds: 0 } as const);
  results.push({ edit, outcome, why });
  const fate = why === undefined ? outcome.fate : 'equivalent';
  say(
    `${fate.padEnd(10)} ${edit.file}:${edit.line} ${edit.kind}: ${flat(edit.before)} -> ${flat(edit.after)}`,
  );
  say(`           ${why ?? outcome.by} (${outcome.seconds} s)`);
}

const counted = results.filter(({ why }) => why === undefined);
const killed = counted.filter(({ outcome }) => outcome.fate !== 'survived').length;
const share = counted.length === 0 ? 1 : killed / counted.length;
say(
  `${killed} of ${counted.length} killed (${(100 * share).toFixed(0)} %), ${results.length - counted.length} equivalent`,
);
if (values.json) console.log(JSON.stringify({ seed: values.seed, killed, counted: counted.length, results }));
process.exitCode = share >= wanted ? 0 : 1;

/** So many edits of a folder, every kind in turn. */
function choose(folder: string, count: number): Edit[] {
  const all = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .flatMap((name) => editsOf(join(folder, name), readFileSync(join(folder, name), 'utf8')));
  const kinds = editKinds.map((kind) => all.filter((edit) => edit.kind === kind));
  const taken: Edit[] = [];
  for (let i = 0; taken.length < count && kinds.some((left) => left.length > 0); i++) {
    const left = kinds[i % kinds.length] ?? [];
    taken.push(...left.splice(draw.whole(0, left.length - 1), 1));
  }
  return taken;
}

function flat(code: string): string {
  const line = code.replace(/\s+/g, ' ');
  return line.length > 90 ? `${line.slice(0, 87)}...` : line;
}

function say(line: string): void {
  if (!values.json) console.log(line);
}
