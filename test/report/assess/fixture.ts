/**
 * A made-up result with the shape and the size of a real one, from a few lines of arithmetic: nothing here is flown.
 * Flights fall at about 26 m/s, need some 90 m to stop and hit when that is not left.
 */

import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import { CAUSES, COLUMN_NAMES, type ColumnName, OUTCOMES, type Outcome } from '../../../sim/flight/record.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { convergence } from '../../../sim/statistics/convergence.js';
import { speedHistogram } from '../../../sim/statistics/histogram.js';
import type { Verdict } from '../../../sim/statistics/proportion.js';
import { proportion, verdictOf } from '../../../sim/statistics/proportion.js';
import type { Spread } from '../../../sim/statistics/quantile.js';
import { spread } from '../../../sim/statistics/quantile.js';
import type { EnvelopePoint, TimeHistory } from '../../../sim/trace/result.js';
import { INPUTS } from './fixture-inputs.js';

const NO_COLUMNS = Object.fromEntries(COLUMN_NAMES.map((name) => [name, ''])) as Readonly<Record<ColumnName, string>>;

export const SCENARIO: Scenario = {
  file: 'burdock.yaml',
  changed: [],
  title: 'Burdock',
  about: 'An air-sampling can, ejected over a dry lake bed on a warm day; the height is read aloud from a barometer.',
  invented: true,
  inputs: INPUTS,
  settings: {
    'plan.cue': 'call-out',
    'arms.release': 'after ejection',
    'link.fail_safe': 'land by itself',
    'site.keep_out': [
      { name: 'spectators', east: -230, north: 90, radius: 60 },
      { name: 'road', east: 160, north: -260, radius: 45 },
    ],
  },
  leftOut: ['parachute', 'stabiliser.arming_guard'],
  correlations: [{ between: ['wind.speed', 'site.temperature'], rank: 0.3 }],
  hash: '5f0c7a7be1a2c3d4e5f60718293a4b5c6d7e8f90a1b2c3d4e5f60718293a4b5c',
};

/** Numbers that only look random: a linear congruential sequence, the same on every machine. */
function sequence(start: number) {
  let state = start >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

interface MadeFlight {
  readonly outcome: number;
  readonly cause: number;
  readonly speed: number;
  readonly east: number;
  readonly north: number;
  readonly order: number;
}

function makeFlights(count: number, height: number, rare: boolean): MadeFlight[] {
  const { uniform, normal } = sequence(2026);
  return Array.from({ length: count }, () => {
    const reaction = 1.18 * Math.exp(0.44 * normal()) + (uniform() < 0.03 ? -3 * Math.log(uniform()) : 0);
    const order = height - 26 * (reaction + 0.4) + 8 * normal();
    const stop = 70 * Math.exp(0.25 * normal());
    const broken = uniform() < (rare ? 0.0002 : 0.02);
    const left = order - stop;
    const spot = { east: 55 * normal() + 20, north: 55 * normal() - 10 };
    if (broken) {
      const cause = CAUSES.indexOf(uniform() < 0.5 ? 'ejection damage' : uniform() < 0.5 ? 'arm release' : 'arm shut');
      return {
        outcome: 2,
        cause,
        speed: 24 + 3 * normal(),
        order,
        east: 3 * spot.east,
        north: 3 * spot.north,
      };
    }
    if (left > 0 || rare)
      return {
        outcome: 0,
        cause: 0,
        speed: 1.6 + 0.35 * Math.abs(normal()),
        order,
        east: spot.east / 8,
        north: spot.north / 8,
      };
    const speed = Math.min(27, Math.sqrt(-left * 9) + 1.6);
    const cause = CAUSES.indexOf(
      reaction > 2.5 ? 'lapse' : stop > 95 ? 'thrust loss' : uniform() < 0.7 ? 'reaction' : 'several together',
    );
    return { outcome: speed <= 5 ? 0 : speed <= 10 ? 1 : 2, cause: speed <= 5 ? 0 : cause, speed, order, ...spot };
  });
}

function tally(flights: readonly MadeFlight[]): Record<Outcome, number> {
  const counts: Record<Outcome, number> = { soft: 0, hard: 0, crash: 0, numerical: 0 };
  for (const flight of flights) counts[OUTCOMES[flight.outcome]] += 1;
  return counts;
}

function pointOf(height: number, flights: readonly MadeFlight[], limit: number): HeightPoint {
  const outcomes = tally(flights);
  const risk = proportion(flights.length - outcomes.soft, flights.length);
  return {
    height,
    outcomes,
    risk,
    verdict: verdictOf(risk, limit),
    speeds: speedHistogram(
      flights.map((flight) => flight.outcome),
      flights.map((flight) => flight.speed),
    ),
  };
}

function about(count: number, middle: number, sd: number, start = 5): Spread {
  const { normal } = sequence(start);
  return spread(Float64Array.from({ length: count }, () => middle + sd * normal()));
}

const ARREST_TIME = 24;
const TOUCHDOWN_TIME = 58;

function heightAt(time: number, late: number): number {
  const arrest = ARREST_TIME + late;
  if (time < arrest) return 720 - 26 * time + 26 * (1 - Math.exp(-time));
  const left = 720 - 26 * arrest + 26;
  return Math.max(0, left - 4 * (time - arrest));
}

function speedAt(time: number, late: number): number {
  if (time < ARREST_TIME - 3 + late) return 26 * (1 - Math.exp(-time));
  if (time < ARREST_TIME + late) return 4 + (22 * (ARREST_TIME + late - time)) / 3;
  return 4;
}

function envelope(): EnvelopePoint[] {
  return Array.from({ length: 60 }, (_, i): EnvelopePoint => {
    const time = i;
    const middle = heightAt(time, 0);
    return {
      time,
      height: [Math.max(0, middle - 35), middle, middle + 35],
      speed: [Math.max(0, speedAt(time, 0) - 3), speedAt(time, 0), speedAt(time, 0) + 3],
      flying: time < 40 ? 1 : Math.max(0, 1 - (time - 40) / 30),
    };
  });
}

function history(id: string, why: string, outcome: Outcome, late: number): TimeHistory {
  const end = outcome === 'soft' ? TOUCHDOWN_TIME + late : 27.7;
  const time = Array.from({ length: 90 }, (_, i) => (end * i) / 89);
  const crashing = outcome !== 'soft';
  return {
    id,
    why,
    outcome,
    time,
    height: time.map((t) => (crashing ? Math.max(0, 720 - 26 * t + 26 * (1 - Math.exp(-t))) : heightAt(t, late))),
    speed: time.map((t) => (crashing ? 26 * (1 - Math.exp(-t)) : speedAt(t, late))),
    events: [
      { name: 'arms released', time: 2, height: 690 },
      { name: 'throttle-up ordered', time: 20.1 + late, height: 215 - 20 * late },
      { name: 'touchdown', time: end, height: 0 },
    ],
  };
}

function footprint(flights: readonly MadeFlight[]): AssessResult['footprint'] {
  const cell = 20;
  const halfCells = 20;
  const side = 2 * halfCells;
  const soft = new Array<number>(side * side).fill(0);
  const notSoft = new Array<number>(side * side).fill(0);
  const beyond = { soft: 0, notSoft: 0 };
  for (const flight of flights) {
    const column = Math.floor(flight.east / cell) + halfCells;
    const row = Math.floor(flight.north / cell) + halfCells;
    const kind = flight.outcome === 0 ? 'soft' : 'notSoft';
    if (column < 0 || row < 0 || column >= side || row >= side) beyond[kind] += 1;
    else (kind === 'soft' ? soft : notSoft)[row * side + column] += 1;
  }
  const failed = flights.filter((flight) => flight.outcome > 0);
  const distance = (flight: MadeFlight) => Math.hypot(flight.east, flight.north);
  const inside = (east: number, north: number, radius: number) =>
    flights.filter((flight) => Math.hypot(flight.east - east, flight.north - north) <= radius).length;
  const spreadOf = (some: readonly MadeFlight[]) => spread(some.map(distance));
  const last = spreadOf(failed).quantiles.find((quantile) => quantile.p === 0.99);
  return {
    cell,
    halfCells,
    soft,
    notSoft,
    beyond,
    distance: spreadOf(flights),
    distanceNotSoft: spreadOf(failed),
    outsideCircle: proportion(flights.filter((flight) => distance(flight) > 300).length, flights.length),
    keepOut: [
      { name: 'spectators', inside: proportion(inside(-230, 90, 60), flights.length), soft: 0, notSoft: 0 },
      { name: 'road', inside: proportion(inside(160, -260, 45), flights.length), soft: 0, notSoft: 0 },
    ],
    keepAway: last ? { distance: last.value, upper: last.upper } : null,
  };
}

function causeRows(flights: readonly MadeFlight[]): AssessResult['causes'] {
  return CAUSES.map((cause, index) => ({ cause, count: flights.filter((flight) => flight.cause === index).length }))
    .filter(({ cause, count }) => cause !== 'none' && count > 0)
    .sort((a, b) => b.count - a.count)
    .map(({ cause, count }) => {
      const risk = proportion(count, flights.length);
      return { cause, risk };
    });
}

export interface FixtureOptions {
  readonly flights?: number;
  readonly heights?: readonly number[];
  /** Nearly nothing goes wrong. */
  readonly rare?: boolean;
  readonly limit?: number;
  readonly scenario?: Partial<Scenario>;
}

function worst(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes('above')) return 'above';
  return verdicts.includes('not shown') ? 'not shown' : 'within';
}

export function makeResult(options: FixtureOptions = {}): AssessResult {
  const count = options.flights ?? 8000;
  const rare = options.rare ?? false;
  const limit = options.limit ?? 0.05;
  const heights = options.heights ?? [80, 120, 160, 180, 200, 220, 250, 280, 320, 400];
  const planned = makeFlights(count, 250, rare);
  const curve = heights.map((height) => pointOf(height, makeFlights(count, height, rare), limit));
  const outcomes = tally(planned);
  const risk = proportion(count - outcomes.soft, count);
  const failed = planned.filter((flight) => flight.outcome > 0);
  const place = footprint(planned);
  const outside = place.outsideCircle ?? proportion(0, count);
  const criteria: AssessResult['criteria'] = [
    { name: 'ground impact', limit, risk, verdict: verdictOf(risk, limit) },
    { name: 'outside the recovery circle', limit: 0.05, risk: outside, verdict: verdictOf(outside, 0.05) },
  ];
  const stays = convergence(planned.map((flight) => flight.outcome));
  return {
    kind: 'assess',
    versions: { program: '0.1.0', resultSchema: 2, drawScheme: 2, node: 'v20.20.2' },
    scenario: { ...SCENARIO, ...options.scenario },
    overrides: ['pilot.lapse=3 %'],
    seed: '1',
    flights: count,
    partial: false,
    acceptableRisk: limit,
    plannedHeight: 250,
    verdict: verdictOf(risk, limit),
    risk,
    criteria,
    doubt: {
      status: 'not asked',
      lower: null,
      upper: null,
      shareWithin: null,
      shareHolding: null,
      isFirm: false,
      guesses: 12,
      inputs: 20,
    },
    overall: worst(criteria.map((criterion) => criterion.verdict)),
    flightsToSettle: verdictOf(risk, limit) === 'not shown' ? 42_000 : null,
    outcomes,
    curve,
    causes: causeRows(planned),
    touchdownSpeed: spread(planned.map((flight) => flight.speed)),
    touchdownSpeedNotSoft: spread(failed.map((flight) => flight.speed)),
    verticalSpeed: about(count, 1.6, 0.2),
    energyNotSoft: spread(failed.map((flight) => 0.305 * flight.speed ** 2)),
    arrested: proportion(outcomes.soft, count),
    orderTime: about(count, 20.1, 1.8),
    orderHeight: spread(planned.map((flight) => flight.order)),
    cueHeight: about(count, 243, 9),
    stoppingHeight: about(outcomes.soft, 71, 17),
    speedAtOrder: about(count, 26, 1.4),
    uprightDelay: about(outcomes.soft, 0.9, 0.2),
    arrestHeight: about(outcomes.soft, 132, 25),
    lowestVoltage: about(count, 13.3, 0.28),
    energyLeft: about(count, 0.42, 0.08),
    envelope: envelope(),
    histories: [
      history('explore:17@250', 'typical', 'soft', 0),
      history('explore:5021@250', 'typical', 'soft', 0.8),
      history('explore:712@250', 'worst', 'crash', 0),
    ],
    listed: [
      { id: 'explore:17@250', why: 'typical', outcome: 'soft', cause: 'none', touchdownSpeed: 1.72 },
      { id: 'explore:5021@250', why: 'typical', outcome: 'soft', cause: 'none', touchdownSpeed: 1.81 },
      { id: 'explore:712@250', why: 'worst', outcome: 'crash', cause: 'arm shut', touchdownSpeed: 27.43 },
      { id: 'explore:3310@250', why: 'worst', outcome: 'crash', cause: 'lapse', touchdownSpeed: 26.9 },
    ],
    footprint: place,
    convergence: stays,
    hand: {
      rows: [
        {
          name: 'Thrust-to-weight on site',
          unit: '',
          byHand: 1.52,
          simulated: 1.49,
          formula: '4 T (rho/rho0) (V/V0)^2 / (m g)',
          why: 'Under 1 it cannot stop at all; under 1.3 it stops late.',
        },
        {
          name: 'Fall speed',
          unit: 'm/s',
          byHand: 25.8,
          simulated: 26.1,
          formula: 'sqrt(2 m g / (rho CdA))',
          why: 'Sets how much height a second of delay costs.',
        },
        {
          name: 'Stopping height',
          unit: 'm',
          byHand: 63.2,
          simulated: 71.4,
          formula: '(vt^2 / 2g) ln(1 + v0^2 / ((n - 1) vt^2))',
          why: 'From the order to the end of the fall, without any delay.',
        },
        {
          name: 'Pad wait the pack allows',
          unit: 'min',
          byHand: 74,
          simulated: null,
          formula: 'E / P',
          why: 'Then it is empty.',
        },
      ],
      guesses: [
        {
          path: 'rotors.vortex_ring_depth',
          source: 'guess',
          heightAtLow: 130.2,
          heightAtHigh: 171.9,
          thrustToWeightAtLow: 1.52,
          thrustToWeightAtHigh: 1.52,
        },
        {
          path: 'rotors.thrust_factor',
          source: 'guess',
          heightAtLow: 166.4,
          heightAtHigh: 141.3,
          thrustToWeightAtLow: 1.44,
          thrustToWeightAtHigh: 1.6,
        },
      ],
      withoutSpread: ['link.delay'],
    },
    warnings: [
      {
        code: 'guesses',
        text: '6 of 14 uncertain inputs are guesses.',
        advice: 'Measure the pilot reaction and the vortex ring depth first.',
      },
    ],
    raw: { planned: { outcome: '', cause: '', columns: NO_COLUMNS }, curve: [] },
  };
}
