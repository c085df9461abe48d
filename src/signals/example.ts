import { classesOf, type Classifier } from './classify.ts';

/**
 * Text that a classifier takes as one of its classes, and for `other` as one that is not `among` them. Ids are invented,
 * addresses come from blocks set apart for private use and for examples. Throws RangeError where there is none.
 */
export function exampleOf(classifier: Classifier, id: string, among: readonly string[]): string {
  const known: Readonly<Record<string, string>> = examples[classifier];
  const other = classesOf[classifier].find((each) => !among.includes(each) && each in known);
  const text = known[id] ?? (id === 'other' ? known[other ?? ''] : undefined);
  if (text === undefined) throw new RangeError(`no example of "${id}" for the classifier "${classifier}"`);
  return text;
}

const examples: Readonly<Record<Classifier, Readonly<Record<string, string>>>> = {
  address: {
    none: 'none',
    reserved: '127.0.0.1',
    'self-assigned': '169.254.40.7 /16',
    'own-gateway': '192.168.4.1 /24 gw 192.168.4.1',
    'network-or-broadcast': '192.168.4.255 /24 gw 192.168.4.1',
    'gateway-missing': '192.168.4.60 /24 gw none',
    'gateway-outside': '192.168.4.60 /24 gw 192.168.7.1',
    private: '192.168.4.60 /24 gw 192.168.4.1',
    shared: '100.64.3.9 /24 gw 100.64.3.1',
  },
  level: { unknown: 'CSQ 99', none: 'no signal', weak: '-98 dBm', fair: 'CSQ 12', good: 'CSQ 22' },
  'unit-id': {
    'eui-48': '02-00-5E-00-53-07',
    plain: '4K7R-3396',
    'look-alike': '4K70-3398',
    'too-short': '4K7',
  },
  'id-pair': {
    same: '4K7R-3396 / 4K7R-3396',
    'look-alike': '4K70-3396 / 4K7O-3396',
    slip: '4K7R-3396 / 4K7R-3936',
    'other-id': '4K7R-3396 / 2QXM-7716',
  },
  message: {
    good: '1234 18 1131 01 015 8',
    'test-report': '1234 18 1602 00 000',
    'power-trouble': '1234 18 1301 00 000',
    'communication-trouble': '1234 18 1350 00 000',
    trouble: '1234 18 1380 01 015',
    'trouble-restored': '1234 18 3301 00 000',
    'bad-checksum': '1234 18 1131 01 015 9',
    'bad-structure': '1234 18 2131 01 015 8',
  },
};
