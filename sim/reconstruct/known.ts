/** What is known of a flight besides its log: from the scenario, or from the command line. */

import { createDrawer } from '../draws/drawer.js';
import type { Site } from '../model/atmosphere.js';
import { type AltimeterFormula, readingSlope } from '../model/barometer.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Prior } from './smoother.js';

export interface Known {
  /** Height above ground at ejection; null where nobody knows. */
  readonly ejectionHeight: Prior | null;
  /** Upward speed at ejection. */
  readonly ejectionSpeed: Prior;
  /** Sideways speed through the air just after ejection, m/s. */
  readonly sideSpeed: number;
  /** Root mean square of the wind, which a craft that flies back to its landing point has about it besides, m/s. */
  readonly windSpeed: number;
  /** Descent rate of the approach, at which the fall counts as arrested, m/s. */
  readonly approachSpeed: number;
  /** Share of the dynamic pressure that the barometer reads as height. */
  readonly flowError: Prior;
  /** Share by which the barometer reads low, as in warm air. */
  readonly scaleError: Prior;
  /** What it makes of the pressure. */
  readonly formula: AltimeterFormula;
  /** Height of the site above sea level, m; null where nobody said. */
  readonly elevation: number | null;
  readonly plannedHeight: number | null;
  /** Distance of the g-meter from the centre of mass, m; null where nobody said. */
  readonly sensorOffset: number | null;
}

/**
 * What is assumed without a scenario: an ejection near the top of the rocket's course, vents in the side wall as by the
 * definition's standard, air of no known temperature.
 */
export const NOTHING_KNOWN: Known = {
  ejectionHeight: null,
  ejectionSpeed: { mean: 0, sd: 5 },
  sideSpeed: 8,
  windSpeed: 4,
  approachSpeed: 4,
  flowError: { mean: 0.2, sd: 0.15 },
  scaleError: { mean: 0.03, sd: 0.05 },
  formula: 'standard atmosphere',
  elevation: null,
  plannedHeight: null,
  sensorOffset: null,
};

const DRAWS = 4000;

/** What the scenario says, found by drawing from it: median, and half the distance from the 16 to the 84 % point. */
export function knownFrom(scenario: Scenario): Known {
  const drawer = createDrawer(scenario, 'known');
  const [height, speed, flow, scale, side, approach, elevation] = [[], [], [], [], [], [], []] as number[][];
  let plannedHeight = 0;
  let windSquares = 0;
  let { formula } = NOTHING_KNOWN;
  for (let id = 0; id < DRAWS; id++) {
    const { ejection, pilot, site, plan, wind } = drawer.draw('explore', id).inputs;
    height.push(ejection.height);
    speed.push(ejection.vertical_speed);
    flow.push(pilot.call_out.flow_error);
    formula = pilot.call_out.formula;
    scale.push(readsLow(formula, site));
    elevation.push(site.elevation);
    side.push(Math.hypot(...ejection.horizontal_speed, wind.speed));
    windSquares += wind.speed ** 2;
    approach.push(pilot.approach_speed);
    plannedHeight = plan.throttle_up_height;
  }
  return {
    ejectionHeight: priorOf(height, 0.5),
    ejectionSpeed: priorOf(speed, 0.3),
    flowError: priorOf(flow, 0.02),
    scaleError: priorOf(scale, 0.003),
    formula,
    sideSpeed: priorOf(side, 0).mean,
    windSpeed: Math.sqrt(windSquares / DRAWS),
    approachSpeed: priorOf(approach, 0).mean,
    elevation: priorOf(elevation, 0).mean,
    plannedHeight,
    sensorOffset: null,
  };
}

/** Share of the height by which a barometer of this formula reads low on a day. */
export function readsLow(formula: AltimeterFormula, site: Site): number {
  return 1 - readingSlope(formula, site);
}

/** What is known besides the air temperature on the day, measured to a degree or two: how low the barometer reads. */
export function withTemperature(known: Known, temperature: number): Known {
  const mean = readsLow(known.formula, { temperature, elevation: known.elevation ?? 0, pressure: null });
  return { ...known, scaleError: { mean, sd: known.elevation === null ? 0.02 : 0.005 } };
}

function priorOf(values: readonly number[], least: number): Prior {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (p: number) => sorted[Math.round(p * (sorted.length - 1))];
  return { mean: at(0.5), sd: Math.max(least, (at(0.84) - at(0.16)) / 2) };
}
