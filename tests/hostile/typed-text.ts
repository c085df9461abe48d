import type { Drawing } from '../circuit/draws.ts';

/** How many hostile inputs: few in an ordinary run of the tests, as many as DROPWISE_HOSTILE says when it is set. */
export function howMany(ordinary: number): number {
  const asked = Number(process.env['DROPWISE_HOSTILE'] ?? NaN);
  return Number.isInteger(asked) && asked > 0 ? asked : ordinary;
}

const units = [
  'V',
  'mV',
  'VAC',
  'volts',
  'A',
  'mA',
  'ohm',
  'kΩ',
  'M',
  'ft',
  "'",
  '"',
  'm',
  'AWG',
  'mm2',
  'h',
  'min',
];
const words = [
  ...[
    'done',
    'stands',
    'it stands',
    'yes',
    'no',
    'cannot',
    'unknown',
    "I don't know",
    '?',
    '/undo',
    'stop',
    'OL',
    '-OL',
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    'undefined',
    'null',
    'true',
    '[object Object]',
  ],
  ...[
    'NaN',
    'Infinity',
    '-Infinity',
    '1e999',
    '-1e308',
    '0x10',
    '1e-400',
    '١٢٫٤',
    '１３．６',
    '½',
    '12..4',
    '1,2,3',
    '--5',
  ],
  ...[
    '{"answer":"12"}',
    '"; DROP TABLE',
    '../../etc',
    '%s%n',
    '${1+1}',
    '<b>',
    '\\',
    '\u0000',
    '\u001b[31m',
    '\u001b]0;x\u0007',
  ],
  ...['\r\n', '\u2028', '\u202e13.6 V', '\ud800', '👷‍♀️', 'e\u0301', '\u200b', '\ufeff12 V', ' ', '', '\t'],
];

/** A line that somebody, or something, could send in place of an answer. */
export function hostileText(draw: Drawing, likely: readonly string[] = []): string {
  const number = (): string => {
    const value = draw.chance(0.5) ? draw.between(-30, 30) : draw.decades(1e-12, 1e15);
    return draw.one(
      value.toFixed(draw.whole(0, 4)),
      `${value}`,
      value.toExponential(2),
      value.toFixed(2).replace('.', ','),
    );
  };
  const piece = (): string =>
    draw.one(
      number,
      () => draw.one('', ...units),
      () => draw.one('', ...words),
      () => anyText(draw),
    )();
  switch (draw.whole(0, 7)) {
    case 0:
      return number();
    case 1:
      return `${number()} ${draw.one('', ...units)}`;
    case 2:
      return draw.one('', ...words);
    case 3:
      return spoilt(draw, draw.one('', ...likely));
    case 4:
      return draw.one('', ...likely);
    case 5:
      return Array.from({ length: draw.whole(2, 6) }, piece).join(draw.one('', ' ', ', ', '/'));
    case 6:
      return draw.chance(0.02) ? piece().repeat(draw.whole(1, 4000)) : anyText(draw);
    default:
      return spoilt(draw, `${number()} ${draw.one('', ...units)}`);
  }
}

/** A text with one character changed, left out or doubled. */
export function spoilt(draw: Drawing, text: string): string {
  const at = draw.whole(0, Math.max(0, text.length - 1));
  const middle = draw.one('', String.fromCharCode(draw.whole(0, 0x2ff)), text.charAt(at).repeat(2));
  return text.slice(0, at) + middle + text.slice(at + 1);
}

function anyText(draw: Drawing): string {
  const top = draw.one(0x7f, 0x2ff, 0xffff);
  return Array.from({ length: draw.whole(0, 30) }, () => String.fromCharCode(draw.whole(0, top))).join('');
}
