import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyReader, type Key } from '../../../src/faces/chat/keys.ts';

/** The keys of some chunks; runs of text that arrived apart are joined. */
function keys(...chunks: string[]): Key[] {
  const read = keyReader();
  return chunks.flatMap(read).reduce<Key[]>((all, key) => {
    const last = all.at(-1);
    if (key.kind !== 'text' || last?.kind !== 'text') return [...all, key];
    return [...all.slice(0, -1), { kind: 'text', text: last.text + key.text }];
  }, []);
}

const text = (of: string): Key => ({ kind: 'text', text: of });
const enter: Key = { kind: 'enter' };

describe('what a terminal sends', () => {
  it('is an answer and Enter, though both came at once', () => {
    expect(keys('12.4\r')).toEqual([text('12.4'), enter]);
    expect(keys('1\r12.4\r')).toEqual([text('1'), enter, text('12.4'), enter]);
  });

  it('is one Enter for CR, for LF and for both', () => {
    expect(keys('a\rb\nc\r\nd')).toEqual([text('a'), enter, text('b'), enter, text('c'), enter, text('d')]);
  });

  it('is a backspace by either of its codes', () => {
    expect(keys('\u007F', '\b', '\u001B[3~')).toEqual([
      { kind: 'backspace' },
      { kind: 'backspace' },
      { kind: 'delete' },
    ]);
  });

  it('is the arrows, home and end in both of their forms', () => {
    const kinds = keys('\u001B[D\u001B[C\u001B[H\u001B[F\u001BOD\u001BOC\u001BOH\u001BOF').map(
      ({ kind }) => kind,
    );
    expect(kinds).toEqual(['left', 'right', 'home', 'end', 'left', 'right', 'home', 'end']);
  });

  it('is nothing where it means nothing here: focus, mouse, function keys, Alt', () => {
    expect(
      keys('\u001B[I', '\u001B[<0;10;5M', '\u001B[15~', '\u001BOP', '\u001B[1;5A', '\u001Bx', 'ok'),
    ).toEqual([text('ok')]);
  });

  it('is a key after a lone Escape', () => {
    expect(keys('\u001B', '\u0003')).toEqual([{ kind: 'interrupt' }]);
    expect(keys('\u001B', '\r')).toEqual([enter]);
  });

  it('is a key after a sequence that goes no further: Alt-[ and Enter is Enter, Alt-[ and a letter of no sequence is that letter', () => {
    expect(keys('\u001B[\r')).toEqual([enter]);
    expect(keys('\u001B[', '1;', '\r')).toEqual([enter]);
    expect(keys('\u001BO', '\r')).toEqual([enter]);
    expect(keys('\u001B[é')).toEqual([text('é')]);
  });

  it('ends with Ctrl-C where Ctrl-C was pressed, whatever came before it, a paste that never ended too', () => {
    const anything = fc
      .array(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.constantFrom('\u001B', '\u001B[', '\u001BO', '\u001B[1', '\r', '\u001B[200~', '\u001B[201'),
        ),
      )
      .map((pieces) => pieces.join(''));
    fc.assert(
      fc.property(anything, (typed) => {
        expect(keys(typed, '\u0003').at(-1)).toEqual({ kind: 'interrupt' });
      }),
    );
  });

  it('is a paste on one line, and no Enter in it', () => {
    expect(keys('\u001B[200~12.4\r\n\u001B[31m13.1\n\u001B[201~\r')).toEqual([
      { kind: 'paste', text: '12.4 [31m13.1' },
      enter,
    ]);
  });

  it('is what came of a paste up to Ctrl-C where its end was lost', () => {
    expect(keys('\u001B[200~12.4 V\r', '13', '\u0003')).toEqual([
      { kind: 'paste', text: '12.4 V 13' },
      { kind: 'interrupt' },
    ]);
  });

  it('is no text where it would steer the screen, and Ctrl-Z puts the program aside', () => {
    expect(keys('\u202E12.4\u2069', '\u001A')).toEqual([text('12.4'), { kind: 'suspend' }]);
  });

  it('is the same however it was cut', () => {
    const sent = 'é12\r\u001B[200~pasted\rtext\u001B[201~\u001B[Dx\u001B[1;5A\u001BOHy\u007F\u0003';
    const whole = keys(sent);
    const cuts = fc.uniqueArray(fc.integer({ min: 1, max: sent.length - 1 }));
    fc.assert(
      fc.property(cuts, (at) => {
        const edges = [0, ...at.sort((a, b) => a - b), sent.length];
        expect(keys(...edges.slice(1).map((to, i) => sent.slice(edges[i], to)))).toEqual(whole);
      }),
    );
  });
});
