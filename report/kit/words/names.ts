/** The names that a result has for causes and quantities are said here as people say them. */
import type { Cause } from '../../../sim/flight/record.js';
import type { QuantityName } from '../../../sim/reconstruct/result.js';

/** What each cause of a failed flight means, in one sentence that a newcomer can follow. */
const CAUSE_MEANINGS: Readonly<Record<Cause, string>> = {
  none: 'Landed softly.',
  'ejection damage': 'The shock of the ejection exceeded what the payload withstands.',
  'arm release': 'The common release failed and no arm opened.',
  'arm shut': 'At least one arm stayed shut.',
  'arm held': 'An arm was not open when the motors started: friction or the stream held it.',
  'rotor dead': 'At least one rotor did not run.',
  'not armed': 'The arming guard kept the motors off.',
  'no picture': 'The video sender shut down and the pilot had nothing to go by.',
  'battery empty': 'The pack fell under its cut-off voltage and the motors stopped.',
  'height judged': 'The height was read or judged too high, so the order came too late.',
  reaction: 'The reaction to the cue was too slow.',
  lapse: 'Attention was elsewhere when the cue came.',
  outage: 'The radio was out when it mattered.',
  stabilising: 'Getting upright took too long.',
  'thrust loss': 'The rotors lost too much thrust in their own wash (vortex ring state) or in the thin, warm air.',
  'wind and touchdown': 'Stopped in time, but touched down too fast or too tilted in wind and gusts.',
  'several together': 'No single cause: curing any one of them alone would not have saved the flight.',
  'not sought': 'The cause was not looked for.',
};

export function meaningOfCause(cause: string): string {
  return CAUSE_MEANINGS[cause as Cause] ?? '';
}

/** Quantities of a logged flight. */
const QUANTITY_WORDS: Readonly<Record<QuantityName, string>> = {
  throttle_up_time: 'throttle-up after ejection',
  throttle_up_height: 'height of throttle-up',
  height_below_plan: 'throttle-up below the planned height',
  delay: 'delay from the planned height to throttle-up',
  speed_at_throttle_up: 'fall speed at throttle-up',
  mean_fall_speed: 'mean fall speed, ejection to throttle-up',
  stopping_height: 'stopping height',
  stopping_time: 'stopping time',
  touchdown_time: 'touchdown after ejection',
  touchdown_speed: 'vertical touchdown speed',
  peak_reading: 'largest reading in flight',
};

export function quantityWords(name: QuantityName): string {
  return QUANTITY_WORDS[name];
}
