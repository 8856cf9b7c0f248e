/**
 * Every entry that a scenario file may hold, in the order of a mission. This is the one definition: the reader of
 * scenario files, the JSON Schema, the starter file, the input table of the report and the type of one flight's
 * inputs all come from it. Names here, in the file and in the code are the same, so that one search finds an input
 * from the file to its equation.
 */
import { battery, pad } from './sections/battery.js';
import { can } from './sections/can.js';
import { arms, ejection } from './sections/ejection.js';
import { parachute } from './sections/parachute.js';
import { pilot } from './sections/pilot.js';
import { criteria, plan } from './sections/plan.js';
import { link, video } from './sections/radio.js';
import { rotors } from './sections/rotors.js';
import { site, wind } from './sections/site.js';
import { stabiliser } from './sections/stabiliser.js';
import { choice, type FlightValue, quantity, section, text } from './shapes.js';

export const SCENARIO = section('One payload, one site, one plan: everything a simulated flight needs to know.', {
  title: text('Name of the scenario, shown on every page of the report.'),
  about: text('What this scenario is, in a sentence or two.', ''),
  invented: choice(
    'Whether the numbers are invented for demonstration; the report says so when they are.',
    { yes: 'invented for demonstration', no: 'a real payload' },
    'no',
  ),
  plan,
  criteria,
  site,
  wind,
  can,
  rotors,
  battery,
  pad,
  ejection,
  arms,
  stabiliser,
  pilot,
  link,
  video,
  parachute,
  time_limit: quantity('time', 'A flight still in the air after this time counts as crashed.', {
    unit: 's',
    least: '10 s',
    most: '3600 s',
    standard: '600 s',
    fixed: true,
  }),
});

/** All inputs of one flight: SI numbers, events that happen, choices; null where an optional part is left out. */
export type FlightInputs = FlightValue<typeof SCENARIO>;
