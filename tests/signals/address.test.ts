import fc from 'fast-check';
import { isIPv4, BlockList } from 'node:net';
import { describe, expect, test } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { dotted, isMask, maskOf, prefixOf } from '../../src/signals/ipv4.ts';
import { refused, taken } from './classified.ts';

describe('an address as people type it', () => {
  const whole = '192.168.1.40, mask 255.255.255.0 (/24), gateway 192.168.1.1';
  taken('address', [
    ['192.168.1.40 /24 gw 192.168.1.1', 'private', whole],
    ['192.168.1.40/24 192.168.1.1', 'private', whole],
    ['192.168.1.40 / 24 via 192.168.1.1', 'private', whole],
    ['192.168.1.40 255.255.255.0 192.168.1.1', 'private', whole],
    ['192.168.1.40/255.255.255.0/192.168.1.1', 'private', whole],
    ['IP: 192.168.1.40, Subnet Mask: 255.255.255.0, Default Gateway: 192.168.1.1', 'private', whole],
    ['gateway 192.168.1.1 mask 24 address 192.168.1.40 dns 192.168.1.1 192.168.1.2', 'private', whole],
    ['192.168.001.040 255.255.255.000 192.168.001.001', 'private', whole],
    ['\uFF11\uFF19\uFF12.168.1.40\u00A0/24\tgw 192.168.1.1.', 'private', whole],
    ['192.168.1.40', 'private', '192.168.1.40'],
    ['none', 'none', 'no address'],
    ['not assigned', 'none', 'no address'],
    ['0.0.0.0', 'none', '0.0.0.0'],
    ['0.0.0.0 0.0.0.0 0.0.0.0', 'none', '0.0.0.0'],
  ]);
});

describe('settings that cannot work', () => {
  taken('address', [
    [
      '192.168.1.40 /24 gw 192.168.2.1',
      'gateway-outside',
      '192.168.1.40, mask 255.255.255.0 (/24), gateway 192.168.2.1',
    ],
    [
      '10.4.0.9 255.255.255.252 10.4.0.13',
      'gateway-outside',
      '10.4.0.9, mask 255.255.255.252 (/30), gateway 10.4.0.13',
    ],
    ['192.168.1.40 /24 gw none', 'gateway-missing', '192.168.1.40, mask 255.255.255.0 (/24), no gateway'],
    ['192.168.1.40 /24 no gateway', 'gateway-missing', '192.168.1.40, mask 255.255.255.0 (/24), no gateway'],
    ['192.168.1.40 /24 gw 0.0.0.0', 'gateway-missing', '192.168.1.40, mask 255.255.255.0 (/24), no gateway'],
    ['192.168.1.1 gw 192.168.1.1', 'own-gateway', '192.168.1.1, gateway 192.168.1.1'],
    ['10.0.0.0 /8 gw 10.0.0.1', 'network-or-broadcast', '10.0.0.0, mask 255.0.0.0 (/8), gateway 10.0.0.1'],
    [
      '172.16.3.63 /26 gw 172.16.3.1',
      'network-or-broadcast',
      '172.16.3.63, mask 255.255.255.192 (/26), gateway 172.16.3.1',
    ],
    [
      '192.168.1.40 /24 gw 192.168.1.255',
      'network-or-broadcast',
      '192.168.1.40, mask 255.255.255.0 (/24), gateway 192.168.1.255',
    ],
  ]);

  test('the range that the gateway should be in is told', () => {
    expect(classify('address', '10.4.0.9 /30 gw 10.4.0.13')).toMatchObject({
      says: 'The network goes from 10.4.0.8 to 10.4.0.11. The gateway is outside it.',
    });
  });
});

describe('what could be meant in two ways', () => {
  refused('address', [
    ['192.168.1.40 /24', /no gateway/],
    ['192.168.1.40 gw 192.168.1.1', /no mask/],
    ['192.168.1', /four numbers/],
    ['192.168.1.1.1', /four numbers/],
    ['192.168.1.400', /"400" in "192.168.1.400" is more than 255/],
    ['192.168.1.040', /zero in front/],
    ['192.168.1.40 255.0.255.0 192.168.1.1', /not a mask/],
    ['192.168.1.40 /33 gw 192.168.1.1', /1 to 32 bits/],
    ['192.168.1.40 192.168.1.1 192.168.1.2', /two of the same/],
    ['gw 192.168.1.1', /no address/],
    ['fe80::1', /IPv6/],
    ['the box', /"box"/],
    ['', /Nothing was typed/],
    ['1'.repeat(2000), /too long/],
  ]);
});

const address = fc.nat(0xffffffff);

test('every address is read as it is written, as the network library of Node reads it', () => {
  fc.assert(
    fc.property(address, (number) => {
      // From 255 on, a number alone is a mask and no address.
      fc.pre(number < 0xff000000);
      expect(isIPv4(dotted(number))).toBe(true);
      const found = classify('address', dotted(number));
      expect(found).toMatchObject({ ok: true, understood: dotted(number) });
    }),
  );
});

test('a gateway is outside exactly where the network library of Node says so', () => {
  const row = fc.record({
    own: address,
    prefix: fc.integer({ min: 1, max: 32 }),
    near: fc.nat(0xffffffff),
    bits: fc.nat(32),
  });
  fc.assert(
    fc.property(row, ({ own, prefix, near, bits }) => {
      const size = 2 ** bits;
      const gateway = Math.floor(own / size) * size + (near % size);
      fc.pre(gateway !== 0 && gateway !== own);
      const found = classify('address', `${dotted(own)} /${prefix} gw ${dotted(gateway)}`);
      fc.pre(
        found.ok && !['none', 'reserved', 'self-assigned', 'network-or-broadcast'].includes(found.class),
      );
      const list = new BlockList();
      list.addSubnet(dotted(own), prefix);
      expect(found.ok && found.class === 'gateway-outside').toBe(!list.check(dotted(gateway)));
    }),
    { numRuns: 500 },
  );
});

test('a mask and its bits say the same, and nothing else is a mask', () => {
  const masks = Array.from({ length: 32 }, (_, i) => maskOf(i + 1));
  expect(masks.map((mask) => prefixOf(mask))).toEqual(Array.from({ length: 32 }, (_, i) => i + 1));
  expect(masks.every(isMask)).toBe(true);
  fc.assert(
    fc.property(address, (number) => {
      expect(isMask(number)).toBe(masks.includes(number));
    }),
  );
});
