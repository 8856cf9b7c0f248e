/** Two designs on the same draws: flies both, or takes two earlier results, and says which is safer. */
import { availableParallelism } from 'node:os';
import type { CompareResult } from '../../../sim/compare/result.js';
import { again } from '../../arguments/again.js';
import { type Command, type Given, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import { parseFlights, parseMatters, parseSeed, parseThreads } from '../../arguments/numbers.js';
import {
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
import { ok, type Parsed, refused, together } from '../../arguments/parsed.js';
import { baseOf, loadScenario } from '../../arguments/scenario.js';
import { deliverStudy } from '../../outputs/deliver-study.js';
import { planOutputs, readText } from '../../outputs/outputs.js';
import { EXIT, type ExitCode } from '../../terminal/exit-codes.js';
import { listenForInterrupt } from '../../terminal/interrupt.js';
import { refuse } from '../../terminal/refuse.js';
import { complain } from '../../terminal/streams.js';

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
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin compare configs/burdock-picture.yaml configs/burdock.yaml', 'the demo: is the call-out safer?'],
    ["fallmargin compare payload.yaml payload.yaml --set-b 'can.mass=590 g'", 'one change to one design'],
    ['fallmargin compare before.json after.json', 'two results of assess with the same seed; nothing is flown'],
    ['fallmargin compare old.yaml new.yaml --planned-only --quiet', 'in a script: exit code 1 if the new one is worse'],
  ],
  run,
};

/** Options that say how to fly: no use for results that were flown earlier. */
const FLYING = ['flights', 'seed', 'set', 'set-a', 'set-b', 'planned-only', 'threads'] as const;

async function run(given: Given): Promise<ExitCode> {
  const request = together({
    files: givenFiles(given),
    flights: givenValue(given, 'flights', STANDARD_FLIGHTS, parseFlights),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    matters: givenValue(given, 'matters', STANDARD_MATTERS, parseMatters),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return refuse(...request.messages);
  const { files, flights, seed, matters, threads, out } = request.value;
  const [first, second] = files;
  const earlier = files.filter((file) => file.toLowerCase().endsWith('.json'));
  if (earlier.length === 1)
    return refuse(`"${earlier[0]}" is a result and the other file is none; give two scenario files or two results.`);
  const json = givenFlag(given, 'json');
  const quiet = givenFlag(given, 'quiet');
  const base = out ?? `${baseOf(first)}-and-${baseOf(second)}`;
  const planOut = () => planOutputs(base, json && out === undefined ? [] : ['.html', '.json']);
  const deliver = (result: CompareResult, paths: readonly string[]) => handOver(result, paths, files, given);

  if (earlier.length === 2) {
    const useless = FLYING.filter((name) => given[name] !== undefined);
    if (useless.length > 0)
      return refuse(`--${useless.join(', --')}: two results flown earlier are not flown again; leave it out.`);
    const compared = await compareEarlier(first, second, matters);
    if (compared.status === 'refused') return refuse(...compared.messages);
    const outputs = await planOut();
    return outputs.status === 'refused' ? refuse(...outputs.messages) : deliver(compared.value, outputs.value);
  }

  const overrides = [setsOf(given, 'set-a'), setsOf(given, 'set-b')].map((own) => [...setsOf(given, 'set'), ...own]);
  const scenarios = together({
    a: await loadScenario(first, overrides[0]),
    b: await loadScenario(second, overrides[1]),
  });
  if (scenarios.status === 'refused') return refuse(...new Set(scenarios.messages));
  const outputs = await planOut();
  if (outputs.status === 'refused') return refuse(...outputs.messages);

  const { flyComparison } = await import('./fly.js');
  const interrupt = listenForInterrupt();
  try {
    const { a, b } = scenarios.value;
    const study = await flyComparison(
      { scenario: a, overrides: overrides[0] },
      { scenario: b, overrides: overrides[1] },
      { seed, flights, matters, recommended: !givenFlag(given, 'planned-only') },
      threads,
      quiet,
      interrupt.stop,
    );
    if (study.status === 'refused') return refuse(...study.messages);
    if (study.status === 'nothing flown') {
      complain('Stopped before the first pair was flown; nothing was written.');
      return EXIT.interrupted;
    }
    return await deliver(study.result, outputs.value);
  } finally {
    interrupt.release();
  }
}

function givenFiles({ first, second }: Given): Parsed<readonly [string, string]> {
  if (typeof first === 'string' && first !== '' && typeof second === 'string' && second !== '')
    return ok([first, second]);
  return refused('compare needs two files: fallmargin compare old.yaml new.yaml');
}

function setsOf(given: Given, name: string): readonly string[] {
  const value = given[name];
  return Array.isArray(value) ? value.map(String) : [];
}

async function compareEarlier(first: string, second: string, matters: number): Promise<Parsed<CompareResult>> {
  const { parseResult } = await import('../../../sim/assess/json.js');
  const { compareResults } = await import('../../../sim/compare/saved-results.js');
  const read = async (file: string) => {
    const text = await readText(file);
    if (text.status === 'refused') return text;
    const result = parseResult(text.value);
    return result.status === 'ok' ? result : refused(...result.messages.map((message) => `${file}: ${message}`));
  };
  const results = together({ a: await read(first), b: await read(second) });
  if (results.status === 'refused') return results;
  const compared = compareResults(results.value.a, results.value.b, matters);
  return compared.status === 'ok' ? ok(compared.result) : compared;
}

async function handOver(
  result: CompareResult,
  paths: readonly string[],
  files: readonly string[],
  given: Given,
): Promise<ExitCode> {
  const { compareSummary, compareVerdictLines } = await import('./summary.js');
  const delivered = await deliverStudy({
    result,
    paths,
    json: givenFlag(given, 'json'),
    quiet: givenFlag(given, 'quiet'),
    repeat: again('compare', files, given),
    render: async (one) => (await import('../../../report/compare/render.js')).renderComparison(one),
    summary: compareSummary,
    verdict: compareVerdictLines,
  });
  if (delivered.status === 'refused') return refuse(...delivered.messages);
  if (result.partial) return EXIT.interrupted;
  return result.verdict === 'A safer' ? EXIT.notWithin : EXIT.done;
}
