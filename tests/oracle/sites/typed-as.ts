/** What a person types where each class of each classifier is seen. Invented, or from the blocks that standards keep for examples. */
const typed: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  address: {
    none: 'none',
    reserved: '127.0.0.1',
    'self-assigned': '169.254.17.3 /16',
    'own-gateway': '192.168.1.1 /24 gw 192.168.1.1',
    'network-or-broadcast': '192.168.1.255 /24 gw 192.168.1.1',
    'gateway-missing': '192.168.1.40 /24 gw none',
    'gateway-outside': '192.168.1.40 /24 gw 192.168.2.1',
    private: '192.168.1.40 /24 gw 192.168.1.1',
    shared: '100.64.8.20 /24 gw 100.64.8.1',
    other: '100.64.8.20 /24 gw 100.64.8.1',
    // Given back and used by nobody (RFC 7526).
    public: '192.88.99.20 /24 gw 192.88.99.1',
  },
  level: { unknown: 'CSQ 99', none: 'no signal', weak: '-97 dBm', fair: 'CSQ 12', good: 'RSRP -95' },
  'unit-id': {
    'eui-48': '02-00-5E-00-53-01',
    plain: '7F2K-4493',
    'look-alike': '7F20-4498',
    'too-short': '7F2',
  },
  'id-pair': {
    same: '7F2K-4493 / 7F2K-4493',
    'look-alike': '7F20-4493 / 7F2O-4493',
    slip: 'printed 7F2K-4493, entered 7F2K-4943',
    'other-id': '7F2K-4493 / 2QXM-7716',
  },
  message: {
    good: '1234 18 1131 01 015 8',
    'test-report': '1234 18 1602 00 000',
    'power-trouble': '1234 18 1301 00 000',
    'communication-trouble': '1234 18 1350 00 000',
    trouble: '1234 18 1380 01 015',
    'trouble-restored': '1234 18 3301 00 000',
    other: '1234 18 1380 01 015',
    'bad-checksum': '1234 18 1131 01 015 9',
    'bad-structure': '1234 18 2131 01 015 8',
  },
};

/** Text that the classifier takes as this class. Throws RangeError for a class that nobody has typed yet. */
export function typedAs(classifier: string, id: string): string {
  const text = typed[classifier]?.[id];
  if (text === undefined)
    throw new RangeError(`nothing is typed for "${id}" of the classifier "${classifier}"`);
  return text;
}
