/** The command `limits`: makes the day card, the lowest acceptable throttle-up height for two inputs of the day. */
import { availableParallelism } from 'node:os';
import { ok, together } from '../../../sim/basics/answer.js';
import type { LimitsResult } from '../../../sim/limits/result.js';
import { again } from '../../arguments/again.js';
import { type Command, type Given, givenFile, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import {
  ACCEPTABLE_RISK,
  CARD_FLIGHTS,
  CARD_HEIGHTS,
  COLUMNS,
  FORCE,
  JSON_OUT,
  OUT,
  QUIET,
  ROWS,
  SEED,
  SET,
  STANDARD_CARD_FLIGHTS,
  STANDARD_COLUMNS,
  STANDARD_ROWS,
  STANDARD_SEED,
  THREADS,
} from '../../arguments/options.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { parseFlights, parseHeights, parseSeed, parseThreads, STANDARD_HEIGHTS } from '../../arguments/values.js';
import { deliver, planResultFiles } from '../../outputs/deliver.js';
import { type CommandEnd, EXIT, type ExitCode } from '../../terminal/exit-codes.js';
import { untilInterrupted } from '../../terminal/interrupt.js';
import { labelled } from '../../terminal/layout.js';
import { complain } from '../../terminal/streams.js';
import { withWorkers } from '../../terminal/workers.js';

export const limits: Command = {
  name: 'limits',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'Makes the day card: the lowest height shown to keep every limit, for wind by wait, on one page',
  options: {
    rows: ROWS,
    columns: COLUMNS,
    heights: CARD_HEIGHTS,
    flights: CARD_FLIGHTS,
    seed: SEED,
    'acceptable-risk': ACCEPTABLE_RISK,
    set: SET,
    threads: THREADS,
    out: OUT,
    force: FORCE,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin limits burdock.yaml', 'the demo of init --example burdock: wind by wait on the pad'],
    [
      "fallmargin limits payload.yaml --rows 'wind.speed=2 m/s,4 m/s' --columns can.mass",
      'any two numbers of the scenario',
    ],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    file: givenFile(given, 'limits', 'scenario', 'payload.yaml'),
    flights: givenValue(given, 'flights', STANDARD_CARD_FLIGHTS, parseFlights),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    rows: givenValue(given, 'rows', STANDARD_ROWS, ok),
    columns: givenValue(given, 'columns', STANDARD_COLUMNS, ok),
    heights: givenValue(given, 'heights', STANDARD_HEIGHTS, parseHeights),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    overrides: givenOverrides(given),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { file, flights, seed, rows, columns, heights, threads, overrides, out } = request.value;
  const scenario = await loadScenario(file, overrides);
  if (scenario.status === 'refused') return scenario;
  const quiet = givenFlag(given, 'quiet');
  const outputs = await planResultFiles(given, out, `${baseOf(file)}-limits`);
  if (outputs.status === 'refused') return outputs;

  const { planLimits } = await import('../../../sim/limits/plan.js');
  const { findLimits } = await import('../../../sim/limits/limits.js');
  const { criteriaOf } = await import('../../../sim/decision/criteria.js');
  const options = { seed, flights, rows, columns, heights, overrides };
  const criteria = criteriaOf(scenario.value);
  const planned = planLimits(scenario.value, options, criteria);
  if (planned.status === 'refused') return planned;
  return untilInterrupted(async (stop) => {
    const workers = { seed, threads, what: 'cells of the day card', quiet };
    const study = await withWorkers(workers, (pool, { update }) =>
      findLimits(scenario.value, options, { criteria, flyerFor: pool.flyer }, { onProgress: update, stop }),
    );
    if (study.status === 'refused') return study;
    if (study.status === 'nothing flown') {
      complain('Stopped before the first cell of the card was found: nothing is kept, nothing was written.');
      return EXIT.interrupted;
    }
    const result = study.value;
    const { limitsLines, limitsSummary } = await import('./summary.js');
    const { hazardLines } = await import('../../terminal/warnings.js');
    const delivered = await deliver({
      result,
      paths: outputs.value,
      json: givenFlag(given, 'json'),
      page: async (one) => (await import('../../../report/limits/limits.js')).renderLimits(one),
      lines: (one, paint, files) =>
        quiet
          ? [...limitsLines(one, paint), ...hazardLines(one.warnings, paint)]
          : [
              ...limitsSummary(one, paint),
              ...files,
              ...labelled('Again:', again('limits', file, given, ...(out === undefined ? [] : ['--force']))),
            ],
    });
    if (delivered.status === 'refused') return delivered;
    return limitsExit(result);
  });
}

/** Whether some cell has a height at which every criterion is kept. */
export function limitsExit({ partial, anyShown }: LimitsResult): ExitCode {
  if (partial) return EXIT.interrupted;
  return anyShown ? EXIT.done : EXIT.notWithin;
}
