import { PassThrough, Writable } from 'node:stream';

/** An output that is remembered. */
export function paper(): Writable & { text(): string } {
  const written: string[] = [];
  const output = new Writable({
    write(chunk, _encoding, done) {
      written.push(String(chunk));
      done();
    },
  });
  return Object.assign(output, { text: () => written.join('') });
}

/** An input that already has all its chunks, and then ends. */
export function piped(...chunks: (string | Buffer)[]): PassThrough {
  const input = new PassThrough();
  chunks.forEach((chunk) => input.write(chunk));
  input.end();
  return input;
}

/** An output whose reader has gone. */
export function gone(): Writable {
  return new Writable({
    write(_chunk, _encoding, done) {
      done(Object.assign(new Error('write EPIPE'), { code: 'EPIPE' }));
    },
  });
}
