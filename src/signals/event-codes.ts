type Kind =
  'good' | 'test-report' | 'power-trouble' | 'communication-trouble' | 'trouble' | 'trouble-restored';

/** What an event code (three digits) with its qualifier (1, 3 or 6) says about the health of the installation. */
export function kindOf(event: string, qualifier: string): Kind {
  if (['601', '602', '603', '608'].includes(event)) return 'test-report';
  const isTrouble = event.startsWith('3') || event === '551' || event === '552';
  if (!isTrouble) return 'good';
  if (qualifier === '3') return 'trouble-restored';
  if (['301', '302', '309', '311', '312', '337', '338', '342', '384'].includes(event)) return 'power-trouble';
  return event.startsWith('35') || event.startsWith('55') ? 'communication-trouble' : 'trouble';
}

/** An event code in words, and whether the number behind it is a user. A code that is not in the list gets its group's words. */
export function eventWords(event: string): { readonly words: string; readonly user: boolean } {
  const own = events[event];
  const group = groups[event.charAt(0)] ?? 'an event';
  return { words: own ?? `${group} (code ${event})`, user: event.startsWith('4') || event === '607' };
}

/** 1 is a new event or an opening, 3 a restore or a closing, 6 a condition reported before (ANSI/SIA DC-05). */
export function qualifierWords(qualifier: string, event: string): string {
  const opens = event.startsWith('4');
  if (qualifier === '1') return opens ? 'an opening' : 'new';
  if (qualifier === '3') return opens ? 'a closing' : 'a restore';
  return 'still so since an earlier report';
}

/** Hundreds of the code list of ANSI/SIA DC-05, from memory. */
const groups: Readonly<Record<string, string>> = {
  1: 'an alarm',
  2: 'a supervisory signal',
  3: 'a trouble',
  4: 'opening, closing or access',
  5: 'a bypass or something switched off',
  6: 'a test or something else',
};

/** Codes of ANSI/SIA DC-05 as tabled in public code, in our words; 131 and 401 from its examples. */
const events: Readonly<Record<string, string>> = {
  131: 'perimeter burglary alarm',
  301: 'mains lost',
  302: 'battery low',
  305: 'system reset',
  308: 'system shut down',
  309: 'battery test failed',
  310: 'ground fault',
  311: 'battery missing or dead',
  312: 'supply over current',
  320: 'sounder or relay trouble',
  321: 'bell 1 trouble',
  322: 'bell 2 trouble',
  330: 'peripheral trouble',
  331: 'addressable loop open',
  332: 'addressable loop shorted',
  333: 'expansion module failed',
  337: 'expansion module lost DC',
  338: 'expansion module battery low',
  339: 'expansion module reset',
  342: 'expansion module lost mains',
  350: 'communication trouble',
  351: 'telephone line 1 trouble',
  352: 'telephone line 2 trouble',
  353: 'radio transmitter fault',
  354: 'an event could not be reported',
  355: 'radio supervision lost',
  356: 'polling by the station lost',
  357: 'antenna mismatch on the radio path',
  370: 'protection loop trouble',
  371: 'protection loop open',
  372: 'protection loop shorted',
  373: 'fire loop trouble',
  380: 'sensor trouble',
  381: 'a wireless sensor is not heard',
  384: 'battery of a wireless sensor low',
  401: 'armed or disarmed by a user',
  551: 'dialler switched off',
  552: 'radio transmitter switched off',
  601: 'test sent by hand',
  602: 'periodic test',
  603: 'periodic radio test',
  607: 'walk test',
  608: 'periodic test, with a trouble present',
  627: 'programming begun',
  628: 'programming ended',
};
