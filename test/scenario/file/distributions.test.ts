import { describe, expect, test } from 'vitest';
import { inputOf, problemsOf, readVariant } from './memory-files.js';

const VARIES = 'varies from flight to flight';
const UNMEASURED = 'fixed but not measured';

function mass(text: string) {
  return inputOf(readVariant(`can:\n  mass: ${text}\n`), 'can.mass');
}

describe('an input is read into SI', () => {
  test('a bare value', () => {
    expect(mass('620 g')).toEqual({
      path: 'can.mass',
      shape: 'quantity',
      value: { form: 'fixed', value: 0.62 },
      unit: 'g',
      perSi: 1000,
      offset: 0,
      source: 'not said',
      note: '',
      written: '620 g',
    });
  });

  test('a value with its provenance', () => {
    expect(mass('{ value: 620 g, source: measured, note: kitchen scale }')).toMatchObject({
      value: { form: 'fixed', value: 0.62 },
      source: 'measured',
      note: 'kitchen scale',
      written: '620 g',
    });
  });

  test('a decision is a decision, a standard is a standard', () => {
    expect(inputOf(readVariant(''), 'plan.throttle_up_height').source).toBe('decided');
    expect(inputOf(readVariant(''), 'pilot.response_time')).toMatchObject({ source: 'standard', written: '0.25 s' });
  });

  test.each<[string, object]>([
    ['normal: { mean: 610 g, sd: 5 g }', { family: 'normal', mean: 0.61, sd: 0.005 }],
    ['log-normal: { median: 610 g, spread: 0.1 }', { family: 'log-normal', median: 0.61, spread: 0.1 }],
    ['uniform: { from: 600 g, to: 0.62 kg }', { family: 'uniform', from: 0.6, to: 0.62 }],
    ['triangular: { from: 600 g, mode: 605 g, to: 620 g }', { family: 'triangular', from: 0.6, mode: 0.605, to: 0.62 }],
    ['beta: { a: 2, b: 5, from: 600 g, to: 620 g }', { family: 'beta', a: 2, b: 5, from: 0.6, to: 0.62 }],
    ['weibull: { shape: 50, scale: 610 g }', { family: 'weibull', shape: 50, scale: 0.61 }],
    ['samples: [612 g, 0.6 kg, 605 g]', { family: 'samples', values: [0.6, 0.605, 0.612] }],
  ])('%s', (text, distribution) => {
    expect(mass(`{ ${text}, kind: ${VARIES} }`).value).toMatchObject({ form: 'uncertain', distribution, kind: VARIES });
  });

  test('as written, on one line', () => {
    expect(mass(`{ normal: { mean: 610 g, sd: 5 g }, at_least: 590 g, kind: ${VARIES} }`).written).toBe(
      'normal, mean 610 g, sd 5 g, at least 590 g',
    );
    expect(inputOf(readVariant(''), 'pilot.picture.judgement').written).toBe(
      'log-normal, median (uniform, from 0.7, to 1; not measured), spread 0.4',
    );
    expect(inputOf(readVariant(''), 'arms.stuck').written).toBe('0 failures in 240 trials');
  });
});

describe('bounds', () => {
  test('what is impossible cuts a distribution that reaches there', () => {
    expect(mass(`{ normal: { mean: 610 g, sd: 5 g }, kind: ${VARIES} }`).value).toMatchObject({
      atLeast: 0,
      atMost: 25,
    });
    expect(mass(`{ log-normal: { median: 610 g, spread: 1 }, kind: ${VARIES} }`).value).toMatchObject({
      atLeast: null,
      atMost: 25,
    });
    expect(mass(`{ uniform: { from: 600 g, to: 620 g }, kind: ${VARIES} }`).value).toMatchObject({
      atLeast: null,
      atMost: null,
    });
  });

  test('bounds in the file cut further', () => {
    const text = `{ normal: { mean: 610 g, sd: 5 g }, at_least: 600 g, at_most: 620 g, kind: ${VARIES} }`;
    expect(mass(text).value).toMatchObject({ atLeast: 0.6, atMost: 0.62 });
  });

  test('a bound where the distribution ends by itself needs no cut', () => {
    const text = `{ uniform: { from: 600 g, to: 620 g }, at_least: 590 g, kind: ${VARIES} }`;
    expect(mass(text).value).toMatchObject({ atLeast: null });
  });
});

describe('temperatures', () => {
  test('the mean is absolute, the standard deviation a difference', () => {
    const text = `site:\n  temperature: { normal: { mean: 86 degF, sd: 9 degF }, kind: ${VARIES} }\n`;
    expect(inputOf(readVariant(text), 'site.temperature')).toMatchObject({
      value: { distribution: { mean: 303.15, sd: 5 } },
      unit: 'degC',
      perSi: 1,
      offset: -273.15,
    });
  });
});

describe('what nobody has measured', () => {
  test('a parameter with a distribution of its own, cut to what the parameter can be', () => {
    const median = `{ normal: { mean: 1.2 s, sd: 0.2 s }, kind: ${UNMEASURED} }`;
    const text = `pilot:\n  reaction: { log-normal: { median: ${median}, spread: 0.4 }, kind: ${VARIES} }\n`;
    expect(inputOf(readVariant(text), 'pilot.reaction').value).toEqual({
      form: 'uncertain',
      kind: VARIES,
      atLeast: null,
      atMost: 60,
      distribution: {
        family: 'log-normal',
        spread: 0.4,
        median: {
          form: 'uncertain',
          kind: UNMEASURED,
          distribution: { family: 'normal', mean: 1.2, sd: 0.2 },
          atLeast: 0,
          atMost: 60,
        },
      },
    });
  });

  test('a chance from trials is unmeasured without saying so', () => {
    expect(inputOf(readVariant(''), 'arms.stuck').value).toEqual({
      form: 'uncertain',
      kind: UNMEASURED,
      distribution: { family: 'trials', trials: 240, failures: 0 },
      atLeast: null,
      atMost: null,
    });
  });

  test('a chance with a distribution is stretched over 0 to 1', () => {
    const read = readVariant('rotors:\n  dead: { beta: { a: 1, b: 99 } }\n');
    expect(inputOf(read, 'rotors.dead').value).toMatchObject({
      kind: UNMEASURED,
      distribution: { family: 'beta', a: 1, b: 99, from: 0, to: 1 },
    });
  });
});

describe('measured samples from a CSV file', () => {
  const variant = (samples: string, csv: string) =>
    readVariant(`pilot:\n  reaction: { samples: ${samples}, kind: ${VARIES} }\n`, [], { 'bench.csv': csv });
  const CSV = 'run,delay\n1,1.4\n2,1.1\n\n3,"2.0"\n';

  test('are read with the unit of the column and sorted', () => {
    const input = inputOf(variant('{ file: bench.csv, column: delay, unit: s }', CSV), 'pilot.reaction');
    expect(input.value).toMatchObject({ distribution: { family: 'samples', values: [1.1, 1.4, 2] } });
    expect(input.written).toBe('measured values, column delay of bench.csv');
  });

  test('also with semicolons and Windows line ends', () => {
    const csv = '\ufeffrun;delay\r\n1;1.4\r\n2;1.1\r\n';
    const input = inputOf(variant('{ file: bench.csv, column: delay, unit: s }', csv), 'pilot.reaction');
    expect(input.value).toMatchObject({ distribution: { values: [1.1, 1.4] } });
  });

  test.each([
    ['remarks and blank lines', '# bench 3\n\nrun,delay\n1,1.4\n# pause\n\n2,1.1\n'],
    ['decimal commas between semicolons', '\ufeff# Pr\u00fcfstand\r\nrun;delay\r\n1;1,4\r\n2;1,1\r\n'],
    ['tabs', 'run\tdelay\n1\t1.4\n2\t1.1'],
    ['a name in capitals', 'Run,Delay\n1,1.4\n2,1.1\n'],
    ['the separator in a quoted name', '"run, of two",delay\n1,1.4\n2,1.1\n'],
  ])('are read with %s, as a log is', (_, csv) => {
    const input = inputOf(variant('{ file: bench.csv, column: delay, unit: s }', csv), 'pilot.reaction');
    expect(input.value).toMatchObject({ distribution: { values: [1.1, 1.4] } });
  });

  test('of a file without a header go by the number of the column', () => {
    const input = inputOf(variant('{ file: bench.csv, column: 2, unit: s }', '1,1.4\n2,1.1\n'), 'pilot.reaction');
    expect(input.value).toMatchObject({ distribution: { values: [1.1, 1.4] } });
  });

  test.each<[string, string, RegExp]>([
    [
      '{ file: bnch.csv, column: delay, unit: s }',
      CSV,
      /^it\.yaml:3:32: .*"bnch\.csv", which does not exist; .* Did you mean "bench\.csv"\?$/,
    ],
    [
      '{ file: bench.csv, column: dely, unit: s }',
      CSV,
      /^it\.yaml:3:51: .*"dely", which is no column .* Did you mean "delay"\?$/,
    ],
    ['{ file: bench.csv, column: delay }', CSV, /^it\.yaml:3:24: .*no text for "unit"/],
    ['{ file: bench.csv, column: delay, unit: g }', CSV, /^bench\.csv:2:3: .*"1\.4 g", a mass; expected a time/],
    [
      '{ file: bench.csv, column: delay, unit: s }',
      'run,delay\n1,fast\n2,1\n',
      /^bench\.csv:2:3: .*"fast s", without a number/,
    ],
    ['{ file: bench.csv, column: delay, unit: s }', 'run,delay\n1,1\n2\n', /^bench\.csv:3:2: .*found nothing/],
    ['{ file: bench.csv, column: delay, unit: s }', 'run,delay\n1,1\n', /^it\.yaml:3:24: .*1 values; expected from 2/],
    [
      '{ file: bench.csv, column: delay, unit: s }',
      '# bench\nrun,delay\n\n1,1\n2,"x"\n',
      /^bench\.csv:5:3: .*"x s", without a number/,
    ],
    [
      '{ file: bench.csv, column: delay, unit: s }',
      'run,delay\n1,1,4\n2,1,1\n',
      /^bench\.csv:2:5: .*3 cells; expected 2, as in the header \(columns with decimal commas/,
    ],
    [
      '{ file: bench.csv, column: delay, unit: s }',
      'delay,delay\n1,1\n2,3\n',
      /^it\.yaml:3:51: .*found 2 columns "delay" in "bench\.csv"; expected a name of its own for each/,
    ],
    ['{ file: bench.csv, column: delay, unit: s }', '', /"delay", which is no column/],
    ['[1 s, 1 s]', CSV, /values that are all equal/],
    ['3 s', CSV, /found "3 s"; expected a list of values/],
  ])('%s', (samples, csv, message) => {
    expect(problemsOf(variant(samples, csv))[0]).toMatch(message);
  });
});
