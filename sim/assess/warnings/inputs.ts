/** These warnings say where the inputs do not deserve belief. */

import { guessesWarning, inventedWarning } from '../../check/scenario-warnings.js';
import type { FixedValue, UncertainValue } from '../../distributions/distribution.js';
import { shareWithinBounds } from '../../distributions/law.js';
import { hazardWarnings, perfectWarning } from '../../scenario/hazards.js';
import { inputByPath } from '../../scenario/lookup.js';
import { flightsInHundred } from '../../statistics/words.js';
import { type Check, percent, sentence, warn } from './finding.js';

/** A bound that cuts off more than this share changes the distribution that the file seems to say. */
const CLIPPED = 0.03;
/** Flights in stronger wind than anybody launches in: fewer than these do not move the risk. */
const TOO_WINDY = 0.01;

/** Hazards to people stand before everything else. */
export const hazards: Check = ({ scenario }) => hazardWarnings(scenario);

export const perfect: Check = ({ scenario }) => perfectWarning(scenario);

export const invented: Check = ({ scenario }) => inventedWarning(scenario);

export const guesses: Check = ({ scenario }) => guessesWarning(scenario, '');

export const clippedBounds: Check = ({ scenario }) =>
  scenario.inputs.flatMap(({ path, value, written }) => {
    const cut = value.form === 'uncertain' ? 1 - shareWithinBounds(value) : 0;
    return cut > CLIPPED
      ? [
          warn(
            'clipped',
            `The bounds of ${path} (${written}) cut off ${percent(cut)} of its distribution.`,
            'Choose a distribution that fits inside its bounds, or wider bounds.',
          ),
        ]
      : [];
  });

export const windOverCode: Check = ({ scenario, inputs }) => {
  const wind = inputByPath(scenario, 'wind.speed');
  const ceiling = inputs.site.launch_wind_limit;
  const over = wind === null ? 0 : shareAbove(wind.value, ceiling);
  if (over < TOO_WINDY) return [];
  const limit = inputByPath(scenario, 'site.launch_wind_limit');
  const whose =
    limit?.source === 'standard'
      ? `${Number(ceiling.toPrecision(3))} m/s, the ${limit.written} of high-power rocketry codes, which the program assumed because the scenario names no limit (site.launch_wind_limit)`
      : `the launch code's ${Number(ceiling.toPrecision(3))} m/s`;
  return [
    warn(
      'wind over the launch code',
      `${sentence(flightsInHundred(over))} would be launched in wind over ${whose}.`,
      'No rocket is launched in that wind: cut wind.speed with "at_most" at the ceiling.',
    ),
  ];
};

/** P(X > value), unmeasured parameters at their medians: what the bound would cut off of what the own bounds leave. */
function shareAbove(input: FixedValue | UncertainValue, value: number): number {
  if (input.form === 'fixed') return input.value > value ? 1 : 0;
  const atMost = Math.min(input.atMost ?? Number.POSITIVE_INFINITY, value);
  return 1 - shareWithinBounds({ ...input, atMost }) / shareWithinBounds(input);
}
