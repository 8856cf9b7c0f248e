/** The command `compare`: flies two designs on the same draws, or takes two earlier results, and says which is safer. */
import { availableParallelism } from 'node:os';
import { type Answer, ok, prefixed, refused, together } from '../../../sim/basics/answer.js';
import type { ComparePart } from '../../../sim/compare/compare.js';
import type { CompareResult } from '../../../sim/compare/result.js';
import { again } from '../../arguments/again.js';
import { type Command, type Given, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import {
  FORCE,
  JSON_OUT,
  MATTERS,
  OUT,
  PAIRS,
  PLANNED_ONLY,
  QUIET,
  SEED,
  SET_A,
  SET_B,
  SET_BOTH,
  STANDARD_FLIGHTS,
  STANDARD_MATTERS,
  STANDARD_SEED,
  THREADS,
} from '../../arguments/options.js';
import { baseOf, loadScenario } from '../../arguments/scenario.js';
import { parseFlights, parseMatters, parseSeed, parseThreads } from '../../arguments/values.js';
import { deliver, planResultFiles } from '../../outputs/deliver.js';
import { readText } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT, type ExitCode } from '../../terminal/exit-codes.js';
import { untilInterrupted } from '../../terminal/interrupt.js';
import { labelled } from '../../terminal/layout.js';
import { complain } from '../../terminal/streams.js';
import { withWorkers } from '../../terminal/workers.js';

export const compare: Command = {
  name: 'compare',
  argument: { name: 'first', doc: 'A: scenario file (YAML), or a result that assess wrote (JSON)' },
  secondArgument: { name: 'second', doc: 'B: the same kind of file' },
  summary: 'Flies two designs on the same draws: which is safer, by how much, how sure',
  options: {
    flights: PAIRS,
    seed: SEED,
    matters: MATTERS,
    set: SET_BOTH,
    'set-a': SET_A,
    'set-b': SET_B,
    'planned-only': PLANNED_ONLY,
    threads: THREADS,
    out: OUT,
    force: FORCE,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin compare burdock-picture.yaml burdock.yaml', 'demos of init --example: is the call-out safer?'],
    ["fallmargin compare payload.yaml payload.yaml --set-b 'can.mass=590 g'", 'one change to one design'],
    ['fallmargin compare before.json after.json', 'two results of assess with the same seed; nothing is flown'],
    ['fallmargin compare old.yaml new.yaml --planned-only --quiet', 'in a script: exit code 0 if the new one will do'],
  ],
  run,
};

/** Options that say how to fly: no use for results that were flown earlier. */
const FLYING = ['flights', 'seed', 'set', 'set-a', 'set-b', 'planned-only', 'threads'] as const;

/** The parts of a comparison, as the progress names them. */
const PHASES: Readonly<Record<ComparePart, string>> = {
  planned: 'planned heights',
  'search for A': 'aim of A',
  'search for B': 'aim of B',
  aims: 'each at its aim',
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    files: givenFiles(given),
    flights: givenValue(given, 'flights', STANDARD_FLIGHTS, parseFlights),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    matters: givenValue(given, 'matters', STANDARD_MATTERS, parseMatters),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { files, flights, seed, matters, threads, out } = request.value;
  const [first, second] = files;
  const earlier = files.filter((file) => file.toLowerCase().endsWith('.json'));
  if (earlier.length === 1)
    return refused(`"${earlier[0]}" is a result and the other file is none; give two scenario files or two results.`);
  const planOut = () => planResultFiles(given, out, `${baseOf(first)}-and-${baseOf(second)}`);
  const finish = (result: CompareResult, paths: readonly string[]) => handOver(result, paths, files, given);

  if (earlier.length === 2) {
    const useless = FLYING.filter((name) => given[name] !== undefined);
    if (useless.length > 0)
      return refused(`--${useless.join(', --')}: two results flown earlier are not flown again; leave it out.`);
    const compared = await compareEarlier(first, second, matters);
    if (compared.status === 'refused') return compared;
    const outputs = await planOut();
    return outputs.status === 'refused' ? outputs : finish(compared.value, outputs.value);
  }

  const overrides = [setsOf(given, 'set-a'), setsOf(given, 'set-b')].map((own) => [...setsOf(given, 'set'), ...own]);
  const scenarios = together({
    a: await loadScenario(first, overrides[0]),
    b: await loadScenario(second, overrides[1]),
  });
  if (scenarios.status === 'refused') return refused(...new Set(scenarios.messages));
  const outputs = await planOut();
  if (outputs.status === 'refused') return outputs;

  const { planCompare } = await import('../../../sim/compare/plan.js');
  const { compareDesigns } = await import('../../../sim/compare/compare.js');
  const { criteriaOf } = await import('../../../sim/decision/criteria.js');
  const { a, b } = scenarios.value;
  const options = { seed, flights, matters, aims: !givenFlag(given, 'planned-only') };
  const planned = planCompare(a, b, options);
  if (planned.status === 'refused') return planned;
  return untilInterrupted(async (stop) => {
    const workers = { seed, threads, what: 'flights', quiet: givenFlag(given, 'quiet') };
    const study = await withWorkers(workers, (pool, progress) =>
      compareDesigns(
        { scenario: a, overrides: overrides[0], flyer: pool.flyer(a), criteria: criteriaOf(a) },
        { scenario: b, overrides: overrides[1], flyer: pool.flyer(b), criteria: criteriaOf(b) },
        options,
        {
          onProgress: (part, flown, total) => progress.update(flown, total, PHASES[part]),
          stop,
        },
      ),
    );
    if (study.status === 'refused') return study;
    if (study.status === 'nothing flown') {
      complain('Stopped before the first pair was flown; nothing was written.');
      return EXIT.interrupted;
    }
    return await finish(study.value, outputs.value);
  });
}

function givenFiles({ first, second }: Given): Answer<readonly [string, string]> {
  if (typeof first === 'string' && first !== '' && typeof second === 'string' && second !== '')
    return ok([first, second]);
  return refused('compare needs two files: fallmargin compare old.yaml new.yaml');
}

function setsOf(given: Given, name: string): readonly string[] {
  const value = given[name];
  return Array.isArray(value) ? value.map(String) : [];
}

async function compareEarlier(first: string, second: string, matters: number): Promise<Answer<CompareResult>> {
  const { parseResult } = await import('../../../sim/assess/json.js');
  const { compareResults } = await import('../../../sim/compare/saved-results.js');
  const read = async (file: string) => {
    const text = await readText(file);
    if (text.status === 'refused') return text;
    return prefixed(`${file}: `, parseResult(text.value));
  };
  const results = together({ a: await read(first), b: await read(second) });
  if (results.status === 'refused') return results;
  return compareResults(results.value.a, results.value.b, matters);
}

async function handOver(
  result: CompareResult,
  paths: readonly string[],
  files: readonly string[],
  given: Given,
): Promise<CommandEnd> {
  const { compareSummary, compareVerdictLines } = await import('./summary.js');
  const { hazardLines } = await import('../../terminal/warnings.js');
  const delivered = await deliver({
    result,
    paths,
    json: givenFlag(given, 'json'),
    page: async (one) => (await import('../../../report/compare/compare.js')).renderComparison(one),
    lines: (one, paint, written) =>
      givenFlag(given, 'quiet')
        ? [...compareVerdictLines(one, paint), ...hazardLines(one.warnings, paint)]
        : [
            ...compareSummary(one, paint),
            ...written,
            ...labelled('Again:', again('compare', files, given, ...(given.out === undefined ? [] : ['--force']))),
          ],
  });
  if (delivered.status === 'refused') return delivered;
  return compareExit(result);
}

/** Whether B may take the place of A: it is not shown to be worse, and is shown to keep every limit of its own. */
export function compareExit({ partial, verdict, b }: CompareResult): ExitCode {
  if (partial) return EXIT.interrupted;
  return verdict !== 'A safer' && b.overall === 'within' ? EXIT.done : EXIT.notWithin;
}
