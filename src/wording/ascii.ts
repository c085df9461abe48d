/** Text in the characters that every terminal has: accents go, signs become words or what is nearest. */
export function asciiText(text: string): string {
  return text
    .replace(/[^ -~]/gu, (sign) => signs[sign] ?? sign)
    .normalize('NFKD')
    .replace(/\p{Mn}/gu, '')
    .replace(/[^ -~]/gu, '?');
}

const signs: Readonly<Record<string, string>> = {
  '…': '...',
  '→': '->',
  '←': '<-',
  Ω: 'ohm',
  µ: 'u',
  μ: 'u',
  '°': ' degrees ',
  '²': '2',
  '×': 'x',
  '·': '-',
  '–': '-',
  '—': '-',
  '−': '-',
  '±': '+-',
  '≤': '<=',
  '≥': '>=',
  '‘': "'",
  '’': "'",
  '“': '"',
  '”': '"',
};
