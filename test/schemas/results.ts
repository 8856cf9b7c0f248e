/** A small result of each kind and form, made by the functions that make the real ones. */
import { readFileSync } from 'node:fs';
import { reportView } from '../../report/assess/assess.js';
import { compareView } from '../../report/compare/compare.js';
import { fitPage } from '../../report/fit/fit.js';
import type { Draw } from '../../report/kit/draw.js';
import { learnPage } from '../../report/learn/learn.js';
import { renderLimits } from '../../report/limits/limits.js';
import { reconstructPage } from '../../report/reconstruct/reconstruct.js';
import { tracePage } from '../../report/trace/trace.js';
import { parseResult } from '../../sim/assess/json.js';
import type { Answer } from '../../sim/basics/answer.js';
import { presentVersions } from '../../sim/basics/versions.js';
import { parseComparison } from '../../sim/compare/json.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import { fitColumn, fitTrials } from '../../sim/fit/fit.js';
import { parseFit } from '../../sim/fit/json.js';
import type { FitResult } from '../../sim/fit/result.js';
import { fitThrustStand } from '../../sim/fit/thrust-stand.js';
import { parseLearn } from '../../sim/learn/json.js';
import type { LearnResult } from '../../sim/learn/result.js';
import { parseLimits } from '../../sim/limits/json.js';
import { findLimits } from '../../sim/limits/limits.js';
import { parseReconstruct } from '../../sim/reconstruct/json.js';
import { NOTHING_KNOWN } from '../../sim/reconstruct/known.js';
import { readLog } from '../../sim/reconstruct/read-log.js';
import { reconstruct } from '../../sim/reconstruct/reconstruct.js';
import { parseTrace } from '../../sim/trace/json.js';
import { traceResult } from '../../sim/trace/put-together.js';
import { traceFlight } from '../../sim/trace/trace-flight.js';
import { answered } from '../answers.js';
import { fakeResult } from '../assess/fake-result.js';
import { compareSynthetic, fallingRisk, plainBurdock } from '../compare/designs.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

export interface Example {
  readonly result: object;
  /** Folder of its command in `sim`. */
  readonly command: string;
  /** Reads a text, and makes the page of what was read, but for drawing its charts. */
  readonly read: (text: string) => Answer<object>;
  readonly page: (text: string) => Promise<unknown>;
}

const noDrawing: Draw = async () => '';

function example<R extends object>(
  command: string,
  result: R,
  read: (text: string) => Answer<R>,
  page: (result: R) => Promise<unknown>,
): Example {
  const pageOf = async (text: string) => {
    const again = read(text);
    return again.status === 'ok' ? page(again.value) : null;
  };
  return { result, command, read, page: pageOf };
}

async function comparison() {
  const risk = { risk: fallingRisk(150, 0.03) };
  return answered(await compareSynthetic(risk, { ...risk, overrides: ['can.mass=450 g'] }, { flights: 500 }));
}

async function dayCard() {
  const options = { rows: 'wind.speed=2 m/s,12 m/s', columns: 'pad.wait=10 min', overrides: [] };
  const found = await findLimits(
    plainBurdock(),
    { seed: '1', flights: 300, heights: { kind: 'standard' }, ...options },
    {
      criteria: criteriaOf(plainBurdock()),
      flyerFor: () => createSyntheticFlyer({ seed: '1', risk: fallingRisk(100, 0.01) }),
    },
  );
  return answered(found);
}

function samples() {
  const values = Array.from({ length: 12 }, (_, i) => 1 + 0.3 * Math.sin(2.4 * i));
  const options = { column: 'x', unit: 's', family: 'auto', path: 'pilot.reaction' } as const;
  return answered(fitColumn(`x\n${values.join('\n')}\n`, 'times.csv', options)).result;
}

function stand() {
  const rows = ['0,0,0,16.6', '50,110,2.4,16.3', '100,300,7.4,15.9', '100,280,7,15.1', '100,262,6.6,14.6'].join('\n');
  return answered(fitThrustStand(`throttle,thrust,current,voltage\n${rows}\n`, 's.csv', { rotors: 1, density: null }))
    .result;
}

function log() {
  const columns = { time: null, reading: null, height: null };
  const read = answered(readLog(readFileSync('configs/burdock-flight-log.csv', 'utf8'), 'log.csv', columns));
  return answered(reconstruct({ ...read, height: null }, NOTHING_KNOWN, null));
}

function flight() {
  const scenario = plainBurdock();
  const traced = answered(traceFlight(scenario, '1', '3@200'));
  const whole = traceResult({ scenario, overrides: [], seed: '1' }, traced);
  const thinned = Object.entries(whole.history).map(([name, column]) => [name, column.filter((_, k) => k % 50 === 0)]);
  return { ...whole, history: Object.fromEntries(thinned) };
}

/** Made up: a real one takes many flights. */
const LEARNT: LearnResult = {
  kind: 'learn',
  versions: presentVersions(),
  scenario: { title: 'Burdock', hash: '27ac248259ebaf73', invented: true, changed: [] },
  flownIn: { title: 'Teasel', hash: '62ac248259ebaf71' },
  seed: '1',
  worlds: 150,
  waves: [100, 50],
  partial: false,
  flightsEach: 6,
  plannedHeight: 250,
  logs: [
    {
      file: 'log.csv',
      observed: [{ name: 'speed_at_throttle_up', value: 28.3, error: 0.3, expected: 29.2, spread: 2.3 }],
    },
  ],
  effectiveWorlds: 62,
  inputs: [
    {
      name: 'can.drag_factor',
      path: 'can.drag_factor',
      unit: '',
      before: [0.88, 1.01, 1.14],
      after: [0.93, 1.03, 1.16],
      narrowed: 0.8,
    },
  ],
  riskBefore: { estimate: 0.025, lower: 0.02, upper: 0.03, between: null },
  riskAfter: { estimate: 0.02, lower: 0.015, upper: 0.024, between: 0.006 },
  fragment: '# What flights taught',
  correlations: [{ between: ['can.drag_factor', 'can.arm_drag_area'], rank: -0.4 }],
  warnings: [],
};

const fitted = (result: FitResult) => example('fit', result, parseFit, (read) => fitPage(read, noDrawing));

export const EXAMPLES: Readonly<Record<string, Example>> = {
  assess: example('assess', await fakeResult(5, 60), parseResult, (read) => reportView(read, noDrawing)),
  compare: example('compare', await comparison(), parseComparison, (read) => compareView(read, noDrawing)),
  limits: example('limits', await dayCard(), parseLimits, renderLimits),
  'fit of samples': fitted(samples()),
  'fit of trials': fitted(answered(fitTrials(40, 1, null)).result),
  'fit of a thrust stand': fitted(stand()),
  reconstruct: example('reconstruct', log(), parseReconstruct, (read) => reconstructPage(read, noDrawing)),
  learn: example('learn', LEARNT, parseLearn, (read) => learnPage(read, noDrawing)),
  trace: example('trace', flight(), parseTrace, (read) => tracePage(read, noDrawing)),
};
