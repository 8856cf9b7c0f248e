/** Options that several commands share, each defined and worded once. */

import type { Options } from 'yargs';
import type { InputPath } from '../../sim/scenario/definition/paths.js';

const STUDY = 'The study:';
const OUTPUT = 'Output:';

const text = (group: string, describe: string): Options => ({ group, describe, type: 'string', requiresArg: true });
const flag = (group: string, describe: string): Options => ({ group, describe, type: 'boolean' });

export const STANDARD_FLIGHTS = '8000';
export const STANDARD_SEED = '1';

export const FLIGHTS = text(STUDY, `Flights at each height [standard: ${STANDARD_FLIGHTS}]`);
export const UNTIL = text(
  STUDY,
  'Instead of --flights: as many as bring the risk at the planned height to +-W, such as 0.5%. The width stops it, never the verdict: flying on until exit 0 is no evidence',
);
export const SEED = text(STUDY, `Any text; the same seed flies the same flights [standard: ${STANDARD_SEED}]`);
export const HEIGHTS = text(
  STUDY,
  'Throttle-up heights in metres: 80,120,200 or 80:300:20 or planned [standard: searched for the lowest that serves]',
);
export const ACCEPTABLE_RISK = text(STUDY, 'Instead of the scenario\'s limit: "5 %" or 0.05');
export const ASSURANCE = text(
  STUDY,
  'Exit code 0 only if the planned height is within the limit in this share of the plausible worlds, such as 90%',
);
export const SET: Options = {
  ...text(STUDY, "Changes one entry of the scenario, as --set 'can.mass=590 g'; may be repeated"),
  array: true,
};
const repeated = (describe: string): Options => ({ ...text(STUDY, describe), array: true });
export const SET_BOTH = repeated("Changes one entry of both, as --set 'can.mass=590 g'; may be repeated");
export const SET_A = repeated('The same, of the first alone');
export const SET_B = repeated('The same, of the second alone; both files may be the same');
export const STANDARD_MATTERS = '0.5 %';
export const MATTERS = text(STUDY, `Difference of the risks that matters [standard: ${STANDARD_MATTERS}]`);
export const PLANNED_ONLY = flag(STUDY, 'Leaves out the comparison at the aims: over half of the time');
export const PAIRS = text(STUDY, `Pairs of flights at the planned heights [standard: ${STANDARD_FLIGHTS}]`);
export const STANDARD_CARD_FLIGHTS = '2000';
export const CARD_FLIGHTS = text(STUDY, `Flights at a height in a cell [standard: ${STANDARD_CARD_FLIGHTS}]`);
export const STANDARD_ROWS = 'wind.speed' satisfies InputPath;
export const STANDARD_COLUMNS = 'pad.wait' satisfies InputPath;
export const ROWS = text(
  STUDY,
  `Input of the rows and its values: 'wind.speed=2 m/s,4 m/s,6 m/s'; the name alone for six round ones [standard: ${STANDARD_ROWS}]`,
);
export const COLUMNS = text(STUDY, `The same for the columns, five values [standard: ${STANDARD_COLUMNS}]`);
export const CARD_HEIGHTS = text(
  STUDY,
  'Throttle-up heights to choose from in metres: 80:300:10 or 80,120,200 [standard: steps of 10 from a quarter to twice the planned one]',
);
export const THREADS = text(STUDY, 'Worker threads; the result does not depend on it [standard: one for each core]');

export const PART = text(
  STUDY,
  'Flies one part of the study, such as 3/64, and writes BASE-3-of-64.part alone; `merge` puts all parts together',
);
export const RESUME = text(
  STUDY,
  'Goes on from the file of an interrupted study or part (BASE.part): flies what is missing, to the same bytes',
);

export const OUT = text(OUTPUT, 'Names the files to write: BASE.html and so on');
export const JSON_OUT = flag(OUTPUT, 'Result as JSON to stdout; files only where --out names them');
export const CSV_OUT = flag(OUTPUT, 'Also writes BASE.csv with one row for each flight');
export const QUIET = flag(OUTPUT, 'No progress; prints the answer alone');
export const DATE = text(OUTPUT, 'Written into result and report as it stands: "1 May, before the flight"');
export const EXAMPLE = text(
  STUDY,
  'Instead of a scenario to fill in a demo, all invented: burdock, burdock-picture, teasel ...',
);
export const HEIGHT = text(STUDY, 'The throttle-up height that you plan, in metres [left to decide]');
export const DECIDED_RISK = text(STUDY, 'The acceptable risk that you agreed on, as "4 %" [left to decide]');
export const FORCE = flag(OUTPUT, 'Overwrites files that are there already');
export const OUT_HTML = text(OUTPUT, 'Names the file to write, BASE.html [standard: as the result]');
export const OUT_TRACE = text(
  OUTPUT,
  'Names the files to write: BASE.html, BASE.json, BASE.csv [standard: scenario and flight]',
);
export const JSON_CHECK = flag(OUTPUT, 'Resolved scenario and hand calculation as JSON to stdout');
export const JSON_INPUTS = flag(OUTPUT, 'The inputs as JSON to stdout');
export const FLIGHT = text(STUDY, 'Which one: explore:17@250, 17 (at the planned height) or nominal');
