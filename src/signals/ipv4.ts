/** What a range of addresses is for. */
export interface Block {
  readonly kind: 'reserved' | 'self-assigned' | 'private' | 'shared' | 'public';
  readonly words: string;
}

/** The special range that an address (0 to 2^32 - 1) is in, by the registry of RFC 6890; public where it is in none. */
export function blockOf(address: number): Block {
  const found = blocks.find(([base, prefix]) => {
    const size = 2 ** (32 - prefix);
    return Math.floor(address / size) === Math.floor(parse(base) / size);
  });
  return found ? found[2] : { kind: 'public', words: 'a public address' };
}

/** An address as four numbers with points. */
export function dotted(address: number): string {
  return [24, 16, 8, 0].map((shift) => Math.floor(address / 2 ** shift) % 256).join('.');
}

/** The mask of a prefix length, 0 to 32 bits. */
export function maskOf(prefix: number): number {
  return 2 ** 32 - 2 ** (32 - prefix);
}

/** Whether the ones of a number stand together at its top, and there is at least one. */
export function isMask(number: number): boolean {
  return number > 0 && maskOf(prefixOf(number)) === number;
}

/** The bits of a mask. */
export function prefixOf(mask: number): number {
  return 32 - Math.ceil(Math.log2(2 ** 32 - mask));
}

function parse(base: string): number {
  return base.split('.').reduce((sum, octet) => sum * 256 + Number(octet), 0);
}

const reserved = (words: string): Block => ({ kind: 'reserved', words });
const privateNetwork: Block = { kind: 'private', words: 'an address of a private network (RFC 1918)' };

/** The narrower range stands before the wider. */
const blocks: readonly (readonly [base: string, prefix: number, block: Block])[] = [
  ['0.0.0.0', 8, reserved('this address stands for "this network"')], // RFC 791
  ['10.0.0.0', 8, privateNetwork], // RFC 1918
  ['172.16.0.0', 12, privateNetwork], // RFC 1918
  ['192.168.0.0', 16, privateNetwork], // RFC 1918
  [
    '100.64.0.0',
    10,
    { kind: 'shared', words: 'an address that a carrier shares out (RFC 6598): nothing outside can call in' },
  ], // RFC 6598
  ['127.0.0.0', 8, reserved('a loopback address, which never leaves the unit')], // RFC 1122
  [
    '169.254.0.0',
    16,
    { kind: 'self-assigned', words: 'no server gave an address, so the unit gave itself one (RFC 3927)' },
  ], // RFC 3927
  ['192.0.0.0', 24, reserved('an address set aside for protocols')], // RFC 6890
  ['192.0.2.0', 24, reserved('an address for examples in documents')], // RFC 5737
  ['198.51.100.0', 24, reserved('an address for examples in documents')], // RFC 5737
  ['203.0.113.0', 24, reserved('an address for examples in documents')], // RFC 5737
  ['198.18.0.0', 15, reserved('an address for tests of network gear')], // RFC 2544
  ['224.0.0.0', 4, reserved('a multicast address, which belongs to a group')], // RFC 5771
  ['255.255.255.255', 32, reserved('the broadcast to every device')], // RFC 919
  ['240.0.0.0', 4, reserved('an address kept for the future')], // RFC 1112
];
