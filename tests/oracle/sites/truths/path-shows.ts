import { either, mostly, type Shows } from './truth.ts';

export const cable: Shows = {
  'paths-fitted': either('cable', 'cable-cellular', 'all'),
  'path-that-is-down': 'cable',
  'path-now': 'down',
  'path-test': 'no',
};
export const wifi: Shows = {
  'paths-fitted': either('wifi', 'wifi-cellular', 'all'),
  'path-that-is-down': 'wifi',
  'path-now': 'down',
  'path-test': 'no',
};
export const cellular: Shows = {
  'paths-fitted': either('cellular', 'cable-cellular', 'wifi-cellular', 'all'),
  'path-that-is-down': 'cellular',
  'path-now': 'down',
  'path-test': 'no',
};
export const poor: Shows = {
  ...cellular,
  'path-now': either('comes-and-goes', 'down'),
  'unit-says-of-path': mostly('low-level', 'no-network'),
  'cell-level': mostly('weak', 'none'),
  'cell-registration': either('registered', 'searching'),
  'service-says-of-path': mostly('poor', 'no-reason'),
};

export const noAddress: Shows = {
  'down-since': either('since-change', 'never-up'),
  'unit-says-of-path': mostly('no-address', 'no-reason'),
  'unit-address': either('none', 'self-assigned'),
  'number-and-name': 'nothing',
  'others-on-network': either('yes', 'some'),
  'addresses-given': mostly('none-to-give', 'not-listed'),
  'name-server-set': mostly('none', 'answers'),
  'other-port': either('no-network', 'opens'),
  'address-set-by': 'router',
  'service-says-of-path': either('no-reason', 'never'),
};
export const gatewayOutside: Shows = {
  'down-since': either('never-up', 'since-change'),
  'unit-says-of-path': mostly('no-answer', 'no-name', 'no-reason'),
  'unit-address': mostly('gateway-outside', 'gateway-missing', 'own-gateway', 'private'),
  'number-and-name': mostly('nothing', 'router-only'),
  'other-network': 'stays-down',
  'address-set-by': mostly('by-hand-elsewhere', 'by-hand'),
  'service-says-of-path': either('never', 'no-reason'),
};
const noNames: Shows = {
  'down-since': either('since-change', 'never-up'),
  'unit-says-of-path': mostly('no-name', 'no-reason'),
  'number-and-name': 'number-only',
  'name-server-set': mostly('old', 'none'),
  'service-says-of-path': either('no-reason', 'never'),
};
/** The router's own name server is dead: every device lacks names. */
export const noNamesForAll: Shows = {
  ...noNames,
  'other-device-on-cable': 'no-names',
  'phone-on-wifi': 'no-internet',
  'others-on-network': mostly('no', 'some'),
  'other-port': 'no-name',
  'address-set-by': 'router',
};
/** The unit was given a name server by hand. */
export const noNamesByHand: Shows = {
  ...noNames,
  'other-network': 'stays-down',
  'address-set-by': 'by-hand-elsewhere',
};
export const blocked: Shows = {
  'down-since': either('never-up', 'since-change'),
  'unit-says-of-path': mostly('no-answer', 'no-reason'),
  'number-and-name': mostly('everything', 'router-only'),
  'outgoing-filter': 'filtered',
  'other-port': 'no-answer',
  'service-says-of-path': mostly('never', 'no-reason'),
};
export const internetOut: Shows = {
  'down-since': mostly('suddenly', 'now-and-then'),
  'unit-says-of-path': mostly('no-answer', 'no-name'),
  'other-device-on-cable': 'no-internet',
  'phone-on-wifi': 'no-internet',
  'number-and-name': 'router-only',
  'others-on-network': 'no',
  'other-port': either('no-network', 'no-name', 'no-answer'),
  'router-internet-lamp': 'trouble',
  'service-says-of-path': 'no-reason',
};
export const withoutMains: Shows = {
  'path-now': 'up',
  'path-test': 'yes',
  'down-since': 'without-mains',
  'unit-says-of-path': 'no-reason',
  'service-says-of-path': mostly('with-mains', 'up'),
  'troubles-with-mains': mostly('each', 'some'),
  'router-feed': mostly('nothing', 'part'),
};

export const retired: readonly Shows[] = [
  {
    'network-for-unit': 'shut-down',
    'network-notice': 'given',
    'down-since': 'suddenly',
    'coverage-here': 'good',
  },
  {
    'network-for-unit': 'shut-down',
    'network-notice': 'given',
    'down-since': 'suddenly',
    'coverage-here': 'none',
  },
  { 'network-for-unit': 'other-region', 'network-notice': 'other-region', 'down-since': 'never-up' },
];
