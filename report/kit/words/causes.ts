/** What each cause of a failed flight means, in one sentence a newcomer can follow. */
import type { Cause } from '../../../sim/flight/record.js';

const MEANINGS: Readonly<Record<Cause, string>> = {
  none: 'Landed softly.',
  'ejection damage': 'The shock of the ejection exceeded what the payload withstands.',
  'arm release': 'The common release failed and no arm opened.',
  'arm shut': 'At least one arm stayed shut.',
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
  return MEANINGS[cause as Cause] ?? '';
}
