/** Writes what was learnt as a variant of the scenario: a law for each input and pairwise rank correlations. */

import { yamlText } from '../scenario/file/fragment.js';
import { placed } from '../scenario/file/write-into.js';
import { inputByPath } from '../scenario/lookup.js';
import { weightedRankCorrelation } from '../statistics/weighted.js';
import { posteriorPiece, type WorldInput } from './posterior.js';
import type { LearnRequest } from './request.js';
import type { LearnResult } from './result.js';

/** Weaker rank correlations are not worth writing. */
const LEAST_RANK = 0.2;

/**
 * Correlations are written between single inputs only: a scenario joins no parameters, and no inputs that are drawn
 * several times in a flight.
 */
export function correlationsOf(narrow: readonly WorldInput[], weights: Float64Array): LearnResult['correlations'] {
  const single = narrow.filter(
    ({ drawn, input, law }) =>
      drawn.name === input.path && law.distribution.family !== 'trials' && input.shape === 'quantity',
  );
  return single.flatMap((a, i) =>
    single.slice(i + 1).flatMap((b) => {
      const rank = Number(weightedRankCorrelation(a.values, b.values, weights).toFixed(2));
      return Math.abs(rank) >= LEAST_RANK ? [{ between: [a.input.path, b.input.path] as const, rank }] : [];
    }),
  );
}

/** A variant that extends the scenario with what was learnt. */
export function fragmentOf(
  { scenario, logs, file }: LearnRequest,
  narrow: readonly WorldInput[],
  table: LearnResult['inputs'],
  weights: Float64Array,
  effective: number,
  correlations: LearnResult['correlations'],
): string {
  const note = `learnt from ${logs.map((log) => log.file).join(', ')}; ${effective.toFixed(0)} effective worlds`;
  const paths = [...new Set(narrow.map(({ input }) => input.path))];
  const pieces = paths.flatMap((path) => {
    const input = inputByPath(scenario, path);
    const piece =
      input === null
        ? null
        : posteriorPiece(
            input,
            narrow.filter((one) => one.input.path === path),
            weights,
            note,
            { logs: logs.length, spreadLeft: leastNarrowed(path, narrow, table) },
          );
    return piece === null ? [] : [{ path, piece }];
  });
  const kept = scenario.correlations.filter(
    ({ between }) => !correlations.some((one) => one.between.includes(between[0]) && one.between.includes(between[1])),
  );
  const rows = correlations.length === 0 ? [] : [...kept, ...correlations];
  const flights = logs.length === 1 ? '1 flight' : `${logs.length} flights`;
  const head = `${LOSSES}\n${yamlText({ extends: file, title: `${scenario.title} after ${flights}` }, 1)}\n`;
  const whole = pieces.reduce((text, { path, piece }) => placed(text, path.split('.'), piece), head);
  if (rows.length === 0) return whole;
  const list = rows.map(({ between, rank }) => `  - { between: [${between.join(', ')}], rank: ${rank} }`);
  return `${whole.trimEnd()}\n\ncorrelations:\n${list.join('\n')}\n`;
}

/** Of several narrowed numbers of an input the one that was narrowed least: the input is known no better than that. */
function leastNarrowed(path: string, narrow: readonly WorldInput[], table: LearnResult['inputs']): number {
  const names = narrow.filter(({ input }) => input.path === path).map(({ drawn }) => drawn.name);
  return Math.max(...table.filter(({ name }) => names.includes(name)).map(({ narrowed }) => narrowed));
}

const LOSSES = `# What flights taught, as margins and pairwise rank correlations. It loses the shapes beyond each family, dependence
# beyond pairs and beyond ranks, any between parameters of distributions, and what was learnt of a single axis or rotor. Inputs not
# named here were narrowed by less than a tenth, or by no more than chance. "learnt" counts as a guess until its spread is halved.
# Do not learn from the same log again on top of it: it would count twice.
`;
