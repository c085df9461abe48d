import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { edited, editKinds, editsOf } from './edits.ts';

const all = (text: string): string[] => editsOf('x.ts', text).map((edit) => edited(text, edit));

describe('slips of a programmer', () => {
  it('turn a sign, double or halve a product, and drop a term', () => {
    expect(all('const v = a + b;')).toEqual(['const v = a - b;', 'const v = a;', 'const v = b;']);
    expect(all('const v = a * b;')).toEqual([
      'const v = (2 * (a * b));',
      'const v = (0.5 * (a * b));',
      'const v = a;',
    ]);
    expect(all('const v = -a;')).toEqual(['const v = a;']);
    expect(all('v += a;')).toEqual(['v -= a;']);
  });

  it('take the boundary in or leave it out, and min for max', () => {
    expect(all('if (a < b) f();')).toEqual(['if (a <= b) f();']);
    expect(all('f(Math.min(a, b));')).toEqual(['f(Math.max(a, b));']);
  });

  it('are known by the function they are in', () => {
    const text = 'const v = -a; function f() { return -b; } class C { m() { return -c; } }';
    expect(editsOf('x.ts', text).map(({ within }) => within)).toEqual(['', 'f', 'm']);
  });

  it('are not made in words, types and imports', () => {
    expect(all("const v = 'a' + b; type T = -1; import { x } from 'y';")).toEqual([]);
  });

  it('are there in every kind in the circuit and in the diagnosis, and each leaves a program that can be read', () => {
    for (const folder of ['src/circuit', 'src/diagnosis']) {
      const kinds = new Set<string>();
      for (const name of readdirSync(folder)) {
        const text = readFileSync(join(folder, name), 'utf8');
        for (const edit of editsOf(name, text)) {
          kinds.add(edit.kind);
          expect(text.slice(edit.start, edit.end)).toBe(edit.before);
          expect(edit.after).not.toBe(edit.before);
        }
        for (const edit of editsOf(name, text).filter((_, i) => i % 40 === 0)) {
          const { diagnostics } = ts.transpileModule(edited(text, edit), { reportDiagnostics: true });
          expect(diagnostics, `${name}: ${edit.before} -> ${edit.after}`).toEqual([]);
        }
      }
      expect([...kinds].sort()).toEqual([...editKinds].sort());
    }
  });
});
