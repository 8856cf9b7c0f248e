/** The command `learn`: what flights say about the inputs that nobody has measured, and the next flight's risk. */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, dirname, relative } from 'node:path';
import { type Answer, ok, refused, together } from '../../../sim/basics/answer.js';
import type { ReconstructResult } from '../../../sim/reconstruct/result.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { type Command, type Given, givenFile, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import { FORCE, JSON_OUT, OUT, QUIET, SEED, SET, STANDARD_SEED, THREADS } from '../../arguments/options.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { parseSeed, parseThreads, parseWhole } from '../../arguments/values.js';
import { deliverEvidence } from '../../outputs/deliver.js';
import { writeWhole } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { untilInterrupted } from '../../terminal/interrupt.js';
import { complain } from '../../terminal/streams.js';
import { withWorkers } from '../../terminal/workers.js';
import { LOG_OPTIONS, loadLog, withOptions } from '../reconstruct/reconstruct.js';

const STANDARD_WORLDS = '2000';
const LOG = 'The logs:';

export const learn: Command = {
  name: 'learn',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'What logged flights say about the unmeasured inputs, and the risk of the next flight',
  options: {
    flight: {
      group: LOG,
      describe: 'A flight log (CSV); may be repeated',
      type: 'string',
      requiresArg: true,
      array: true,
    },
    'flown-in': {
      group: LOG,
      describe: 'Scenario in which the logs were flown, where it is another, as a drop test',
      type: 'string',
      requiresArg: true,
    },
    ...LOG_OPTIONS,
    worlds: {
      group: 'The study:',
      describe: `Plausible worlds to weigh, of 25 flights each; where few fit the logs, up to 4 times half as many follow near them [standard: ${STANDARD_WORLDS}]`,
      type: 'string',
      requiresArg: true,
    },
    seed: SEED,
    set: SET,
    threads: THREADS,
    out: OUT,
    force: FORCE,
    json: JSON_OUT,
    quiet: QUIET,
    into: {
      group: 'Output:',
      describe: 'Writes the scenario after learning to this YAML file, beside the scenario that it extends',
      type: 'string',
      requiresArg: true,
    },
  },
  examples: [
    ['fallmargin learn payload.yaml --flight launch.csv', 'one flight'],
    ['fallmargin learn launch.yaml --flight a.csv --flight b.csv --flown-in drop.yaml', 'drop tests teach the launch'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    file: givenFile(given, 'learn', 'scenario', 'payload.yaml --flight log.csv'),
    flights: flightsOf(given),
    flownIn: givenText(given, 'flown-in'),
    overrides: givenOverrides(given),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    worlds: givenValue(given, 'worlds', STANDARD_WORLDS, (text) => parseWhole('--worlds', text, 100, 100_000, '2000')),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    write: writtenTo(given),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  if (request.value.write !== undefined && existsSync(request.value.write) && !givenFlag(given, 'force'))
    return refused(
      `--into is "${request.value.write}", which is there already and was left as before; choose another name, or overwrite with --force.`,
    );
  const { file, flights: files, flownIn, overrides, seed, worlds, threads, write, out } = request.value;

  const scenario = await loadScenario(file, overrides);
  if (scenario.status === 'refused') return scenario;
  const other = flownIn === undefined ? null : await loadScenario(flownIn, []);
  if (other?.status === 'refused') return other;
  const flown = other === null ? scenario.value : other.value;
  const logs = await reconstructAll(files, flown, given);
  if (logs.status === 'refused') return logs;

  const { learnByFlying } = await import('../../../sim/learn/study.js');
  return untilInterrupted(async (stop) => {
    const request = {
      scenario: scenario.value,
      flownIn: other === null ? null : flown,
      seed,
      worlds,
      logs: logs.value,
      file: write === undefined ? basename(file) : relative(dirname(write), file),
    };
    const workers = { seed, threads, what: 'flights of plausible worlds', quiet: givenFlag(given, 'quiet') };
    const made = await withWorkers(workers, (pool, { update }) =>
      learnByFlying(request, {
        flyers: [pool.flyer(scenario.value), other === null ? null : pool.flyer(flown)],
        onProgress: update,
        stop,
      }),
    );
    if (made.status === 'stopped') {
      complain(
        `Stopped after ${made.worlds} worlds, which weigh as much as ${made.effective.toFixed(1)} equal ones: too few to conclude from. Nothing is kept, nothing was written.`,
      );
      return EXIT.interrupted;
    }
    if (made.status === 'refused') return made;
    if (write !== undefined) {
      const unread = await problemsWith(write, made.value.fragment);
      if (unread.length > 0) return refused(`"${write}" was not written, because it could not be read:`, ...unread);
      const written = await writeWhole(write, [made.value.fragment]);
      if (written.status === 'refused') return written;
      complain(`Written: ${write}`);
    }
    const { learnSummary } = await import('./summary.js');
    const delivered = await deliverEvidence({
      result: made.value,
      base: `${baseOf(file)}-learnt`,
      out,
      given,
      summary: learnSummary,
      page: async (result) => (await import('../../../report/learn/learn.js')).renderLearn(result),
    });
    return delivered === EXIT.done && made.value.partial ? EXIT.interrupted : delivered;
  });
}

function flightsOf(given: Given): Answer<readonly string[]> {
  const files = (Array.isArray(given.flight) ? given.flight : []).map(String);
  if (files.length === 0) return refused('learn needs a log: fallmargin learn payload.yaml --flight log.csv');
  const twice = files.find((file, index) => files.indexOf(file) < index);
  return twice === undefined ? ok(files) : refused(`--flight ${twice} was given twice; one log counts once.`);
}

async function reconstructAll(
  files: readonly string[],
  flown: Scenario,
  given: Given,
): Promise<Answer<readonly ReconstructResult[]>> {
  const { knownFrom } = await import('../../../sim/reconstruct/known.js');
  const { reconstruct } = await import('../../../sim/reconstruct/reconstruct.js');
  const known = await withOptions(knownFrom(flown), given);
  if (known.status === 'refused') return known;
  const results: ReconstructResult[] = [];
  for (const file of files) {
    const log = await loadLog(file, given);
    if (log.status === 'refused') return log;
    const made = reconstruct(log.value, known.value, null);
    if (made.status === 'refused') return made;
    results.push(made.value);
  }
  return ok(results);
}

/** What the reader of scenarios would say of the file. */
async function problemsWith(path: string, text: string): Promise<readonly string[]> {
  const { readScenario } = await import('../../../sim/scenario/file/read.js');
  const { diskFiles } = await import('../../../sim/scenario/file/files.js');
  const read = (name: string) => (name === path ? ok(text) : diskFiles.read(name));
  const made = readScenario(path, [], { ...diskFiles, read });
  return made.status === 'ok' ? [] : made.messages;
}

function writtenTo(given: Given): Answer<string | undefined> {
  const path = givenText(given, 'into');
  if (path.status === 'refused' || path.value === undefined) return path;
  return /\.ya?ml$/i.test(path.value)
    ? path
    : refused(`--into is "${path.value}", but must name a .yaml file beside the scenario.`);
}
