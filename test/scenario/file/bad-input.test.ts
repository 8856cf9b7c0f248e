/** Every kind of bad input gets a message with its place, what was found, what was expected and the nearest valid name. */
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/scenario/file/read.js';
import { memoryFiles, problemsOf, readAlone, readVariant } from './memory-files.js';

const VARIES = 'kind: varies from flight to flight';

/** Reads a variant of a good scenario; its first line is `extends`, so that what differs begins in line 2. */
function problems(differs: string): readonly string[] {
  return problemsOf(readVariant(differs));
}

describe('files', () => {
  test('a missing file, with the nearest name in the folder', () => {
    expect(problemsOf(readScenario('burdok.yaml', [], memoryFiles({ 'burdock.yaml': '' })))).toEqual([
      'burdok.yaml:1:1: found "burdok.yaml", which does not exist; expected the path of a scenario file. Did you mean "burdock.yaml"?',
    ]);
  });

  test('a folder in place of a file', () => {
    expect(problemsOf(readScenario('configs'))).toEqual([
      'configs:1:1: found "configs", which is a folder; expected the path of a scenario file.',
    ]);
  });

  test.each(['', '\n\n', '# nothing but a comment\n'])('an empty file: %j', (text) => {
    expect(problemsOf(readAlone(text))).toEqual([
      'it.yaml:1:1: found an empty file; expected a scenario: sections such as "can:" and "plan:"; "fallmargin init" writes one to start from.',
    ]);
  });

  test('a list in place of a scenario', () => {
    expect(problemsOf(readAlone('# list\n- can\n'))[0]).toMatch(
      /^it\.yaml:2:1: found a list of 1; expected a scenario/,
    );
  });

  test('broken YAML, with no word of what would follow from it', () => {
    expect(problems('can:\n  mass: "610 g\n')).toEqual([
      'it.yaml:4:1: found broken YAML (Missing closing "quote); expected valid YAML.',
    ]);
  });

  test('two documents in a file', () => {
    expect(problems('---\ntitle: one\n')[0]).toMatch(/^it\.yaml:2:1: found broken YAML \(/);
  });
});

describe('keys', () => {
  test('a duplicate key, in the same run as other problems', () => {
    expect(problems('can:\n  mass: 610\n  mass: 620 g\n')).toEqual([
      'it.yaml:3:9: can.mass: found "610", a number without a unit; expected a mass with its unit, such as "420 g".',
      'it.yaml:4:3: found "mass" a second time in the same section; expected each key once.',
    ]);
  });

  test('an unknown key, with the nearest one', () => {
    expect(problems('can:\n  masss: 610 g\n')).toEqual([
      expect.stringMatching(
        /^it\.yaml:3:3: can: found "masss", which is unknown here; expected one of diameter, length, mass, .*\. Did you mean "mass"\?$/,
      ),
    ]);
  });

  test('a known key in the wrong section, with where it belongs', () => {
    expect(problems('rotors:\n  capacity: 450 mAh\n')).toEqual([
      expect.stringMatching(/^it\.yaml:3:3: rotors: .* Did you mean "battery\.capacity"\?$/),
    ]);
  });

  test('an unknown section', () => {
    expect(problems('pilott:\n  reaction: 1 s\n')).toEqual([
      expect.stringMatching(
        /^it\.yaml:2:1: found "pilott", which is unknown at the top of a scenario; .* Did you mean "pilot"\?$/,
      ),
    ]);
  });

  test.each(['constructor', '__proto__', 'toString', 'hasOwnProperty'])('the key %s is as unknown as any', (key) => {
    expect(problems(`can:\n  ${key}: 1 g\n`)).toEqual([
      expect.stringMatching(/^it\.yaml:3:3: can: found .*unknown here/),
    ]);
  });

  test('what is drawn anew for each flight cannot be set', () => {
    expect(problems('ejection:\n  attitude: 0\n')).toEqual([
      'it.yaml:3:3: ejection: found "attitude", which is drawn anew for each flight; expected nothing: it cannot be set.',
    ]);
  });

  test('a merge key is no entry', () => {
    expect(problems('can: &can { mass: 610 g }\nrotors:\n  <<: *can\n')).toEqual([
      expect.stringMatching(/^it\.yaml:4:3: rotors: found "<<", which is unknown here/),
    ]);
  });

  test('a map as a key', () => {
    expect(problems('can:\n  ? { mass: 1 }\n  : 610 g\n')).toEqual([
      'it.yaml:3:5: found a key that is not a word; expected a name followed by a colon.',
    ]);
  });
});

describe('values', () => {
  test('a missing unit', () => {
    expect(problems('plan:\n  throttle_up_height: 250\n')).toEqual([
      'it.yaml:3:23: plan.throttle_up_height: found "250", a number without a unit; expected a length with its unit, such as "250 m".',
    ]);
  });

  test('a wrong dimension', () => {
    expect(problems('can:\n  mass: 610 mm\n')).toEqual([
      'it.yaml:3:9: can.mass: found "610 mm", a length; expected a mass with its unit, such as "420 g".',
    ]);
  });

  test('grams in place of gravities', () => {
    expect(problems('ejection:\n  load: 60 g\n')).toEqual([
      'it.yaml:3:9: ejection.load: found "60 g", and "g" is grams; expected an acceleration with its unit, such as "100 gee". Did you mean "gee"?',
    ]);
  });

  test('35 degC, 35 °C and 300 K are all right where a temperature stands', () => {
    for (const text of ['35 degC', '35 °C', '300 K']) expect(problems(`site:\n  temperature: ${text}\n`)).toEqual([]);
  });

  test('a negative mass, and none at all', () => {
    expect(problems('can:\n  mass: -5 g\n')).toEqual([
      'it.yaml:3:9: can.mass: found "-5 g", below 0; expected a mass above 0 g, at most 25 kg.',
    ]);
    expect(problems('can:\n  mass: 0 g\n')).toEqual([
      'it.yaml:3:9: can.mass: found "0 g", not above 0; expected a mass above 0 g, at most 25 kg.',
    ]);
  });

  test('a distribution around a negative mass', () => {
    expect(problems(`can:\n  mass: { normal: { mean: -5 g, sd: 1 g }, ${VARIES} }\n`)).toEqual([
      'it.yaml:3:27: can.mass.normal.mean: found "-5 g", below 0; expected a mass above 0 g, at most 25 kg.',
    ]);
  });

  test('a value beyond what can be', () => {
    expect(problems('site:\n  elevation: 9000 m\n')).toEqual([
      'it.yaml:3:14: site.elevation: found "9000 m", too large; expected a length of at least -430 m, at most 6000 m.',
    ]);
  });

  test('a chance above 1 and below 0', () => {
    const expected = 'expected a chance from 0 to 1, or from 0 % to 100 %.';
    expect(problems('rotors:\n  dead: 1.2\n')).toEqual([
      `it.yaml:3:9: rotors.dead: found "1.2", too large; ${expected}`,
    ]);
    expect(problems('rotors:\n  dead: 120 %\n')).toEqual([
      `it.yaml:3:9: rotors.dead: found "120 %", too large; ${expected}`,
    ]);
    expect(problems('rotors:\n  dead: -0.1\n')).toEqual([
      `it.yaml:3:9: rotors.dead: found "-0.1", below 0; ${expected}`,
    ]);
  });

  test('half a cell', () => {
    expect(problems('battery:\n  cells: 3.5\n')).toEqual([
      'it.yaml:3:10: battery.cells: found "3.5", not a whole number; expected a whole number of at least 1, at most 14.',
    ]);
  });

  test.each(['.nan', '.inf', '-.inf'])('a number that is none: %s', (text) => {
    expect(problems(`wind:\n  gust_factor: ${text}\n`)).toEqual([
      expect.stringContaining('it.yaml:3:16: wind.gust_factor: found'),
    ]);
  });

  test.each(['', 'true', '[610 g]', '~'])('a thing of another kind: %j', (text) => {
    expect(problems(`can:\n  mass: ${text}\n`)).toEqual([
      expect.stringMatching(/^it\.yaml:3:\d+: can\.mass: found .*; expected a mass above 0 g/),
    ]);
  });

  test('a section in place of a section that is a value', () => {
    expect(problems('can: 5 g\n')).toEqual([
      expect.stringMatching(/^it\.yaml:2:6: can: found "5 g"; expected a section with diameter, length/),
    ]);
  });

  test('a choice that does not exist', () => {
    expect(problems('plan:\n  cue: callout\n')).toEqual([
      'it.yaml:3:8: plan.cue: found "callout"; expected one of "call-out", "picture", "timer", "automatic". Did you mean "call-out"?',
    ]);
  });

  test('an empty title', () => {
    expect(problems('title: ""\n')).toEqual(['it.yaml:2:8: title: found an empty text; expected a text.']);
  });
});

describe('distributions', () => {
  const mass = (text: string) => problems(`can:\n  mass:\n    ${text}\n    ${VARIES}\n`);

  test('a standard deviation of 0 and below 0', () => {
    const expected = 'expected a standard deviation above 0 g (a value that does not vary is written bare).';
    expect(mass('normal: { mean: 610 g, sd: 0 g }')).toEqual([
      `it.yaml:4:32: can.mass.normal.sd: found "0 g", not above 0; ${expected}`,
    ]);
    expect(mass('normal: { mean: 610 g, sd: -5 g }')).toEqual([
      `it.yaml:4:32: can.mass.normal.sd: found "-5 g", below 0; ${expected}`,
    ]);
  });

  test('a spread of 0', () => {
    expect(mass('log-normal: { median: 610 g, spread: 0 }')).toEqual([
      'it.yaml:4:42: can.mass.log-normal.spread: found "0", not above 0; expected a spread above 0, at most 5.',
    ]);
  });

  test('ends the wrong way round', () => {
    expect(mass('uniform: { from: 700 g, to: 600 g }')).toEqual([
      'it.yaml:4:33: can.mass.uniform: found "from" 700 g, which is not below "to" 600 g; expected "from", "to" in rising order.',
    ]);
    expect(mass('triangular: { from: 500 g, mode: 700 g, to: 600 g }')).toEqual([
      'it.yaml:4:49: can.mass.triangular: found "mode" 700 g, which is not below "to" 600 g; expected "from", "mode", "to" in rising order.',
    ]);
    expect(mass('uniform: { from: 600 g, to: 600 g }')).toHaveLength(1);
  });

  test('a triangular distribution may have its mode at an end', () => {
    expect(mass('triangular: { from: 500 g, mode: 500 g, to: 600 g }')).toEqual([]);
    expect(mass('triangular: { from: 500 g, mode: 600 g, to: 600 g }')).toEqual([]);
    expect(mass('triangular: { from: 500 g, mode: 500 g, to: 500 g }')).toHaveLength(1);
  });

  test('bounds the wrong way round', () => {
    expect(mass('normal: { mean: 610 g, sd: 5 g }\n    at_least: 620 g\n    at_most: 600 g')).toEqual([
      'it.yaml:6:14: can.mass: found "at_least" 620 g, which is not below "at_most" 600 g; expected "at_least" below "at_most".',
    ]);
  });

  test('bounds that exclude the distribution', () => {
    expect(mass('normal: { mean: 610 g, sd: 5 g }\n    at_least: 700 g')).toEqual([
      'it.yaml:5:15: can.mass: found bounds that exclude the distribution: less than a millionth of it lies inside; expected bounds around the distribution, or a distribution inside the bounds.',
    ]);
    expect(mass('uniform: { from: 600 g, to: 620 g }\n    at_most: 590 g')).toHaveLength(1);
    // Normal beyond 4 standard deviations: 3.2e-5, thin but there.
    expect(mass('normal: { mean: 610 g, sd: 5 g }\n    at_least: 630 g')).toEqual([]);
  });

  test('ends outside what is possible', () => {
    expect(mass('uniform: { from: -10 g, to: 600 g }')).toEqual([
      'it.yaml:4:22: can.mass.uniform.from: found "-10 g", below 0; expected a mass above 0 g, at most 25 kg.',
    ]);
  });

  test('a distribution that does not say its kind', () => {
    expect(problems('can:\n  mass: { normal: { mean: 610 g, sd: 5 g } }\n')).toEqual([
      'it.yaml:3:9: can.mass: found a distribution without its kind; expected "kind: varies from flight to flight" or "kind: fixed but not measured".',
    ]);
  });

  test('a kind that does not exist', () => {
    expect(problems('can:\n  mass: { normal: { mean: 610 g, sd: 5 g }, kind: varies }\n')).toEqual([
      expect.stringMatching(/^it\.yaml:3:51: .* Did you mean "varies from flight to flight"\?$/),
    ]);
  });

  test('a misspelt family and a misspelt parameter', () => {
    expect(mass('norml: { mean: 610 g, sd: 5 g }')).toEqual([
      expect.stringMatching(/^it\.yaml:4:5: can\.mass: found "norml".* Did you mean "normal"\?$/),
    ]);
    expect(mass('normal: { mean: 610 g, std: 5 g }')).toEqual([
      'it.yaml:4:13: can.mass.normal.sd: found nothing for "sd"; expected a standard deviation above 0 g (a value that does not vary is written bare).',
      'it.yaml:4:28: can.mass.normal: found "std", which is unknown here; expected one of mean, sd. Did you mean "sd"?',
    ]);
  });

  test('two distributions at once, and a distribution beside a value', () => {
    expect(mass('normal: { mean: 610 g, sd: 5 g }\n    uniform: { from: 600 g, to: 620 g }')).toEqual([
      'it.yaml:5:5: can.mass: found "uniform" beside "normal"; expected one distribution.',
    ]);
    expect(mass('normal: { mean: 610 g, sd: 5 g }\n    value: 610 g')).toEqual([
      'it.yaml:4:5: can.mass: found "value" and a distribution at once; expected one of them.',
    ]);
  });

  test('a kind but no distribution', () => {
    expect(problems(`can:\n  mass: { ${VARIES} }\n`)).toEqual([
      expect.stringMatching(
        /^it\.yaml:3:9: can\.mass: found a section with "kind"; expected one of value, samples, normal/,
      ),
    ]);
  });

  test('a distribution for a decision', () => {
    expect(problems(`plan:\n  throttle_up_height: { normal: { mean: 250 m, sd: 5 m }, ${VARIES} }\n`)).toEqual([
      'it.yaml:3:25: plan.throttle_up_height: found a distribution for what is a decision or a rule; expected one value.',
    ]);
  });

  test('a parameter that varies from flight to flight, or is three levels deep', () => {
    const reaction = (median: string) =>
      problems(`pilot:\n  reaction: { log-normal: { median: ${median}, spread: 0.4 }, ${VARIES} }\n`);
    expect(reaction(`{ uniform: { from: 1 s, to: 2 s }, ${VARIES} }`)).toEqual([
      expect.stringMatching(/found "varies from flight to flight"; expected "fixed but not measured": /),
    ]);
    expect(
      reaction(
        '{ uniform: { from: { uniform: { from: 1 s, to: 2 s }, kind: fixed but not measured }, to: 3 s }, kind: fixed but not measured }',
      ),
    ).toEqual([
      expect.stringMatching(
        /^it\.yaml:3:56: pilot\.reaction\.log-normal\.median\.from: found a section with "uniform"; expected a time/,
      ),
    ]);
    expect(reaction('{ uniform: { from: 1 s, to: 2 s } }')).toEqual([
      expect.stringMatching(/without its kind; expected "kind: fixed but not measured"/),
    ]);
  });

  test('unmeasured ends that could cross', () => {
    const to = '{ uniform: { from: 0.5 s, to: 3 s }, kind: fixed but not measured }';
    expect(problems(`pilot:\n  reaction: { uniform: { from: 1 s, to: ${to} }, ${VARIES} }\n`)).toEqual([
      expect.stringMatching(/^it\.yaml:3:41: pilot\.reaction\.uniform: found "from" 1 s, which is not below "to"/),
    ]);
  });

  test('a chance that varies from flight to flight', () => {
    expect(problems(`rotors:\n  dead: { beta: { a: 1, b: 20 }, ${VARIES} }\n`)).toEqual([
      'it.yaml:3:40: rotors.dead: found "varies from flight to flight"; expected "fixed but not measured": the event varies from flight to flight, its chance is one number that nobody knows.',
    ]);
  });

  test('more failures than trials, no trials, half a failure', () => {
    const dead = (text: string) => problems(`rotors:\n  dead: ${text}\n`);
    expect(dead('{ trials: 10, failures: 11 }')).toEqual([
      'it.yaml:3:33: rotors.dead.failures: found "11", too large; expected a whole number of failures, at most the trials.',
    ]);
    expect(dead('{ trials: 0, failures: 0 }')[0]).toMatch(/^it\.yaml:3:19: rotors\.dead\.trials: found "0"/);
    expect(dead('{ trials: 10, failures: 0.5 }')).toHaveLength(1);
    expect(dead('{ failures: 0 }')).toEqual([
      'it.yaml:3:9: rotors.dead: found nothing for "trials"; expected a whole number of trials, at least 1.',
    ]);
  });

  test('a source of another name', () => {
    expect(problems('can:\n  mass: { value: 610 g, source: meassured }\n')).toEqual([
      'it.yaml:3:33: can.mass.source: found "meassured"; expected one of measured, datasheet, guess, learnt; more in "note". Did you mean "measured"?',
    ]);
  });
});

describe('tables and lists', () => {
  test('a table out of order, of wrong width, or without units', () => {
    const table = (rows: string) => problems(`battery:\n  open_circuit: ${rows}\n`);
    expect(table('[[0 %, 3 V], [100 %, 4.2 V]]')).toEqual([]);
    expect(table('[[50 %, 3 V], [0 %, 4.2 V]]')[0]).toMatch(
      /^it\.yaml:3:31: battery\.open_circuit\[2\]: found a charge that is not above/,
    );
    expect(table('[[0 %, 3 V], [100 %]]')[0]).toMatch(/^it\.yaml:3:30: battery\.open_circuit\[2\]: found a list of 1/);
    expect(table('[[0 %, 3], [100 %, 4.2 V]]')[0]).toMatch(
      /^it\.yaml:3:24: battery\.open_circuit\[1\]\.voltage: found "3", a number without a unit/,
    );
    expect(table('[[0 %, 3 V]]')).toHaveLength(1);
  });

  test('a keep-out circle with something missing and something unknown', () => {
    expect(problems('site:\n  keep_out:\n    - { name: road, east: 5 m, north: 0 m, radus: 5 m }\n')).toEqual([
      'it.yaml:4:7: site.keep_out[1]: found nothing for "radius"; expected "radius": Radius.',
      expect.stringMatching(/^it\.yaml:4:44: site\.keep_out\[1\]: found "radus".* Did you mean "radius"\?$/),
    ]);
  });
});

describe('what is missing', () => {
  test('an entry, pointing at its section', () => {
    const text = 'can:\n  diameter: 80 mm\n';
    expect(problemsOf(readAlone(text))).toContainEqual(
      'it.yaml:1:1: can.mass: found no such entry; expected "mass": Mass at ejection, everything on board.',
    );
  });

  test('a whole section is one problem', () => {
    const all = problemsOf(readAlone('title: x\n'));
    expect(all.filter((line) => line.includes(' rotors'))).toEqual([
      'it.yaml:1:1: rotors: found no such section; expected "rotors" with at least diameter, distance_from_axis, height_above_centre_of_mass, bench_thrust, bench_power, bench_voltage, zero_thrust_speed, vortex_ring_depth.',
    ]);
  });

  test('an entry of an optional section that is begun', () => {
    expect(problems('parachute:\n  fire_below: 20 m\n')).toEqual([
      'it.yaml:2:1: parachute.diameter: found no such entry; expected "diameter": Diameter of the cloth laid flat.',
      'it.yaml:2:1: parachute.fire_faster_than: found no such entry; expected "fire_faster_than": Fires only when the barometric height falls faster than this over 0.6 s.',
    ]);
  });

  test('an entry that could not be read is not called missing as well', () => {
    expect(problemsOf(readAlone('can:\n  mass: 610\n')).filter((line) => line.includes('can.mass'))).toHaveLength(1);
  });
});

test('all problems of a file come at once and in the order of its lines', () => {
  const lines = problems('can:\n  mass: 610\n  lenght: 1 m\nbattery:\n  capacity: 5 g\nplan:\n  cue: shout\n').map(
    (line) => line.split(': ')[0],
  );
  expect(lines).toEqual(['it.yaml:3:9', 'it.yaml:4:3', 'it.yaml:6:13', 'it.yaml:8:8']);
});

test('a message is one line without control characters, whatever stands in the file', () => {
  const [line] = problems('can:\n  mass: "\\e[31m5\\n\\u202e g"\n');
  expect(line).toMatch(/^it\.yaml:3:9: /);
  expect(line).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
});
