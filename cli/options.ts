/** Options that several commands share: one definition, one wording. */
import type { Options } from 'yargs';

const STUDY = 'The study:';
const OUTPUT = 'Output:';

const text = (group: string, describe: string): Options => ({ group, describe, type: 'string', requiresArg: true });
const flag = (group: string, describe: string): Options => ({ group, describe, type: 'boolean' });

export const STANDARD_FLIGHTS = '8000';
export const STANDARD_SEED = '1';

export const FLIGHTS = text(STUDY, `Flights at each height [standard: ${STANDARD_FLIGHTS}]`);
export const SEED = text(STUDY, `Any text; the same seed flies the same flights [standard: ${STANDARD_SEED}]`);
export const HEIGHTS = text(
  STUDY,
  'Throttle-up heights in metres: 80,120,200 or 80:300:20 or planned [standard: about ten around the planned one]',
);
export const ACCEPTABLE_RISK = text(STUDY, 'Instead of the scenario\'s limit: "5 %" or 0.05');
export const SET: Options = {
  ...text(STUDY, "Changes one entry of the scenario, as --set 'can.mass=590 g'; may be repeated"),
  array: true,
};
export const THREADS = text(STUDY, 'Worker threads; the result does not depend on it [standard: one for each core]');

export const OUT = text(OUTPUT, 'Names the files to write: BASE.html and so on');
export const JSON_OUT = flag(OUTPUT, 'Result as JSON to stdout; files only where --out names them');
export const CSV_OUT = flag(OUTPUT, 'Also writes BASE.csv with one row for each flight');
export const QUIET = flag(OUTPUT, 'No progress; prints the verdict alone');
export const FORCE = flag(OUTPUT, 'Overwrites the file where there is one');
export const OUT_HTML = text(OUTPUT, 'Names the file to write, BASE.html [standard: as the result]');
export const OUT_CSV = text(OUTPUT, 'Names the file to write, BASE.csv [standard: scenario and flight]');
export const JSON_CHECK = flag(OUTPUT, 'Resolved scenario and hand calculation as JSON to stdout');
export const FLIGHT = text(STUDY, 'Which one: explore:17@250, 17 (at the planned height) or nominal');
