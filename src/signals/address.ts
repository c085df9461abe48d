import { blockOf, dotted, maskOf } from './ipv4.ts';
import { instead, readSettings, type Settings } from './ipv4-settings.ts';
import { type Classified, refuse, tidyEntry } from './classified.ts';

/** What an address turns out to be, in the order in which it is judged. */
export const addressClasses = [
  'none',
  'reserved',
  'self-assigned',
  'own-gateway',
  'network-or-broadcast',
  'gateway-missing',
  'gateway-outside',
  'private',
  'shared',
  'public',
] as const;
type AddressClass = (typeof addressClasses)[number];

/**
 * An IPv4 address, alone or with mask and gateway in one line as people type them: "192.168.1.40 /24 gw 192.168.1.1".
 * An address alone is judged by its range only; a mask without a gateway, or the reverse, is asked again. Never throws.
 */
export function classifyAddress(text: string): Classified<AddressClass> {
  const typed = tidyEntry(text)?.toLowerCase();
  if (typed === undefined) return refuse(`That is too long. ${instead}`);
  if (typed === '') return refuse(`Nothing was typed. ${instead}`);
  if (noAddress.test(typed)) return none('no address');
  if (allZero.test(typed)) return none('0.0.0.0');
  if (/[\da-f]*:[\da-f]*:[\da-f:]*/.test(typed)) {
    return refuse(`That looks like IPv6 or a unit id, and I need the IPv4 address. ${instead}`);
  }
  const settings = readSettings(typed);
  return typeof settings === 'string' ? refuse(settings) : judge(settings);
}

const noAddress =
  /^(?:(?:there is |it has )?(?:none|no|nothing|blank|empty|no ip(?: address)?|no address|not (?:set|assigned)|unassigned|-+))[.!]?$/;

/** Address, mask and gateway, as a unit shows them that has none of the three. */
const allZero = /^(?:(?:ip|address|addr)[ :=]*)?0\.0\.0\.0(?:[a-z:=,/ ]+0\.0\.0\.0)+$/;

function none(understood: string): Classified<AddressClass> {
  return { ok: true, class: 'none', understood, says: 'The unit has no address.' };
}

function judge({ own, prefix, gateway }: Settings): Classified<AddressClass> {
  const mask = prefix === undefined ? '' : `, mask ${dotted(maskOf(prefix))} (/${prefix})`;
  const via =
    gateway === undefined ? '' : `, ${gateway === null ? 'no gateway' : `gateway ${dotted(gateway)}`}`;
  const understood = `${dotted(own)}${mask}${via}`;
  const is = (id: AddressClass, says: string): Classified<AddressClass> => ({
    ok: true,
    class: id,
    understood,
    says,
  });
  if (own === 0) return none(understood);
  const { kind, words } = blockOf(own);
  if (kind === 'reserved') return is(kind, `${capital(words)}. No unit can use it here.`);
  if (kind === 'self-assigned')
    return is(kind, `${capital(words)}. It reaches nothing beyond its own cable.`);
  if (gateway === own)
    return is('own-gateway', 'Address and gateway are the same. The gateway has to be another device.');
  if (prefix !== undefined && isEnd(own, prefix))
    return is('network-or-broadcast', endWords('The address', own, prefix));
  if (gateway === null)
    return is('gateway-missing', 'Without a gateway the unit reaches only its own network.');
  if (prefix !== undefined && gateway === undefined) {
    return refuse(`I read ${understood}, and no gateway. Type it too, like gw 192.168.1.1, or gw none.`);
  }
  if (gateway !== undefined) {
    if (prefix === undefined)
      return refuse(`I read ${understood}, and no mask. Type it too, like /24 or 255.255.255.0.`);
    const net = (number: number): number => Math.floor(number / 2 ** (32 - prefix));
    if (net(gateway) !== net(own)) {
      const [low, high] = [net(own) * 2 ** (32 - prefix), (net(own) + 1) * 2 ** (32 - prefix) - 1];
      return is(
        'gateway-outside',
        `The network goes from ${dotted(low)} to ${dotted(high)}. The gateway is outside it.`,
      );
    }
    if (isEnd(gateway, prefix)) return is('network-or-broadcast', endWords('The gateway', gateway, prefix));
  }
  const rest =
    gateway === undefined ? 'Mask and gateway were not given.' : 'The gateway is in the same network.';
  return is(kind, `${capital(words)}. ${rest}`);
}

/** First or last of its network; a network of two has neither (RFC 3021). */
function isEnd(address: number, prefix: number): boolean {
  const size = 2 ** (32 - prefix);
  return size > 2 && (address % size === 0 || address % size === size - 1);
}

function endWords(what: string, address: number, prefix: number): string {
  const which = address % 2 === 0 ? 'names the network itself' : 'is the broadcast of its network';
  return `${what} ${which}, with a mask of /${prefix}. No device may have it.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
