import { quote } from '../quantities/typed-text.ts';
import { isMask, maskOf, prefixOf } from './ipv4.ts';

/** Addresses and prefix length of a unit as given; undefined where nothing was said, `gateway` null where it was said to have none. */
export interface Settings {
  readonly own: number;
  readonly prefix: number | undefined;
  readonly gateway: number | null | undefined;
}

/** The settings in a line, or a sentence that says what could not be read. */
export function readSettings(line: string): Settings | string {
  const given: { own?: number; mask?: number; gateway?: number } = {};
  let role: Role | undefined;
  for (const token of tokensOf(line)) {
    const named = roleNamed(token);
    if (named) role = named;
    else if (role === 'gateway' && noGateway.includes(token)) [given.gateway, role] = [0, undefined];
    else if (!fillers.includes(token) && role !== 'dns') {
      const value = valueOf(token, role);
      if (typeof value === 'string') return value;
      const place: 'own' | 'mask' | 'gateway' = value.mask
        ? 'mask'
        : (role ?? (given.own === undefined ? 'own' : 'gateway'));
      if (given[place] !== undefined) return `I read two of the same in ${quote(line)}. ${instead}`;
      given[place] = value.number;
      if (!value.bare) role = undefined;
    }
  }
  const { own, mask } = given;
  const gateway = given.gateway === 0 ? null : given.gateway;
  if (own === undefined) return `I see no address in ${quote(line)}. ${instead}`;
  return { own, gateway, prefix: mask === undefined ? undefined : prefixOf(mask) };
}

/** The second sentence of most refusals. */
export const instead = 'Type address, mask and gateway, like 192.168.1.40 /24 gw 192.168.1.1.';

type Role = 'own' | 'mask' | 'gateway' | 'dns';

const roles: Readonly<Record<Role, readonly string[]>> = {
  own: ['ip', 'ipv4', 'address', 'addr', 'unit'],
  mask: ['mask', 'netmask', 'subnet', 'prefix'],
  gateway: ['gw', 'gateway', 'router', 'via'],
  dns: ['dns'],
};
const fillers = ['default', 'static', 'fixed', 'dhcp', 'auto', 'and', 'is', 'the', 'with', 'it', 'server'];
const noGateway = ['none', 'no', 'blank', 'empty', 'missing', '-', '--'];

function roleNamed(token: string): Role | undefined {
  return (['own', 'mask', 'gateway', 'dns'] as const).find((role) => roles[role].includes(token));
}

function tokensOf(line: string): string[] {
  return line
    .replace(/\b(?:no|without) (?:default )?(?:gw|gateway|router)\b/g, 'gw none')
    .replace(/[=:,;()]+/g, ' ')
    .replace(/\/ */g, ' /')
    .split(' ')
    .map((token) => token.replace(/\.+$/, ''))
    .filter((token) => token !== '');
}

/** `bare`: a prefix behind its slash, which leaves the name before it to what follows. */
type Value = { number: number; mask: boolean; bare: boolean };

function valueOf(token: string, role: Role | undefined): Value | string {
  const prefix = /^(\/?)(\d{1,3})$/.exec(token);
  if (prefix && (prefix[1] === '/' || role === 'mask')) {
    const bits = Number(prefix[2]);
    if (bits < 1 || bits > 32)
      return `A mask has 1 to 32 bits, not ${bits}. Type it like /24 or 255.255.255.0.`;
    return { number: maskOf(bits), mask: true, bare: role !== 'mask' };
  }
  const quad = token.replace(/^\//, '');
  if (!/^\d+(?:\.\d+){3}$/.test(quad)) {
    return /^[\d.]+$/.test(quad)
      ? `An address has four numbers with points between, and ${quote(token)} has not. ${instead}`
      : `I do not understand ${quote(token)}. ${instead}`;
  }
  const octets = quad.split('.');
  const large = octets.find((octet) => Number(octet) > 255);
  if (large !== undefined)
    return `${quote(large)} in ${quote(quad)} is more than 255. Read the address again and type it.`;
  // Displays pad every number to three digits; one alone with a zero in front would be octal to some programs.
  if (octets.some((octet) => /^0\d/.test(octet)) && !octets.every((octet) => octet.length === 3)) {
    return `${quote(quad)} has a zero in front of a number. Type the numbers without it, like 192.168.1.40.`;
  }
  const number = octets.reduce((sum, octet) => sum * 256 + Number(octet), 0);
  const mask = role === 'mask' || (role === undefined && number >= 0xff000000 && number !== 0xffffffff);
  if (mask && !isMask(number))
    return `${quad} is not a mask: its ones must stand together. Type it like 255.255.255.0.`;
  return { number, mask, bare: false };
}
