import { describe, expect, it } from 'vitest';
import type { PessimisticResult, WorldsResult } from '../../../sim/assess/decisions.js';
import { type Findings, warningsOf } from '../../../sim/assess/warnings/warnings.js';
import { criteriaOf, named, outsideCircle } from '../../../sim/decision/criteria.js';
import type { HeightDecision } from '../../../sim/decision/result.js';
import { nominalDraw } from '../../../sim/draws/drawer.js';
import { proportion, verdictOf } from '../../../sim/statistics/proportion.js';
import { burdock } from '../../ensemble/burdock.js';

function findings(changes: Partial<Findings> = {}, ...overrides: readonly string[]): Findings {
  const scenario = burdock('invented=no', 'wind.speed=3 m/s', ...overrides);
  return {
    scenario,
    inputs: nominalDraw(scenario).inputs,
    flights: 8000,
    interrupted: null,
    groundImpact: impact(240, 8000),
    flightsToSettle: null,
    numerical: 0,
    curve: [],
    causes: [],
    judged: [],
    keepOut: [],
    decisions: {},
    ...changes,
  };
}

/** What was found of ground impact, with a limit of 5 %. */
function impact(count: number, flights: number) {
  const risk = proportion(count, flights);
  return { name: 'ground impact', limit: 0.05, risk, verdict: verdictOf(risk, 0.05) };
}

const codes = (...found: Parameters<typeof findings>) => warningsOf(findings(...found)).map(({ code }) => code);
const text = (code: string, ...found: Parameters<typeof findings>) =>
  warningsOf(findings(...found)).find((warning) => warning.code === code)?.text;
const point = (height: number) => ({ height }) as never;

describe('the warnings about a result', () => {
  it('always come with advice', () => {
    const all = findings({ interrupted: 'heights asked for', flights: 10, numerical: 1 }, 'wind.speed=12 m/s');
    for (const { text: said, advice } of warningsOf(all))
      expect([said, advice].every((one) => /^\S.*\.$/s.test(one))).toBe(true);
  });

  // 59 flights are the fewest that can show 5 %: 1 - 0.05^(1/59) = 0.0495.
  it('tell that too few flights were flown for the risk, and stop telling at the number they name', () => {
    expect(codes({ flights: 58 })).toContain('too few flights');
    expect(codes({ flights: 59 })).not.toContain('too few flights');
  });

  it('tell that too few flights failed to say why, with the number that would do', () => {
    const found = warningsOf(findings({ groundImpact: impact(5, 1000) })).find(({ code }) => code === 'few failures');
    expect(found?.advice).toContain('--flights 4000');
    expect(codes({ groundImpact: impact(20, 1000) })).not.toContain('few failures');
    expect(codes({ groundImpact: impact(0, 1000) })).not.toContain('few failures');
  });

  it('tell when the interval is wider than the margin, with the flights that would settle it', () => {
    const found = warningsOf(findings({ groundImpact: impact(5, 100), flightsToSettle: 12345 }));
    expect(found.find(({ code }) => code === 'wide interval')?.advice).toContain('--flights 13000');
    expect(codes()).not.toContain('wide interval');
  });

  it('tell when no more flights could make the interval as narrow as was asked', () => {
    const stopping = { asked: 0.0001, reached: 0.0003, flights: 1_000_000, reason: 'most flights reached' } as const;
    expect(codes({ decisions: { stopping } })).toContain('not narrow enough');
    expect(codes({ decisions: { stopping: { ...stopping, reason: 'narrow enough' } } })).not.toContain(
      'not narrow enough',
    );
  });

  it('tell of a bound that clips the distribution', () => {
    const clipped =
      'can.mass={ normal: { mean: 610 g, sd: 5 g }, at_least: 610 g, kind: varies from flight to flight }';
    expect(text('clipped', {}, clipped)).toContain('cut off 50 %');
    expect(codes()).not.toContain('clipped');
  });

  it('tell of numerical failures', () => {
    expect(codes({ numerical: 1 })).toContain('numerical');
    expect(codes()).not.toContain('numerical');
  });

  it('tell when the planned height is at the edge of the grid, not inside it and not alone', () => {
    expect(codes({ curve: [point(100), point(250)] })).toContain('edge of the grid');
    expect(codes({ curve: [point(100), point(250), point(300)] })).not.toContain('edge of the grid');
    expect(codes({ curve: [point(250)] })).not.toContain('edge of the grid');
  });

  it('tell when the recommended height is the lowest that was looked at', () => {
    const curve = [point(100), point(250), point(300)];
    const recommended = (height: number) => ({ heightDecision: { latest: height } as HeightDecision });
    expect(codes({ curve, decisions: recommended(100) })).toContain('edge of the grid');
    expect(codes({ curve, decisions: recommended(250) })).not.toContain('edge of the grid');
  });

  it('tell how many flights are launched in wind over the launch code', () => {
    const ceiling = 'site.launch_wind_limit=8 m/s';
    const code = 'wind over the launch code';
    expect(text(code, {}, 'wind.speed=9 m/s', ceiling)).toContain('All flights');
    expect(codes({}, 'wind.speed=8 m/s', ceiling)).not.toContain(code);
    // Uniform from 0 to 10: a fifth above 8. Weibull of shape 2 and scale 4: exp(-(8/4)^2) = 1.8 %.
    const law = (written: string) => `wind.speed={ ${written}, kind: varies from flight to flight }`;
    const uniform = 'uniform: { from: 0 m/s, to: 10 m/s }';
    expect(text(code, {}, law(uniform), ceiling)).toContain('About 20 flights in 100');
    expect(text(code, {}, law('weibull: { shape: 2, scale: 4 m/s }'), ceiling)).toContain('About 2 flights in 100');
    // The own bound counts: from 0 to 9, a ninth is above 8; cut at the ceiling nothing is.
    expect(text(code, {}, law(`${uniform}, at_most: 9 m/s`), ceiling)).toContain('About 11 flights in 100');
    expect(codes({}, law(`${uniform}, at_most: 8 m/s`), ceiling)).not.toContain(code);
  });

  it('tell of each criterion that is not shown to be kept, in the words of its entry', () => {
    const criterion = outsideCircle(300, 0.05);
    const found = (count: number) => {
      const risk = proportion(count, 1000);
      return { judged: [{ criterion, found: { ...criterion, risk, verdict: verdictOf(risk, 0.05) } }] };
    };
    expect(text('outside the circle', found(90))).toBe(
      'About 9 flights in 100 come down outside the recovery circle (9.0 % (7.5 to 10.7 %); limit 5 %).',
    );
    expect(codes(found(50))).toContain('outside the circle');
    expect(codes(found(20))).not.toContain('outside the circle');
    const silent = { ...criterion, warning: null };
    expect(codes({ judged: [{ ...found(90).judged[0], criterion: silent }] })).not.toContain('outside the circle');
  });

  it('tell of a footprint that crosses a keep-out circle', () => {
    const road = 'site.keep_out=[{ name: road, east: 0 m, north: 0 m, radius: 9 m }]';
    const [, , criterion] = criteriaOf(burdock(road));
    const seen = (count: number, flights: number) => {
      const inside = proportion(count, flights);
      const found = { ...named(criterion), risk: inside, verdict: verdictOf(inside, criterion.limit) };
      return { judged: [{ criterion, found }], keepOut: [{ name: 'road', inside, soft: count, notSoft: 0 }] };
    };
    expect(text('keep-out', seen(1, 8000))).toBe(
      '1 of 8000 flights come down inside the keep-out circle "road", 1 of them softly.',
    );
    expect(codes(seen(0, 8000))).not.toContain('keep-out');
    expect(text('keep-out', seen(0, 100))).toBe(
      'No flight in 100 came down inside the keep-out circle "road" (none in 100: at most 3 %; limit 0.2 %, assumed by the program).',
    );
    expect(warningsOf(findings(seen(0, 100))).find(({ code }) => code === 'keep-out')?.advice).toContain('About 1500');
    expect(codes(seen(8000, 8000)).filter((code) => code === 'keep-out')).toHaveLength(1);
  });

  it('tell of invented numbers, of guesses, and of an interrupted study with the part that is missing', () => {
    expect(warningsOf({ ...findings(), scenario: burdock() }).map(({ code }) => code)).toContain('invented');
    expect(codes()).not.toContain('invented');
    expect(codes()).toContain('guesses');
    expect(text('partial', { interrupted: 'heights asked for' })).toContain('8000 flights flown');
    expect(text('partial', { interrupted: 'fresh flights' })).toContain('"fresh flights"');
  });

  it('tell of a craft without an arming guard', () => {
    expect(codes()).toContain('no arming guard');
    const guard = 'stabiliser.arming_guard={ rate: 500 deg/s, tilt: 60 deg }';
    expect(codes({}, guard)).not.toContain('no arming guard');
  });
});

describe('the warnings about what nobody has measured', () => {
  const share = (estimate: number) => ({ estimate, lower: estimate - 0.1, upper: Math.min(1, estimate + 0.1) });
  const worlds = (height: number, within: number) =>
    ({ height, lower: 0.01, upper: 0.09, shareWithin: share(within), worlds: 100 }) as WorldsResult;

  it('tell when a height that is within the limit is not so in many plausible worlds', () => {
    expect(text('wide worlds', { decisions: { worlds: worlds(250, 0.7) } })).toMatch(/250 m 1 to 9 %.*about 70 of 100/);
    expect(codes({ decisions: { worlds: worlds(250, 0.95) } })).not.toContain('wide worlds');
    expect(codes({ groundImpact: impact(800, 8000), decisions: { worlds: worlds(250, 0.1) } })).not.toContain(
      'wide worlds',
    );
  });

  it('tell when fewer worlds than demanded are within the limit', () => {
    const assurance = { demanded: 0.9, worlds: worlds(250, 0.7), met: false };
    expect(text('not assured', { decisions: { assurance } })).toMatch(/about 70 of 100 .* 90 % was demanded/);
    expect(codes({ decisions: { assurance: { ...assurance, worlds: worlds(250, 0.9) } } })).not.toContain(
      'not assured',
    );
    expect(codes({ decisions: { assurance: { ...assurance, worlds: null } } })).not.toContain('not assured');
  });

  it('tell when the pessimistic quarters turn the verdict, and not when it is above the limit already', () => {
    const pessimistic = (verdict: string) =>
      ({ height: 250, limit: 0.05, risk: proportion(180, 2000), verdict }) as PessimisticResult;
    expect(text('pessimistic', { decisions: { pessimistic: pessimistic('above') } })).toMatch(/250 m is 9\.0 %/);
    expect(codes({ decisions: { pessimistic: pessimistic('not shown') } })).not.toContain('pessimistic');
    expect(codes({ groundImpact: impact(800, 8000), decisions: { pessimistic: pessimistic('above') } })).not.toContain(
      'pessimistic',
    );
  });
});
