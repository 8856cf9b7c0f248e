/** The command `reconstruct`: height and speed of a logged flight with their uncertainty, over what the scenario predicts. */
import { basename } from 'node:path';
import { type Answer, ok, refused, together } from '../../../sim/basics/answer.js';
import type { Known } from '../../../sim/reconstruct/known.js';
import type { Prior } from '../../../sim/reconstruct/smoother.js';
import { type Command, type Given, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import { FORCE, JSON_OUT, OUT, QUIET, SEED, SET, STANDARD_SEED } from '../../arguments/options.js';
import { parseQuantityOf } from '../../arguments/quantity.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { parseSeed } from '../../arguments/values.js';
import { deliverEvidence } from '../../outputs/deliver.js';
import { readText } from '../../outputs/outputs.js';
import type { CommandEnd } from '../../terminal/exit-codes.js';
import { createProgress, NO_PROGRESS } from '../../terminal/progress.js';

const LOG = 'The log:';
const text = (describe: string) => ({ group: LOG, describe, type: 'string', requiresArg: true }) as const;

/** How the columns of a log and what is known besides are said; `learn` shares them. */
export const LOG_OPTIONS = {
  time: text('Column of the time, with its unit behind ":" where its name does not say it, as "t:ms"'),
  reading: text('Column of the g-reading (its size, or leave x, y and z to be found), as "acc:m/s^2"'),
  height: text('Column of the barometric height, as "baro:ft"'),
  'ejection-height': text("Known height above ground at ejection, as '720 m' or '720 m +- 10 m'"),
  'air-temperature': text("Air temperature at the ground on the day, as '35 degC': a barometer reads low in warm air"),
  'sensor-offset': text("Distance of the g-meter from the centre of mass, as '20 mm'"),
} as const;

export const reconstruct: Command = {
  name: 'reconstruct',
  argument: { name: 'log', doc: 'Flight log (CSV): time with g-reading, barometric height, or both' },
  summary: 'Height, speed and events of a logged flight, with how sure the log makes them',
  options: {
    scenario: text('Scenario file to take what is known from, and to lay the log over'),
    ...LOG_OPTIONS,
    planned: text("Planned throttle-up height, as '250 m' [standard: the scenario's]"),
    seed: SEED,
    set: SET,
    out: OUT,
    force: FORCE,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin reconstruct log.csv --scenario payload.yaml', 'laid over what the scenario predicts'],
    ["fallmargin reconstruct log.csv --ejection-height '700 m +- 20 m'", 'a g-meter alone'],
    ['fallmargin reconstruct log.csv --time t:ms --height alt:ft', 'columns under other names'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    scenario: givenText(given, 'scenario'),
    overrides: givenOverrides(given),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    planned: givenText(given, 'planned'),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { scenario: file, overrides, seed, planned, out } = request.value;
  const { log: logFile } = given;
  if (typeof logFile !== 'string' || logFile === '')
    return refused('reconstruct needs a log: fallmargin reconstruct log.csv --scenario payload.yaml');

  const scenario = file === undefined ? null : await loadScenario(file, overrides);
  if (scenario?.status === 'refused') return scenario;
  const log = await loadLog(logFile, given);
  if (log.status === 'refused') return log;
  const { knownFrom, NOTHING_KNOWN } = await import('../../../sim/reconstruct/known.js');
  const known = await withOptions(scenario === null ? NOTHING_KNOWN : knownFrom(scenario.value), given);
  if (known.status === 'refused') return known;
  const height = planned === undefined ? ok(null) : await lengthOf('--planned', planned);
  if (height.status === 'refused') return height;
  const plannedHeight = height.value ?? known.value.plannedHeight;

  const { PREDICTED_FLIGHTS, predictFlights } = await import('../../../sim/reconstruct/predict.js');
  const progress =
    scenario === null || givenFlag(given, 'quiet')
      ? NO_PROGRESS
      : createProgress(process.stderr, 'flights to lay the log over');
  let flown = 0;
  const predicted =
    scenario === null || plannedHeight === null
      ? null
      : await predictFlights(scenario.value, seed, plannedHeight, PREDICTED_FLIGHTS, (one) => {
          flown += one;
          progress.update(flown, PREDICTED_FLIGHTS);
        });
  progress.end();
  const { reconstruct: reconstructLog } = await import('../../../sim/reconstruct/reconstruct.js');
  const made = reconstructLog(log.value, { ...known.value, plannedHeight }, predicted);
  if (made.status === 'refused') return made;
  const { reconstructSummary } = await import('./summary.js');
  return deliverEvidence({
    result: made.value,
    base: `${baseOf(logFile)}-flight`,
    out,
    given,
    summary: reconstructSummary,
    page: async (result) => (await import('../../../report/reconstruct/reconstruct.js')).renderReconstruct(result),
  });
}

/** Reads a log with the columns that the command line names. */
export async function loadLog(file: string, given: Given) {
  const names = together({
    time: givenText(given, 'time'),
    reading: givenText(given, 'reading'),
    height: givenText(given, 'height'),
  });
  if (names.status === 'refused') return names;
  const read = await readText(file);
  if (read.status === 'refused') return read;
  const { readLog } = await import('../../../sim/reconstruct/read-log.js');
  const { time = null, reading = null, height = null } = names.value;
  return readLog(read.value, basename(file), { time, reading, height });
}

/** What the command line knows better than the scenario. */
export async function withOptions(known: Known, given: Given): Promise<Answer<Known>> {
  const options = together({
    height: givenText(given, 'ejection-height'),
    offset: givenText(given, 'sensor-offset'),
    air: givenText(given, 'air-temperature'),
  });
  if (options.status === 'refused') return options;
  const { height, offset, air } = options.value;
  const ejection = height === undefined ? ok(known.ejectionHeight) : await heightWithError(height);
  const sensor = offset === undefined ? ok(known.sensorOffset) : await lengthOf('--sensor-offset', offset);
  if (ejection.status === 'refused') return ejection;
  if (sensor.status === 'refused') return sensor;
  const said = { ...known, ejectionHeight: ejection.value, sensorOffset: sensor.value };
  return air === undefined ? ok(said) : withAir(said, air);
}

async function withAir(known: Known, written: string): Promise<Answer<Known>> {
  const { withTemperature } = await import('../../../sim/reconstruct/known.js');
  const air = await parseQuantityOf('--air-temperature', written, 'temperature');
  if (air.status === 'refused') return air;
  const possible = air.value > 220 && air.value < 335;
  return possible
    ? ok(withTemperature(known, air.value))
    : refused(`--air-temperature is "${written}", which no launch site has; expected from -50 to 60 degC.`);
}

async function heightWithError(written: string): Promise<Answer<Prior>> {
  const [value, error] = written.split(/\+-|\u00b1/);
  const mean = await lengthOf('--ejection-height', value);
  if (mean.status === 'refused') return mean;
  if (error === undefined) return ok({ mean: mean.value, sd: 0.03 * mean.value });
  const sd = await lengthOf('--ejection-height', error);
  return sd.status === 'refused' ? sd : ok({ mean: mean.value, sd: Math.max(0.5, sd.value) });
}

async function lengthOf(option: string, written: string): Promise<Answer<number>> {
  const length = await parseQuantityOf(option, written.trim(), 'length');
  return length.status === 'refused' || length.value >= 0
    ? length
    : refused(`${option} is "${written.trim()}", below 0.`);
}
