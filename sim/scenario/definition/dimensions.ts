/** The words for each dimension: its name in messages, its SI unit, and the units that people write for it. */
import type { Dimension } from './shapes.js';

export interface DimensionWords {
  /** With its article, as "a mass". */
  readonly named: string;
  /** SI unit, in the spelling of the unit library. */
  readonly si: string;
  /** Common units, the usual unit first; suggestions come from them. */
  readonly units: readonly string[];
  /** A value as it would be written. */
  readonly example: string;
}

export const DIMENSIONS: Readonly<Record<Dimension, DimensionWords>> = {
  acceleration: { named: 'an acceleration', si: 'm/s^2', units: ['m/s^2', 'gee'], example: '100 gee' },
  angle: { named: 'an angle', si: 'rad', units: ['deg', 'rad'], example: '15 deg' },
  'angular rate': { named: 'an angular rate', si: 'rad/s', units: ['deg/s', 'rad/s', 'rpm'], example: '400 deg/s' },
  area: { named: 'an area', si: 'm^2', units: ['cm^2', 'mm^2', 'm^2', 'in^2'], example: '13 cm^2' },
  charge: { named: 'a charge', si: 'C', units: ['mAh', 'Ah', 'C'], example: '450 mAh' },
  density: { named: 'a density', si: 'kg/m^3', units: ['kg/m^3', 'g/cm^3'], example: '1.15 kg/m^3' },
  energy: { named: 'an energy', si: 'J', units: ['J', 'kJ'], example: '40 J' },
  force: { named: 'a force', si: 'N', units: ['gf', 'N', 'kgf', 'lbf'], example: '290 gf' },
  inertia: {
    named: 'a moment of inertia',
    si: 'kg*m^2',
    units: ['kg m^2', 'g cm^2', 'kg cm^2'],
    example: '5.9e-4 kg m^2',
  },
  length: { named: 'a length', si: 'm', units: ['m', 'mm', 'cm', 'km', 'in', 'ft'], example: '250 m' },
  mass: { named: 'a mass', si: 'kg', units: ['g', 'kg', 'oz', 'lb'], example: '420 g' },
  power: { named: 'a power', si: 'W', units: ['W', 'kW', 'mW'], example: '110 W' },
  pressure: { named: 'a pressure', si: 'Pa', units: ['hPa', 'Pa', 'kPa', 'mbar', 'bar', 'inHg'], example: '880 hPa' },
  rate: { named: 'a rate', si: '1/s', units: ['1/s', '1/min', '1/h', 'Hz'], example: '0.02/s' },
  ratio: { named: 'a number or a percentage', si: '1', units: ['%'], example: '0.15' },
  resistance: { named: 'a resistance', si: 'ohm', units: ['mohm', 'ohm'], example: '55 mohm' },
  speed: {
    named: 'a speed',
    si: 'm/s',
    units: ['m/s', 'km/h', 'mph', 'ft/s', 'knots', 'kn', 'kt'],
    example: '12 km/h',
  },
  temperature: { named: 'a temperature', si: 'degK', units: ['degC', '°C', 'K', 'degF', '°F'], example: '35 degC' },
  'temperature difference': {
    named: 'a temperature difference',
    si: 'degK',
    units: ['K', 'degC', '°C', 'degF', '°F'],
    example: '4 K',
  },
  'thermal resistance': {
    named: 'a thermal resistance',
    si: 'degK/W',
    units: ['K/W', 'degC/W', '°C/W'],
    example: '18 K/W',
  },
  time: { named: 'a time', si: 's', units: ['s', 'ms', 'min', 'h', 'd'], example: '0.5 s' },
  torque: { named: 'a torque', si: 'N*m', units: ['N m', 'mN m', 'N cm', 'kgf cm', 'gf cm'], example: '0.06 N m' },
  voltage: { named: 'a voltage', si: 'V', units: ['V', 'mV'], example: '15.2 V' },
};

/** The dimension of a standard deviation or width: that of the value, except that temperatures differ by differences. */
export function differenceOf(dimension: Dimension): Dimension {
  return dimension === 'temperature' ? 'temperature difference' : dimension;
}
