import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { again } from '../../cli/arguments/again.js';
import { givenOverrides } from '../../cli/arguments/scenario.js';
import {
  parseAssurance,
  parseDate,
  parseFlights,
  parseHalfWidth,
  parseHeight,
  parseHeights,
  parseRisk,
  parseSeed,
  parseThreads,
} from '../../cli/arguments/values.js';

describe('the arguments', () => {
  it.each([
    ['8000', 8000],
    ['1', 1],
    ['1e6', 1e6],
  ])('read %s flights', (text, value) => {
    expect(parseFlights(text)).toEqual({ status: 'ok', value });
  });

  it.each(['', 'abc', '0', '-5', '1.5', '0x10', '1e', 'Infinity', 'NaN', ' 8', '1e999'])(
    'refuse %j flights',
    (text) => {
      expect(parseFlights(text).status).toBe('refused');
    },
  );

  it.each(['0', '1.5', '9999', 'all'])('refuse %j threads', (text) => {
    expect(parseThreads(text).status).toBe('refused');
  });

  it.each([
    ['5 %', 0.05],
    ['5%', 0.05],
    ['0.05', 0.05],
    ['0.5 %', 0.005],
  ])('read an acceptable risk of %s', (text, value) => {
    expect(parseRisk(text)).toEqual({ status: 'ok', value });
  });

  it.each(['5', '0', '0 %', '100 %', '1.0', '-1 %', 'five', '', '5 % of flights'])('refuse a risk of %j', (text) => {
    expect(parseRisk(text).status).toBe('refused');
  });

  it.each([
    ['0.5%', 0.005],
    ['0.7 %', 0.007],
    ['0.01', 0.01],
  ])('read a half-width of %s without the noise of the last binary digit', (text, value) => {
    expect(parseHalfWidth(text)).toEqual({ status: 'ok', value });
  });

  it.each(['0', '0.001 %', '11 %', '0.5', '5', 'narrow', ''])('refuse a half-width of %j', (text) => {
    expect(parseHalfWidth(text).status).toBe('refused');
  });

  it('say where a percent sign is lacking, and only there', () => {
    const hint = (text: string) => JSON.stringify(parseHalfWidth(text)).includes('write \\"0.5 %\\"');
    expect([hint('0.5'), hint('abc'), hint('11 %')]).toEqual([true, false, false]);
  });

  it.each(['100 %', '0', '90', '0.5 %'])('refuse an assurance of %j', (text) => {
    expect(parseAssurance(text).status).toBe('refused');
    expect(parseAssurance('90%')).toEqual({ status: 'ok', value: 0.9 });
  });

  it('take any short text for a date, and no other', () => {
    expect(parseDate(' 1 May, before the flight ')).toEqual({ status: 'ok', value: '1 May, before the flight' });
    for (const text of ['', '  ', 'a\nb', 'x'.repeat(61)]) expect(parseDate(text).status).toBe('refused');
  });

  it.each(['0', 'launch day', 'Ä', '-1'])('take %j for a seed', (text) => {
    expect(parseSeed(text)).toEqual({ status: 'ok', value: text });
  });

  it.each(['', '  ', 'a\nb', 'x'.repeat(201)])('refuse the seed %j', (text) => {
    expect(parseSeed(text).status).toBe('refused');
  });

  it.each([
    ['80,120,200', [80, 120, 200]],
    ['80 m, 120 m', [80, 120]],
    ['80:140:20', [80, 100, 120, 140]],
    ['0.1:0.5:0.1', [0.1, 0.2, 0.3, 0.4, 0.5]],
    ['80:100:15', [80, 95]],
  ])('read the heights %s', (text, heights) => {
    expect(parseHeights(text)).toEqual({ status: 'ok', value: { kind: 'list', heights } });
  });

  it.each([
    '',
    ',',
    '80,',
    '80,abc',
    '80:20',
    '200:80:20',
    '80:200:0',
    '80:200:-5',
    '0,5',
    '-80',
    '1:9000:1',
    'planed',
  ])('refuse the heights %j with what to write instead', (text) => {
    expect(parseHeights(text)).toMatchObject({ status: 'refused', messages: [expect.stringContaining('--heights')] });
  });

  it('never give a number that is none, whatever is written', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const height = parseHeight(text);
        expect(height === null || (height > 0 && Number.isFinite(height))).toBe(true);
        for (const parsed of [parseFlights(text), parseThreads(text), parseRisk(text)])
          expect(parsed.status === 'refused' || (Number.isFinite(parsed.value) && parsed.value > 0)).toBe(true);
      }),
    );
  });

  it('make of the acceptable risk one more change of the scenario', () => {
    const given = { set: ['can.mass=590 g'], 'acceptable-risk': '2 %' };
    const value = ['can.mass=590 g', 'criteria.ground_impact_risk=2 %'];
    expect(givenOverrides(given)).toEqual({ status: 'ok', value });
    expect(givenOverrides({ 'acceptable-risk': '2' }).status).toBe('refused');
  });
});

describe('the command that repeats a study', () => {
  it('holds what was computed, quoted for a shell, and not how', () => {
    const given = { flights: '500', set: ["title=Bob's can"], threads: '2', quiet: true, csv: true };
    expect(again('assess', 'my can.yaml', given)).toBe(
      "fallmargin assess 'my can.yaml' --flights 500 --set 'title=Bob'\\''s can' --csv",
    );
    const sure = { until: '0.5%', assurance: '90 %', date: '1 May', heights: 'planned' };
    expect(again('assess', 'can.yaml', sure)).toBe(
      "fallmargin assess can.yaml --until 0.5% --heights planned --assurance '90 %' --date '1 May'",
    );
  });
});
