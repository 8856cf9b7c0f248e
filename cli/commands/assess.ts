/** The main job: flies the study, writes report and result, prints the verdict. */
import { availableParallelism } from 'node:os';
import { parseHeights, STANDARD_HEIGHTS } from '../arguments/heights.js';
import {
  parseAssurance,
  parseDate,
  parseFlights,
  parseHalfWidth,
  parseSeed,
  parseThreads,
} from '../arguments/numbers.js';
import { givenOverrides } from '../arguments/overrides.js';
import { type Command, type Given, givenFile, givenFlag, givenOptional, givenText, givenValue } from '../command.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { listenForInterrupt } from '../interrupt.js';
import {
  ACCEPTABLE_RISK,
  ASSURANCE,
  CSV_OUT,
  DATE,
  FLIGHTS,
  HEIGHTS,
  JSON_OUT,
  OUT,
  QUIET,
  SEED,
  SET,
  STANDARD_FLIGHTS,
  STANDARD_SEED,
  THREADS,
  UNTIL,
} from '../options.js';
import { type Extension, planOutputs } from '../outputs.js';
import { type Parsed, refused, together } from '../parsed.js';
import { refuse } from '../refuse.js';
import { baseOf, loadScenario } from '../scenario.js';
import { complain } from '../terminal/streams.js';

export const assess: Command = {
  name: 'assess',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'Flies thousands of descents and writes the report: how low, how sure, what goes wrong',
  options: {
    flights: FLIGHTS,
    until: UNTIL,
    seed: SEED,
    heights: HEIGHTS,
    'acceptable-risk': ACCEPTABLE_RISK,
    assurance: ASSURANCE,
    set: SET,
    threads: THREADS,
    out: OUT,
    date: DATE,
    csv: CSV_OUT,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin assess configs/burdock.yaml', 'the demo'],
    [
      "fallmargin assess payload.yaml --set 'can.mass=590 g' --out lighter",
      'one change, files lighter.html and lighter.json',
    ],
    ['fallmargin assess payload.yaml --heights 80:300:20 --flights 20000', 'a finer curve'],
    ['fallmargin assess payload.yaml --heights planned --json --quiet', 'the planned height alone, for a script'],
    ['fallmargin assess payload.yaml --until 0.2% --assurance 90%', 'surer of the planned height, and of the guesses'],
  ],
  run,
};

async function run(given: Given): Promise<ExitCode> {
  const request = together({
    file: givenFile(given, 'assess', 'scenario', 'payload.yaml'),
    size: givenSize(given),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    heights: givenValue(given, 'heights', STANDARD_HEIGHTS, parseHeights),
    overrides: givenOverrides(given),
    assurance: givenOptional(given, 'assurance', parseAssurance),
    date: givenOptional(given, 'date', parseDate),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return refuse(...request.messages);
  const { file, size, seed, threads, heights, overrides, assurance, date, out } = request.value;

  const scenario = await loadScenario(file, overrides);
  if (scenario.status === 'refused') return refuse(...scenario.messages);
  const json = givenFlag(given, 'json');
  const base = out ?? baseOf(file);
  const extensions: readonly Extension[] = givenFlag(given, 'csv') ? ['.html', '.json', '.csv'] : ['.html', '.json'];
  const outputs = await planOutputs(base, json && out === undefined ? [] : extensions);
  if (outputs.status === 'refused') return refuse(...outputs.messages);

  const { flyAssessment } = await import('../fly-assessment.js');
  const interrupt = listenForInterrupt();
  try {
    const options = { ...size, seed, heights, overrides, assurance, date };
    const study = await flyAssessment(scenario.value, options, threads, givenFlag(given, 'quiet'), interrupt.stop);
    if (study.status === 'refused') return refuse(...study.messages);
    if (study.status === 'nothing flown') {
      complain('Stopped before the first flight was flown; nothing was written.');
      return EXIT.interrupted;
    }
    const { deliver } = await import('../deliver.js');
    return await deliver(study.result, outputs.value, { json, quiet: givenFlag(given, 'quiet'), file, given });
  } finally {
    interrupt.release();
  }
}

/** How many flights: a number, or the width that finds it. */
function givenSize(given: Given): Parsed<{ readonly flights: number; readonly until: number | undefined }> {
  const { flights, until } = given;
  if (typeof flights === 'string' && typeof until === 'string')
    return refused(
      `--until ${until} finds the number of flights itself, but --flights ${flights} was given too; write one of them.`,
    );
  return together({
    flights: givenValue(given, 'flights', STANDARD_FLIGHTS, parseFlights),
    until: givenOptional(given, 'until', parseHalfWidth),
  });
}
