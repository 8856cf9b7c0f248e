/** The command `assess`, the main job: flies the study, writes report and result, prints the verdict. */
import { availableParallelism } from 'node:os';
import type { PartNumber } from '../../../sim/assess/parts/part.js';
import type { AssessOptions } from '../../../sim/assess/plan.js';
import { type Answer, ok, refused, together } from '../../../sim/basics/answer.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { again } from '../../arguments/again.js';
import {
  type Command,
  type Given,
  givenFile,
  givenFlag,
  givenOptional,
  givenText,
  givenValue,
} from '../../arguments/command.js';
import {
  ACCEPTABLE_RISK,
  ASSURANCE,
  CSV_OUT,
  DATE,
  FLIGHTS,
  FORCE,
  HEIGHTS,
  JSON_OUT,
  OUT,
  PART,
  QUIET,
  RESUME,
  SEED,
  SET,
  STANDARD_FLIGHTS,
  STANDARD_SEED,
  THREADS,
  UNTIL,
} from '../../arguments/options.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import {
  parseAssurance,
  parseDate,
  parseFlights,
  parseHalfWidth,
  parseHeights,
  parsePart,
  parseSeed,
  parseThreads,
  STANDARD_HEIGHTS,
} from '../../arguments/values.js';
import { planResultFiles, stemOf } from '../../outputs/deliver.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { untilInterrupted } from '../../terminal/interrupt.js';
import { complain, print } from '../../terminal/streams.js';
import type { Unfinished } from './unfinished.js';

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
    part: PART,
    resume: RESUME,
    threads: THREADS,
    out: OUT,
    force: FORCE,
    date: DATE,
    csv: CSV_OUT,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin assess burdock.yaml', 'the demo of init --example burdock'],
    [
      "fallmargin assess payload.yaml --set 'can.mass=590 g' --out lighter",
      'one change, files lighter.html and lighter.json',
    ],
    ['fallmargin assess payload.yaml --heights 80:300:20 --flights 20000', 'a finer curve'],
    ['fallmargin assess payload.yaml --heights planned --json --quiet', 'the planned height alone, for a script'],
    ['fallmargin assess payload.yaml --until 0.2% --assurance 90%', 'surer of the planned height, and of the guesses'],
    ['fallmargin assess payload.yaml --flights 1e6 --part 3/64', 'one job of 64; then merge payload-*-of-64.part'],
    ['fallmargin assess payload.yaml --resume payload.part', 'goes on after an interrupt'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    file: givenFile(given, 'assess', 'scenario', 'payload.yaml'),
    size: givenSize(given),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    heights: givenValue(given, 'heights', STANDARD_HEIGHTS, parseHeights),
    overrides: givenOverrides(given),
    assurance: givenOptional(given, 'assurance', parseAssurance),
    date: givenOptional(given, 'date', parseDate),
    part: givenPart(given),
    resume: givenText(given, 'resume'),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { file, size, threads, part, resume, out, ...asked } = request.value;

  const scenario = await loadScenario(file, asked.overrides);
  if (scenario.status === 'refused') return scenario;
  const [json, quiet] = [givenFlag(given, 'json'), givenFlag(given, 'quiet')];
  const outputs = part === null ? await planResultFiles(given, out, baseOf(file)) : ok([]);
  if (outputs.status === 'refused') return outputs;
  const options = { ...size, ...asked };
  const { planUnfinished } = await import('./unfinished.js');
  return untilInterrupted(async (stop) => {
    const unfinished = await planUnfinished({
      base: out ?? baseOf(file),
      isWritten: part !== null || outputs.value.length > 0,
      resume,
      study: { scenario: scenario.value, options, part, name: baseOf(file) },
      quiet,
      stop,
    });
    if (unfinished.status === 'refused') return unfinished;
    const flying = { scenario: scenario.value, options, threads, quiet, stop };
    // What goes on replaces what the interrupted study wrote, and the repeated study what it wrote itself.
    const same = outputs.value.length === 0 ? [] : ['--out', stemOf(outputs.value), '--force'];
    const goOn = (path: string) =>
      again('assess', file, same.length === 0 ? given : { ...given, out: undefined }, '--resume', path, ...same);
    if (part !== null) return await flyPartHere({ ...flying, part, unfinished: unfinished.value, goOn });
    const paths = outputs.value;
    return await flyWholeHere({
      ...flying,
      paths,
      json,
      repeat: again('assess', file, given, ...(out === undefined ? [] : ['--force'])),
      unfinished: unfinished.value,
      goOn,
    });
  });
}

interface Flying {
  readonly scenario: Scenario;
  readonly options: AssessOptions;
  readonly threads: number;
  readonly quiet: boolean;
  readonly stop: AbortSignal;
  readonly unfinished: Unfinished;
  /** The command that goes on from a file. */
  readonly goOn: (path: string) => string;
}

async function flyWholeHere(
  flying: Flying & { readonly paths: readonly string[]; readonly json: boolean; readonly repeat: string },
): Promise<CommandEnd> {
  const { scenario, options, threads, quiet, stop, unfinished, goOn, paths, json, repeat } = flying;
  const { flyAssessment } = await import('./fly.js');
  const study = await flyAssessment(scenario, options, threads, quiet, stop, unfinished);
  if (study.status === 'refused') return study;
  if (study.status === 'nothing flown') {
    complain('Stopped before the first flight was flown; nothing was written.');
    return EXIT.interrupted;
  }
  const { deliverAssessment } = await import('./deliver.js');
  const saved = study.value.partial ? unfinished.saved() : null;
  const end = await deliverAssessment(study.value, paths, {
    json,
    quiet,
    repeat,
    goOn: saved === null ? undefined : goOn(saved),
  });
  if (typeof end === 'number' && !study.value.partial) await unfinished.remove();
  return end;
}

async function flyPartHere(flying: Flying & { readonly part: PartNumber }): Promise<CommandEnd> {
  const { scenario, options, part, threads, quiet, stop, unfinished, goOn } = flying;
  const { flyOnePart } = await import('./fly.js');
  const { logbook, pause } = unfinished;
  const flown = await flyOnePart(scenario, options, part, threads, quiet, { stop, logbook, pause });
  if (flown.status === 'refused') return flown;
  const whole = flown.value;
  const saved = whole ? await unfinished.save(true) : null;
  if (saved?.status === 'refused') return saved;
  const { partSummary } = await import('./part-summary.js');
  print(partSummary(part, options, whole, unfinished.saved(), goOn, quiet).join('\n'));
  return whole ? EXIT.done : EXIT.interrupted;
}

/** Which part; a part is not divided where its size is found on the way, and it has no result of its own. */
function givenPart(given: Given): Answer<PartNumber | null> {
  const part = givenOptional(given, 'part', parsePart);
  if (part.status === 'refused') return part;
  if (part.value === undefined) return ok(null);
  if (given.until !== undefined)
    return refused(
      '--until finds the number of flights while it flies, so such a study cannot be divided; with --part write --flights.',
    );
  const views = ['csv', 'json'].filter((name) => givenFlag(given, name));
  return views.length === 0
    ? ok(part.value)
    : refused(`--part writes its part file alone; give --${views.join(' and --')} to \`merge\`.`);
}

/** How many flights: a number, or the width that finds it. */
function givenSize(given: Given): Answer<{ readonly flights: number; readonly until: number | undefined }> {
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
