import { describe, expect, test } from 'vitest';
import type { Dimension } from '../../sim/scenario/definition/shapes.js';
import { displayUnit, parseQuantity, showQuantity } from '../../sim/scenario/units.js';

/** SI value of a text, or the status where it is refused. */
function si(text: string | number, dimension: Dimension): number | string {
  const parsed = parseQuantity(text, dimension);
  return parsed.status === 'ok' ? parsed.value : parsed.reason;
}

describe('a value with its unit becomes an SI number', () => {
  // Definitions of the units: inch 25.4 mm, mile 1609.344 m, g 9.80665 m/s2 (exact); the rest are SI prefixes.
  test.each<[string, Dimension, number]>([
    ['450 mAh', 'charge', 1620],
    ['420 g', 'mass', 0.42],
    ['3.5 in', 'length', 0.0889],
    ['850 m', 'length', 850],
    ['1200 deg/s', 'angular rate', (1200 * Math.PI) / 180],
    ['60 rpm', 'angular rate', 2 * Math.PI],
    ['12 km/h', 'speed', 12 / 3.6],
    ['20 mph', 'speed', 8.9408],
    ['3.3 mOhm', 'resistance', 0.0033],
    ['3.3 mohm', 'resistance', 0.0033],
    ['3.3 mΩ', 'resistance', 0.0033],
    ['40 J', 'energy', 40],
    ['0.04 kJ', 'energy', 40],
    ['290 gf', 'force', 0.29 * 9.80665],
    ['2 kgf', 'force', 2 * 9.80665],
    ['13 cm^2', 'area', 0.0013],
    ['13 cm2', 'area', 0.0013],
    ['13 cm²', 'area', 0.0013],
    ['1.15 kg/m^3', 'density', 1.15],
    ['1.15 kg/m3', 'density', 1.15],
    ['1.15 kg/m³', 'density', 1.15],
    ['100 gee', 'acceleration', 980.665],
    ['0.4 m/s^2', 'acceleration', 0.4],
    ['30 min', 'time', 1800],
    ['45 ms', 'time', 0.045],
    ['1 d', 'time', 86400],
    ['0.02/s', 'rate', 0.02],
    ['0/s', 'rate', 0],
    ['10 1/s', 'rate', 10],
    ['3/min', 'rate', 0.05],
    ['5.9e-4 kg m^2', 'inertia', 5.9e-4],
    ['5.9e-4 kg m2', 'inertia', 5.9e-4],
    ['5.9e-4 kg·m²', 'inertia', 5.9e-4],
    ['18 K/W', 'thermal resistance', 18],
    ['0.06 N m', 'torque', 0.06],
    ['60 mN m', 'torque', 0.06],
    ['612 gf cm', 'torque', 0.0612 * 9.80665 * 0.1],
    ['6 N cm', 'torque', 0.06],
    ['18 °C/W', 'thermal resistance', 18],
    ['880 hPa', 'pressure', 88000],
    ['1e-3 kg', 'mass', 0.001],
    ['.5 m', 'length', 0.5],
    ['+5m', 'length', 5],
    ['−5 m', 'length', -5],
  ])('%s', (text, dimension, expected) => {
    expect(si(text, dimension)).toBeCloseTo(expected, 12);
  });

  test('the same length in two units is the same number', () => {
    expect(si('3 in', 'length')).toBe(si('76.2 mm', 'length'));
    expect(si('0.61 kg', 'mass')).toBe(si('610 g', 'mass'));
  });
});

describe('a temperature is absolute, a difference of temperatures is not', () => {
  test.each<[string, number]>([
    ['35 degC', 308.15],
    ['35 °C', 308.15],
    ['35°C', 308.15],
    ['-5 degC', 268.15],
    ['300 K', 300],
    ['35 deg C', 308.15],
    ['77 degF', 298.15],
    ['77 °F', 298.15],
  ])('%s as a temperature', (text, expected) => {
    expect(si(text, 'temperature')).toBeCloseTo(expected, 10);
  });

  test.each<[string, number]>([
    ['4 K', 4],
    ['4 degC', 4],
    ['4 °C', 4],
    ['9 degF', 5],
  ])('%s as a difference', (text, expected) => {
    expect(si(text, 'temperature difference')).toBeCloseTo(expected, 12);
  });
});

describe('a ratio is a bare number or a percentage, and nothing else is bare', () => {
  test('numbers and percentages', () => {
    expect(si(0.15, 'ratio')).toBe(0.15);
    expect(si('0.15', 'ratio')).toBe(0.15);
    expect(si('15 %', 'ratio')).toBe(0.15);
    expect(si('15%', 'ratio')).toBe(0.15);
    expect(si('15 percent', 'ratio')).toBe(0.15);
  });

  test('a bare number elsewhere lacks its unit, also 0', () => {
    expect(si(420, 'mass')).toBe('no unit');
    expect(si('0', 'length')).toBe('no unit');
  });

  test('an angle is not a ratio, and a percentage is not a length', () => {
    expect(si('5 deg', 'ratio')).toBe('wrong dimension');
    expect(si('5 %', 'length')).toBe('wrong dimension');
    expect(si('5 rad/s', 'rate')).toBe('wrong dimension');
  });
});

describe('what the library would misread is refused, with what was meant', () => {
  test.each<[string, Dimension, string, string | null]>([
    ['100 g', 'acceleration', 'wrong dimension', 'gee'],
    ['290 g', 'force', 'wrong dimension', 'gf'],
    ['85 C', 'temperature', 'wrong dimension', 'degC'],
    ['77 F', 'temperature', 'wrong dimension', 'degF'],
    ['30 m', 'time', 'wrong dimension', 'min'],
    ['450 mah', 'charge', 'unknown unit', 'mAh'],
    ['450 mAhh', 'charge', 'unknown unit', 'mAh'],
    ['12 kmh', 'speed', 'unknown unit', 'km/h'],
    ['610 mm', 'mass', 'wrong dimension', null],
    ['12 m', 'temperature', 'wrong dimension', null],
  ])('%s as %s', (text, dimension, reason, nearest) => {
    expect(parseQuantity(text, dimension)).toMatchObject({ reason, nearest });
  });

  test.each<[string | number, string]>([
    ['', 'empty'],
    ['   ', 'empty'],
    ['m', 'no number'],
    ['heavy', 'no number'],
    ['NaN m', 'not finite'],
    ['.inf', 'not finite'],
    [Number.NaN, 'not finite'],
    [Number.POSITIVE_INFINITY, 'not finite'],
    ['1e400 m', 'not finite'],
    ['1,5 m', 'unknown unit'],
    ['1_000 m', 'unknown unit'],
    ['0x10 m', 'unknown unit'],
    ['1 m 3', 'unknown unit'],
    ['5 constructor', 'unknown unit'],
    ['5 __proto__', 'unknown unit'],
    ['5 m%', 'unknown unit'],
    ["5 m'", 'unknown unit'],
    ['5 m€', 'unknown unit'],
  ])('%j is no length', (text, status) => {
    expect(si(text, 'length')).toBe(status);
  });

  test('a unit of absurd length is not even tried', () => {
    expect(si(`5 ${'m'.repeat(5000)}`, 'length')).toBe('unknown unit');
  });

  test('a decimal comma is named', () => {
    expect(parseQuantity('1,5 m', 'length')).toMatchObject({ why: 'with a decimal comma instead of a point' });
  });

  test('the message tells the dimension that was found', () => {
    expect(parseQuantity('610 mm', 'mass')).toMatchObject({ why: 'a length' });
  });
});

describe('SI numbers are shown in the unit of the entry', () => {
  test.each<[number, string, Dimension, string]>([
    [0.61, 'g', 'mass', '610 g'],
    [303.15, 'degC', 'temperature', '30 degC'],
    [298.15, 'degF', 'temperature', '77 degF'],
    [0.05, '%', 'ratio', '5 %'],
    [1980, 'mAh', 'charge', '550 mAh'],
    [2.8439285, 'gf', 'force', '290 gf'],
    [0.142857, '', 'ratio', '0.1429'],
  ])('%d', (value, unit, dimension, expected) => {
    expect(showQuantity(value, displayUnit(unit, dimension))).toBe(expected);
  });

  test('a unit of another dimension is a bug', () => {
    expect(() => displayUnit('m', 'mass')).toThrow('not a unit of a mass');
  });
});
