import { describe, expect, it } from 'vitest';
import type { CauseRow } from '../../../sim/assess/decisions.js';
import { exactGuessesOf, exactGuessesSentence } from '../../../sim/assess/warnings/chances.js';
import { type Findings, warningsOf } from '../../../sim/assess/warnings/warnings.js';
import { isGuess } from '../../../sim/check/hand-guesses.js';
import { nominalDraw } from '../../../sim/draws/drawer.js';
import { HAZARDS } from '../../../sim/scenario/hazards.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { proportion, verdictOf } from '../../../sim/statistics/proportion.js';
import { burdock } from '../../ensemble/burdock.js';

const FLIGHTS = 8000;
const rows = (counts: Readonly<Record<string, number>>): readonly CauseRow[] =>
  Object.entries(counts).map(([cause, count]) => ({ cause, risk: proportion(count, FLIGHTS) }));

const TRIED = 'rotors.dead={ trials: 40, failures: 0, source: measured }';
const GUESSED = 'rotors.dead={ value: 0.05 %, source: guess }';
const MEASURED = [
  'pilot.lapse={ trials: 100, failures: 2, source: measured }',
  'arms.release_failure={ trials: 400, failures: 0 }',
];

function warnings(counts: Readonly<Record<string, number>>, ...more: readonly (string | Scenario)[]) {
  const overrides = more.filter((one) => typeof one === 'string');
  const given = more.find((one) => typeof one !== 'string');
  const scenario = given ?? burdock(...MEASURED, 'link.outage_rate={ value: none, note: a cable }', ...overrides);
  const causes = rows(counts);
  const risk = proportion(
    causes.reduce((sum, one) => sum + one.risk.count, 0),
    FLIGHTS,
  );
  const findings: Findings = {
    scenario,
    inputs: nominalDraw(scenario).inputs,
    flights: FLIGHTS,
    interrupted: null,
    groundImpact: { name: 'ground impact', limit: 0.05, risk, verdict: verdictOf(risk, 0.05) },
    flightsToSettle: null,
    numerical: 0,
    curve: [],
    causes,
    judged: [{ criterion: { warning: { code: 'keep-out' } }, found: { verdict: 'within' } }] as never,
    keepOut: [{ name: 'road', inside: proportion(3, FLIGHTS), soft: 2, notSoft: 1 }],
    decisions: {},
  };
  return warningsOf(findings);
}

describe('a bench trial beside a bare guess', () => {
  it('0 of 40 is told to carry the risk, with what would settle it: 7.9 - 4.7 (1 - 41/241) = 4.0', () => {
    const found = warnings({ 'rotor dead': 376, reaction: 256 }, TRIED).find(({ code }) => code === 'few trials');
    expect(found?.text).toMatch(
      /^59 of 100 failures rest on how few trials there are of rotors\.dead: after 0 failures in 40/,
    );
    // (0 + 1/2) / (40 + 1), the mean of Jeffreys's posterior.
    expect(found?.text).toContain('counts as 1.2 %');
    expect(found?.advice).toMatch(/^Start the motors, each rotor counted, 200 times: with no failure .* about 4 %\.$/);
    expect(warnings({ 'rotor dead': 376, reaction: 256 }, TRIED).map(({ code }) => code)).not.toContain(
      'exact guesses',
    );
  });

  it('the guess is told to be taken as exact, with the trials that it claims: 0.5 / 0.0005 - 1', () => {
    const found = warnings({ reaction: 256, 'rotor dead': 16 }, GUESSED);
    const exact = found.find(({ code }) => code === 'exact guesses');
    expect(exact?.text).toMatch(/^6 of 100 failures come from guesses taken as exact: rotors\.dead 0\.05 %\./);
    expect(exact?.advice).toContain('rotors.dead claims what about 1000 trials without a failure would show');
    expect(found.map(({ code }) => code)).not.toContain('few trials');
  });

  it('trials that carry little are left in peace', () => {
    expect(warnings({ reaction: 256, 'rotor dead': 16 }, TRIED).map(({ code }) => code)).not.toContain('few trials');
  });
});

describe('guesses taken as exact', () => {
  it('are the failures by every guessed chance together; a law, a measurement and "none" are not among them', () => {
    const scenario = burdock('pilot.lapse={ value: 3 %, source: guess }', GUESSED, 'arms.release_failure=0.2 %');
    const causes = rows({ lapse: 50, 'rotor dead': 20, 'arm release': 10, 'arm shut': 15, reaction: 105 });
    const found = exactGuessesOf(scenario, causes);
    expect(found).toMatchObject({ failures: 200, count: 80 });
    expect(found && exactGuessesSentence(found)).toMatch(/^40 of 100 failures come from guesses/);
    const law = 'rotors.dead={ log-normal: { median: 0.05 %, spread: 1 }, source: guess }';
    expect(exactGuessesOf(burdock(law, ...MEASURED), rows({ 'rotor dead': 20 }))).toBeNull();
  });
});

describe('the order of the warnings', () => {
  it('has the hazards to people first, then what was left at perfect', () => {
    const codes = warnings({ reaction: 900 }, 'pilot.reaction=0 s', 'plan.motor_stop=""').map(({ code }) => code);
    expect(codes.slice(0, 4)).toEqual(['keep-out', 'no arming guard', 'no motor stop', 'left at perfect']);
    expect(codes.slice(4).filter((code) => HAZARDS.includes(code))).toEqual([]);
  });
});

describe('a launch code', () => {
  const said = (source: 'standard' | 'decided') => {
    const scenario = burdock('wind.speed=10 m/s');
    const inputs = scenario.inputs.map((one) => (one.path === 'site.launch_wind_limit' ? { ...one, source } : one));
    const found = warnings({ reaction: 9 }, { ...scenario, inputs });
    return found.find(({ code }) => code === 'wind over the launch code')?.text;
  };

  it('that nobody named is told to be assumed by the program', () => {
    expect(said('standard')).toMatch(
      /20 mph of high-power rocketry codes, which the program assumed because the scenario/,
    );
    expect(said('decided')).toContain("over the launch code's 8.94 m/s");
  });
});

it('what was learnt counts as a guess until its spread is halved', () => {
  const law = 'normal: { mean: 1, sd: 0.04 }, kind: fixed but not measured, source: learnt, logs: 2';
  const guess = (left: number) =>
    isGuess(
      burdock(`can.drag_factor={ ${law}, spread_left: ${left} }`).inputs.find(
        ({ path }) => path === 'can.drag_factor',
      ) ??
        (() => {
          throw new Error('no drag factor');
        })(),
    );
  expect([guess(0.8), guess(0.51), guess(0.5)]).toEqual([true, true, false]);
});
