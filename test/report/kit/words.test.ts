import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scenarioFile } from '../../../report/kit/words/command.js';
import { cssString, escapeText } from '../../../report/kit/words/escape.js';
import { inputName, inputValueText } from '../../../report/kit/words/inputs.js';
import {
  countText,
  fixedText,
  flightsText,
  numberText,
  plainText,
  printedFormula,
  printedUnits,
  prose,
  spreadText,
  spreadTexts,
  unbroken,
  withUnit,
} from '../../../report/kit/words/numbers.js';
import { framesSentence } from '../../../report/kit/words/sentences.js';
import { proportion } from '../../../sim/statistics/proportion.js';
import { spread } from '../../../sim/statistics/quantile.js';
import { SCENARIO } from '../assess/fixture.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');

describe('Numbers', () => {
  test('carry three significant digits at most', () => {
    expect(numberText(1.5249)).toBe('1.52');
    expect(numberText(71.44)).toBe('71.4');
    expect(numberText(412.4)).toBe('412');
    expect(numberText(14_914)).toBe('14914');
    expect(numberText(0.000_123_4)).toBe('0.000123');
    expect(numberText(0)).toBe('0');
  });

  test('have a true minus sign, and zero has none', () => {
    expect(fixedText(-0.04, 1)).toBe('0.0');
    expect(fixedText(-1.26, 1)).toBe('\u22121.3');
  });

  test('that were given stay as they were given', () => {
    expect([250, 0.5, 62.5, 1180].map(plainText)).toEqual(['250', '0.5', '62.5', '1180']);
  });

  test('of five digits and more are grouped', () => {
    expect(plain(countText(8000))).toBe('8000');
    expect(plain(countText(1_234_567))).toBe('1 234 567');
    expect(plain(flightsText(1))).toBe('1 flight');
  });
});

describe('A spread in words', () => {
  const evenly = (count: number, from: number, to: number) =>
    spread(Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1)));

  test('has no more digits than the interval of its median bears', () => {
    // Ranks of the median's 90 % interval: n/2 -+ 1.645 sqrt(n)/2, so half-widths of 8.2 m and 0.82 m here.
    expect(plain(spreadText(evenly(100, 100, 200), 'm'))).toBe('150 m (9 flights of 10: 105 to 195 m)');
    expect(spreadTexts(evenly(10_000, 100, 200), 'm')).toMatchObject({ median: '150', low: '105', high: '195' });
    expect(spreadTexts(evenly(100, 10, 20), 's')).toMatchObject({ median: '15.0', low: '10.5', high: '19.5' });
    expect(spreadTexts(evenly(25, 10, 20), 's')).toMatchObject({ median: '15', low: '11', high: '20' });
  });

  test('says so when no flight has it', () => {
    expect(spreadText(spread([]), 'm')).toBe('no flight');
  });
});

describe('Both frames', () => {
  test('name none and all as counts, never as a certainty', () => {
    expect(plain(framesSentence(proportion(0, 8000)))).toBe('All of 8000 flights landed softly.');
    expect(plain(framesSentence(proportion(40, 40)))).toBe('None of 40 flights landed softly.');
  });

  test('use one denominator and good grammar', () => {
    expect(plain(framesSentence(proportion(250, 8000)))).toBe(
      'About 3 flights in 100 do not land softly; about 97 flights in 100 do.',
    );
    expect(plain(framesSentence(proportion(80, 8000)))).toBe(
      'About 1 flight in 100 does not land softly; about 99 flights in 100 do.',
    );
    expect(plain(framesSentence(proportion(8, 8000)))).toBe(
      'Fewer than 1 flight in 100 does not land softly; more than 99 flights in 100 do.',
    );
  });
});

describe('Texts', () => {
  test('keep a figure and its unit on one line', () => {
    expect(unbroken('5 % of 250 m, 9 flights of 10, 3 modules')).toBe(
      '5\u00a0% of 250\u00a0m, 9\u00a0flights\u00a0of\u00a010, 3 modules',
    );
    expect(plain(prose('run `fallmargin check` first'))).toBe('run \u201cfallmargin check\u201d first');
  });

  test('of any kind stay text in HTML and in CSS', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(escapeText(text)).not.toMatch(/[<>"']/);
        expect(cssString(text)).toMatch(/^"[A-Za-z0-9 \\]*"$/);
      }),
    );
  });
});

describe('Units', () => {
  test('are printed as print has them', () => {
    expect(printedUnits('normal, mean 13 cm^2, sd 3.25 cm^2')).toBe('normal, mean 13 cm², sd 3.25 cm²');
    expect(printedUnits('400 deg/s, 30 deg, 35 degC, 5 mohm, 2 ohm, 1.2 kg/m^3')).toBe(
      '400°/s, 30°, 35 °C, 5 mΩ, 2 Ω, 1.2 kg/m³',
    );
    expect(withUnit('30', 'deg')).toBe('30°');
    expect(plain(withUnit('35', 'degC'))).toBe('35 °C');
  });

  test('stand in formulas with true signs, and powers that are no squares stay as written', () => {
    expect(printedFormula('4 (m g / 4)^1.5 / sqrt(2 density x disc area) - v^2')).toBe(
      '4 (m g / 4)^1.5 / √(2 density × disc area) − v²',
    );
  });
});

describe('Names', () => {
  test('of inputs read as people say them', () => {
    expect(inputName('rotors.vortex_ring_depth')).toBe('vortex ring depth (rotors)');
    expect(inputName('pilot.call_out.bias')).toBe('call out, bias (pilot)');
    expect(inputName('time_limit')).toBe('time limit');
    expect(inputName('pilot.lapse#event')).toBe('lapse (pilot): whether it happens');
    expect(inputName('arms.stuck#event[arm 2]')).toBe('stuck, arm 2 (arms): whether it happens');
    expect(inputName('arms.stuck#chance')).toBe('stuck (arms): its chance');
    expect(inputName('stabiliser.gyro_bias[x]')).toBe('gyro bias, x (stabiliser)');
  });

  test('of values carry the unit of the scenario', () => {
    expect(plain(inputValueText(SCENARIO, 'can.mass', 0.61))).toBe('610 g');
    expect(plain(inputValueText(SCENARIO, 'site.temperature', 308.15))).toBe('35.0 °C');
  });

  test('of files are the own ones, whatever the title, as a shell takes them for one word', () => {
    const named = (file: string) => scenarioFile({ ...SCENARIO, title: 'Another title', file });
    expect(named('burdock.yaml')).toBe('burdock.yaml');
    expect(named("Ann's can; rm -rf .yaml")).toBe("'Ann'\\''s can; rm -rf .yaml'");
    expect(named('-x.yaml')).toBe('./-x.yaml');
  });
});
