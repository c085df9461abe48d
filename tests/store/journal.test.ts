import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createJournal, saveRecord } from '../../src/store/journal.ts';
import { reopenJournal } from '../../src/store/reopen.ts';
import { readJournal } from '../../src/store/read.ts';
import { listSessions } from '../../src/store/sessions.ts';
import { ended, noon, noted, started } from './events.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dropwise-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A closed session of these events, and the path of its journal. */
function session(...events: (typeof started)[]): { id: string; path: string } {
  const journal = createJournal(folder, noon);
  events.forEach((event) => journal.append(event));
  journal.close();
  return journal;
}

describe('a session being written', () => {
  it('has each event on disk, with its moment, before append returns', () => {
    const journal = createJournal(folder, noon);
    journal.append(started);
    expect(readJournal(journal.path).events).toEqual([{ ...started, at: '2026-03-04T12:00:00.000Z' }]);
    journal.append(noted);
    expect(readJournal(journal.path).events).toHaveLength(2);
    journal.close();
  });

  it('is named after the second it began, and two of one second sort in the order they began', () => {
    const ids = [session(started), session(started), session(started)].map(({ id }) => id);
    expect(ids).toEqual(['20260304-120000', '20260304-120000-02', '20260304-120000-03']);
    expect([...ids].sort()).toEqual(ids);
  });

  it('leaves nothing behind when nothing happened in it', () => {
    session();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('leaves its journal, its record and no lock', () => {
    const journal = createJournal(folder, noon);
    journal.append(started);
    expect(readFileSync(saveRecord(journal, 'Remade the joint.'), 'utf8')).toBe('Remade the joint.\n');
    journal.close();
    expect(readdirSync(folder).sort()).toEqual([`${journal.id}.jsonl`, `${journal.id}.txt`]);
  });

  it('says what to do when the folder cannot be written', () => {
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    expect(() => createJournal(join(file, 'sessions'), noon)).toThrow(/cannot be kept.*DROPWISE_HOME/);
  });
});

describe('going on with a session', () => {
  it('adds to what is there', () => {
    const { id, path } = session(started, noted);
    const { journal, events, notices } = reopenJournal(folder, id, noon);
    journal.append({ event: 'resumed' });
    journal.close();
    expect(events.map(({ event }) => event)).toEqual(['started', 'noted']);
    expect(notices).toEqual([]);
    expect(readJournal(path).events.map(({ event }) => event)).toEqual(['started', 'noted', 'resumed']);
  });

  it.each(['{"event":"not', '{"event":"noted","text":"2.2 kΩ', 'x'])(
    'takes away a last line cut off as %s',
    (cut) => {
      const { id, path } = session(started, noted);
      appendFileSync(path, cut);
      const { journal, notices } = reopenJournal(folder, id, noon);
      journal.append(ended);
      journal.close();
      expect(notices.join()).toContain('was cut off');
      expect(readJournal(path)).toMatchObject({ notices: [], events: [started, noted, ended] });
    },
  );

  it('ends a last line that lost only its line end', () => {
    const { id, path } = session(started, noted);
    writeFileSync(path, readFileSync(path, 'utf8').trimEnd());
    const { journal } = reopenJournal(folder, id, noon);
    journal.append(ended);
    journal.close();
    expect(readJournal(path).events).toHaveLength(3);
  });

  it('says where to look when there is no such session', () => {
    expect(() => reopenJournal(folder, '20200101-000000', noon)).toThrow(/dropwise sessions/);
  });
});

describe('reading a journal', () => {
  it('refuses one of a higher version with a sentence, though it knows none of its events', () => {
    const path = join(folder, 'x.jsonl');
    writeFileSync(path, '{"event":"started","version":2,"colour":"new"}\n{"event":"sung"}\n');
    expect(() => readJournal(path)).toThrow(/newer Dropwise \(journal version 2; this one reads up to 1\)/);
  });

  it.each(['{"event":"sung"}', '{"event":', '7'])('names the line of %s between good ones', (bad) => {
    const { path } = session(started, noted, ended);
    const lines = readFileSync(path, 'utf8').split('\n');
    writeFileSync(path, [...lines.slice(0, 2), bad, ...lines.slice(2)].join('\n'));
    expect(() => readJournal(path)).toThrow(/line 3: .* delete line 3 and all after it/);
  });

  it.each([
    ['', /empty/],
    ['{"event":"sta', /empty/],
    ['{"hello":1}\n', /not a session/],
    ['PK\u0003\u0004\n', /not a session/],
  ])('refuses %j', (text, what) => {
    const path = join(folder, 'x.jsonl');
    writeFileSync(path, text);
    expect(() => readJournal(path)).toThrow(what);
  });

  it('refuses a file that is not there by its name', () => {
    expect(() => readJournal(join(folder, 'gone.jsonl'))).toThrow(
      /There is no session or file .*gone\.jsonl\..* dropwise sessions$/,
    );
  });
});

describe('the list of sessions', () => {
  it('has the newest first, with what became of each', () => {
    const first = session(started, ended);
    const second = session(started, noted);
    expect(listSessions(folder)).toMatchObject([
      { id: second.id, flow: 'dead-keypad', began: '2026-03-04T12:00:00.000Z', ending: undefined },
      { id: first.id, ending: 'stopped' },
    ]);
  });

  it('has a spoilt journal in it, with what is wrong', () => {
    const { id, path } = session(started, ended);
    writeFileSync(path, 'spoilt\n');
    session(started);
    expect(listSessions(folder)[1]).toMatchObject({ id, problem: expect.stringContaining('not a session') });
  });

  it('is empty where no session was ever begun', () => {
    expect(listSessions(join(folder, 'nowhere'))).toEqual([]);
    expect(existsSync(join(folder, 'nowhere'))).toBe(false);
  });
});
