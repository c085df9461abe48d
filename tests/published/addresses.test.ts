import { describe, expect, it } from 'vitest';
import { told } from '../signals/classified.ts';

/** First and last address of a block, and the neighbours outside it. */
type Ends = readonly [id: string, first: string, last: string, before: string, after: string, source: string];

describe('blocks of addresses, at both ends and just outside', () => {
  it.each<Ends>([
    ['private', '10.0.0.0', '10.255.255.255', '9.255.255.255', '11.0.0.0', 'RFC 1918, section 3'],
    ['private', '172.16.0.0', '172.31.255.255', '172.15.255.255', '172.32.0.0', 'RFC 1918, section 3'],
    ['private', '192.168.0.0', '192.168.255.255', '192.167.255.255', '192.169.0.0', 'RFC 1918, section 3'],
    ['shared', '100.64.0.0', '100.127.255.255', '100.63.255.255', '100.128.0.0', 'RFC 6598, section 7'],
    [
      'self-assigned',
      '169.254.0.0',
      '169.254.255.255',
      '169.253.255.255',
      '169.255.0.0',
      'RFC 3927, section 2.1',
    ],
    ['reserved', '192.0.2.0', '192.0.2.255', '192.0.1.255', '192.0.3.0', 'RFC 5737, section 3'],
    ['reserved', '198.51.100.0', '198.51.100.255', '198.51.99.255', '198.51.101.0', 'RFC 5737, section 3'],
    ['reserved', '203.0.113.0', '203.0.113.255', '203.0.112.255', '203.0.114.0', 'RFC 5737, section 3'],
    ['reserved', '198.18.0.0', '198.19.255.255', '198.17.255.255', '198.20.0.0', 'RFC 2544, appendix C.2.2'],
    ['reserved', '127.0.0.0', '127.255.255.255', '126.255.255.255', '128.0.0.0', 'RFC 1122, section 3.2.1.3'],
  ])('%s: %s to %s, and neither %s nor %s (%s, from memory)', (id, first, last, before, after) => {
    expect(told('address', first)).toBe(`${id}: ${first}`);
    expect(told('address', last)).toBe(`${id}: ${last}`);
    expect(told('address', before)).toBe(`public: ${before}`);
    expect(told('address', after)).toBe(`public: ${after}`);
  });

  it('multicast and all above it are reserved (RFC 5771, section 3; RFC 1112, section 4; from memory)', () => {
    expect(told('address', '223.255.255.255')).toBe('public: 223.255.255.255');
    expect(told('address', '224.0.0.0')).toBe('reserved: 224.0.0.0');
    expect(told('address', '239.255.255.255')).toBe('reserved: 239.255.255.255');
    expect(told('address', '240.0.0.1')).toBe('reserved: 240.0.0.1');
  });

  it('two units on a line of two have no broadcast (RFC 3021, from memory)', () => {
    expect(told('address', '10.0.0.0 /31 gw 10.0.0.1')).toMatch(/^private/);
    expect(told('address', '10.0.0.0 /30 gw 10.0.0.1')).toMatch(/^network-or-broadcast/);
  });
});

describe('EUI-48', () => {
  it.each(['00-00-5E-00-53-00', '00-00-5E-00-53-FF'])(
    '%s is kept for documents (RFC 7042, section 2.1.2, from memory)',
    (id) => {
      expect(told('unit-id', id)).toBe(`eui-48: ${id}`);
    },
  );

  it('the lowest bit of the first octet marks a group: 01-00-5E-90-10-00 is no unit (IEEE Guidelines for Use of EUI, OUI and CID; the block from RFC 7042, from memory)', () => {
    expect(told('unit-id', '01-00-5E-90-10-00')).toMatch(
      /^problem: 01-00-5E-90-10-00 is the address of a group/,
    );
  });

  it('the bit above it is set where the address was given locally (IEEE Guidelines for Use of EUI, OUI and CID)', () => {
    expect(told('unit-id', '02-00-5E-00-53-00')).toBe('eui-48: 02-00-5E-00-53-00');
  });
});
