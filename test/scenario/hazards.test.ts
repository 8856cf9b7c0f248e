import { describe, expect, test } from 'vitest';
import { leafPaths, optionalSections } from '../../sim/scenario/definition/leaves.js';
import { DECISIONS, STARTING_VALUES } from '../../sim/scenario/definition/starting-values.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { mustBeGiven } from '../../sim/scenario/file/standard.js';
import { leftAtPerfect, scenarioWarnings } from '../../sim/scenario/hazards.js';
import { memoryFiles, problemsOf, scenarioOf } from './file/memory-files.js';

/** A file of nothing but what must be given. */
const REQUIRED = leafPaths()
  .filter(({ path, entry }) => entry.shape !== 'luck' && mustBeGiven(entry) && !optional(path))
  .map(({ path }) => `${path}=${path in DECISIONS ? decided(path) : STARTING_VALUES[path]}`);

function optional(path: string): boolean {
  return optionalSections().some((section) => path.startsWith(`${section}.`));
}

function decided(path: string): string {
  return path === 'plan.throttle_up_height' ? '233 m' : '4 %';
}

const read = (...more: readonly string[]) =>
  readScenario('bare.yaml', [...REQUIRED, ...more], memoryFiles({ 'bare.yaml': 'title: Bare' }));
const codes = (...more: readonly string[]) => scenarioWarnings(scenarioOf(read(...more))).map(({ code }) => code);

describe('a file of required entries only', () => {
  test('is told first of the hazards to people, then of all that was left at perfect', () => {
    expect(codes()).toEqual(['no keep-out', 'no arming guard', 'no motor stop', 'left at perfect']);
    expect(leftAtPerfect(scenarioOf(read())).map(({ path }) => path)).toEqual([
      'rotors.dead',
      'ejection.load',
      'arms.release_failure',
      'arms.stuck',
      'pilot.reaction',
      'pilot.lapse',
      'link.outage_rate',
    ]);
    const [text] = scenarioWarnings(scenarioOf(read())).flatMap(({ code, text: one }) =>
      code === 'left at perfect' ? [one] : [],
    );
    expect(text).toContain('attention is never elsewhere (pilot.lapse)');
  });

  test('is told nothing of hazards that it answers', () => {
    const answers = [
      'plan.motor_stop=the pilot, with a switch',
      'stabiliser.arming_guard={ rate: 500 deg/s, tilt: 60 deg }',
      'site.keep_out=[{ name: road, east: 100 m, north: 0 m, radius: 20 m }]',
    ];
    expect(codes(...answers)).toEqual(['left at perfect']);
  });

  test('does not ask for a reaction or a lapse where nobody gives the order', () => {
    const paths = leftAtPerfect(scenarioOf(read('plan.cue=automatic'))).map(({ path }) => path);
    expect(paths).not.toContain('pilot.reaction');
    expect(paths).toContain('rotors.dead');
  });
});

describe('"none" for a chance', () => {
  test('is taken with a reason, and then no longer told of', () => {
    const scenario = scenarioOf(read('arms.stuck={ value: none, note: the arms are fixed }'));
    expect(leftAtPerfect(scenario).map(({ path }) => path)).not.toContain('arms.stuck');
    const input = scenario.inputs.find(({ path }) => path === 'arms.stuck');
    expect(input).toMatchObject({ value: { form: 'fixed', value: 0 }, source: 'decided', written: 'none' });
  });

  test.each(['none', '{ value: none }', '{ value: none, note: "" }'])('is refused without one: %s', (written) => {
    expect(problemsOf(read(`pilot.lapse=${written}`))).toEqual([
      expect.stringMatching(
        /pilot\.lapse: found "none" without a reason; expected \{ value: none, note: why attention/,
      ),
    ]);
  });

  test('a 0 without a reason is told of all the same', () => {
    expect(leftAtPerfect(scenarioOf(read('pilot.lapse=0'))).map(({ path }) => path)).toContain('pilot.lapse');
  });
});

test('every chance whose standard is 0 says what is then taken as perfect', () => {
  const silent = leafPaths().filter(
    ({ entry }) => entry.shape === 'chance' && entry.standard !== undefined && entry.perfect === undefined,
  );
  expect(silent).toEqual([]);
});

describe('what the command line changed', () => {
  const FILE = 'title: Base\nextends: bare.yaml\npilot:\n  lapse: 3 %\n';
  const files = memoryFiles({ 'bare.yaml': 'title: Bare', 'own.yaml': FILE });
  const changed = (...overrides: readonly string[]) =>
    scenarioOf(readScenario('own.yaml', [...REQUIRED, ...overrides], files)).changed.filter(({ path }) =>
      overrides.some((one) => one.startsWith(`${path}=`)),
    );

  test('is kept beside what the file says, or what holds where it says nothing', () => {
    expect(changed('pilot.lapse=1 %')).toEqual([{ path: 'pilot.lapse', given: '1 %', inFile: '3 %' }]);
    expect(changed('pilot.reaction=1 s')).toEqual([
      { path: 'pilot.reaction', given: '1 s', inFile: 'nothing (standard 0 s)' },
    ]);
    expect(changed('stabiliser.arming_guard={ rate: 500 deg/s, tilt: 60 deg }')[0].inFile).toBe('nothing');
  });

  test('is nothing where it says the same, and the last word where it says two things', () => {
    expect(changed('pilot.lapse=0.03')).toEqual([]);
    expect(changed('pilot.lapse=1 %', 'pilot.lapse=2 %').map(({ given }) => given)).toEqual(['2 %']);
  });

  test('leaves the hash to what the flights follow from', () => {
    const hash = (...overrides: readonly string[]) =>
      scenarioOf(readScenario('own.yaml', [...REQUIRED, ...overrides], files)).hash;
    expect(hash('pilot.lapse=3 %')).toBe(hash());
    expect(hash('plan.motor_stop=the pilot')).toBe(hash());
    expect(hash('pilot.lapse=1 %')).not.toBe(hash());
  });
});

describe('what was learnt', () => {
  const learnt = (more: string) => `{ normal: { mean: 1, sd: 0.04 }, kind: fixed but not measured, ${more} }`;

  test('says from how many logs, and how much of the spread they left', () => {
    const scenario = scenarioOf(read(`can.drag_factor=${learnt('source: learnt, logs: 2, spread_left: 0.62')}`));
    const input = scenario.inputs.find(({ path }) => path === 'can.drag_factor');
    expect(input).toMatchObject({ source: 'learnt', learnt: { logs: 2, spreadLeft: 0.62 } });
  });

  test.each([
    ['source: learnt', '"source: learnt" without "logs"'],
    ['source: learnt, logs: 0, spread_left: 0.5', '"0"'],
    ['source: guess, logs: 2', '"logs" without "source: learnt"'],
  ])('is refused with half of it: %s', (more, found) => {
    expect(problemsOf(read(`can.drag_factor=${learnt(more)}`))[0]).toContain(found);
  });
});
