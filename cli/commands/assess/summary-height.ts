/** The recommended height as something to do, or what is known where none is recommended. */
import { windowText } from '../../../report/assess/curve-finding.js';
import { recommendation } from '../../../report/assess/recommendation.js';
import { setting } from '../../../report/kit/words/inputs.js';
import { spreadText, unbroken } from '../../../report/kit/words/numbers.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import { proportionText } from '../../../sim/statistics/words.js';
import { labelled, paragraph, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';

const INDENT = 11;

/** Nothing where the study did not look for a height. */
export function heightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = recommendation(result);
  if (found === null) return [];
  const window = result.heightDecision?.window ?? null;
  const rest = window === null ? paragraph(found.detail) : labelled('  Window', unbroken(windowText(window)), INDENT);
  return [...shortHeightLines(result, paint), ...rest, ''];
}

/** The height with its risk, its order and its seconds. */
export function shortHeightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = recommendation(result);
  if (found === null) return [];
  return [...wrapped(found.sentence).map((line) => paint('bold', line)), ...actionLines(result)];
}

function actionLines({ recommended, scenario }: AssessResult): readonly string[] {
  if (recommended === undefined || recommended === null) return [];
  const { height, risk, orderTime } = recommended;
  const cue = setting(scenario, 'plan.cue');
  const shown = `${proportionText(risk)} on ${risk.flights} fresh flights: the lowest height shown to be within every limit`;
  return [
    ...labelled('  Risk', unbroken(shown), INDENT),
    ...labelled('  Order', unbroken(ORDERS[cue]?.(height) ?? `full throttle at ${height} m`), INDENT),
    ...labelled('  Seconds', `${spreadText(orderTime, 's')} after ejection${CHECK[cue] ?? ', as a check'}`, INDENT),
  ];
}

const ORDERS: Readonly<Record<string, (height: number) => string>> = {
  'call-out': (height) => `full throttle when the height read aloud comes to ${height} m`,
  picture: (height) => `full throttle when the picture looks like ${height} m`,
  timer: (height) => `the timer fires when the ordinary flight would pass ${height} m`,
  automatic: (height) => `the craft throttles up by itself when its barometer reads ${height} m`,
};

/** A timer's seconds are its cue; everybody else's are a check. */
const CHECK: Readonly<Record<string, string>> = { timer: '' };
