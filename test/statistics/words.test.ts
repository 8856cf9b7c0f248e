import { describe, expect, it } from 'vitest';
import { proportion } from '../../sim/statistics/proportion.js';
import {
  bothFrames,
  decimalsBorne,
  differenceParts,
  flightsInHundred,
  percentEnd,
  percentParts,
  proportionText,
  pValueText,
  riskWord,
} from '../../sim/statistics/words.js';

describe('risk word', () => {
  // MIL-STD-882E, table A-II: the lower edge belongs to the more frequent level.
  it('follows the levels of MIL-STD-882E', () => {
    expect([0.1, 0.0999, 1e-2, 0.00999, 1e-3, 0.000999, 1e-6, 9e-7, 0].map(riskWord)).toEqual([
      'frequent',
      'probable',
      'probable',
      'occasional',
      'occasional',
      'remote',
      'remote',
      'improbable',
      'improbable',
    ]);
  });
});

describe('figures', () => {
  it('bear one digit of the half-width, two when it begins with 1', () => {
    expect([5, 0.55, 0.19, 0.05, 12, 0].map(decimalsBorne)).toEqual([0, 1, 2, 2, 0, 0]);
  });

  it('round the ends of the interval outwards', () => {
    const parts = percentParts({ count: 0, flights: 1, estimate: 0.0312, lower: 0.02681, upper: 0.03641 });
    expect(parts).toEqual({ estimate: '3.1', lower: '2.6', upper: '3.7' });
    expect(percentParts({ count: 0, flights: 1, estimate: 0.03, lower: 0.01, upper: 0.05 }).upper).toBe('5');
  });

  it('have one digit, or whole percents from ten, at the ends of a spread over unmeasured inputs', () => {
    expect([0.0137, 0.0949, 0.134, 0.0042, 0.00096, 0, 0.5].map(percentEnd)).toEqual([
      '1',
      '9',
      '13',
      '0.4',
      '0.1',
      '0',
      '50',
    ]);
  });

  it('speak of counts where nothing or everything failed', () => {
    expect(proportionText(proportion(0, 8000))).toBe('none in 8000; up to 3 in 8000');
    expect(proportionText(proportion(40, 40))).toBe('all of 40; at least 37 in 40');
    expect(proportionText(proportion(0, 0))).toBe('not flown');
    expect(proportionText(proportion(31, 1000))).toBe('3.1 % (2.2 to 4.2 %)');
  });
});

describe('frequencies in words', () => {
  it('keep the denominator 100', () => {
    expect(flightsInHundred(0.0402)).toBe('about 4 flights in 100');
    expect(flightsInHundred(0.012)).toBe('about 1 flight in 100');
    expect(flightsInHundred(0.0004)).toBe('fewer than 1 flight in 100');
    expect(flightsInHundred(0)).toBe('no flight in 100');
    expect(flightsInHundred(1)).toBe('all flights in 100');
  });

  it('give both frames that add up to 100', () => {
    expect(bothFrames(proportion(35, 1000))).toEqual({
      hitsHard: 'about 4 flights in 100',
      landsSoftly: 'about 96 flights in 100',
    });
    expect(bothFrames(proportion(1, 8000))).toEqual({
      hitsHard: 'fewer than 1 flight in 100',
      landsSoftly: 'more than 99 flights in 100',
    });
    expect(bothFrames(proportion(0, 8000)).landsSoftly).toBe('all flights in 100');
  });
});

describe('a difference of two risks', () => {
  it('is in flights in 100, with the digits of its interval and ends rounded outwards', () => {
    expect(differenceParts({ estimate: 0.115, lower: 0.10151, upper: 0.1299 })).toEqual({
      estimate: '11.5',
      lower: '10.1',
      upper: '13.0',
    });
    expect(differenceParts({ estimate: -0.006, lower: -0.01083, upper: -0.00241 })).toEqual({
      estimate: '-0.6',
      lower: '-1.1',
      upper: '-0.2',
    });
  });

  it('is never a negative nought', () => {
    expect(differenceParts({ estimate: -0.0001, lower: -0.004, upper: 0.004 })).toMatchObject({ estimate: '0.0' });
  });

  it('has a chance by luck of two digits, and none under one in ten thousand', () => {
    expect([1, 0.31234, 0.0041809, 9e-5, 0].map(pValueText)).toEqual([
      '1',
      '0.31',
      '0.0042',
      'under 0.0001',
      'under 0.0001',
    ]);
  });
});
