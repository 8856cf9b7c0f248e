/**
 * What a barometric altimeter shows: the height that its own formula makes of the pressure p around it and the pressure p_s
 * that it found on the ground, with the errors of its mounting:
 *   reading = formula(p, p_s) + bias + k V^2/(2 g) + noise,
 * V the airspeed, k the share of the dynamic pressure that reads as height: suction at the vents reads high, so late.
 *
 * The formulas, L = 0.0065 K/m, x = 1/5.255876:
 *   standard atmosphere    (288.15/L) ((p_s/101325)^x - (p/101325)^x): pressure altitude less that of the ground (US Standard
 *                          Atmosphere 1976)
 *   fixed sea level        44330 (1 - (p/p_s)^0.1903): as if the ground were at sea level on a standard day (data sheets of
 *                          barometric sensors, Bosch BST-BMP180-DS000-09, as libraries carry it)
 *   temperature corrected  (T_s/L) (1 - (p/p_s)^x): T_s the air temperature at the ground, as the altimeter was told rightly
 * In air that is hydrostatic with the standard lapse (atmosphere.ts) the three are linear in the geopotential height above the
 * ground; of the second, 0.1903 for x leaves under 2 mm in 1 km.
 */
import {
  GRAVITY,
  geopotentialRise,
  groundPressure,
  LAPSE,
  PRESSURE_EXPONENT,
  SEA_LEVEL_PRESSURE,
  SEA_LEVEL_TEMPERATURE,
  type Site,
} from './atmosphere.js';

export type AltimeterFormula = 'standard atmosphere' | 'fixed sea level' | 'temperature corrected';

/** The rounded numbers of the data sheets: 288.15/0.0065 m and 1/5.255876. */
const SHEET_LENGTH = 44_330;
const SHEET_EXPONENT = 0.1903;

/** Height in m that the formula makes of a pressure in Pa. */
export function formulaHeight(formula: AltimeterFormula, site: Site, pressure: number): number {
  const ground = groundPressure(site);
  const x = 1 / PRESSURE_EXPONENT;
  switch (formula) {
    case 'standard atmosphere':
      return (
        (SEA_LEVEL_TEMPERATURE / LAPSE) * ((ground / SEA_LEVEL_PRESSURE) ** x - (pressure / SEA_LEVEL_PRESSURE) ** x)
      );
    case 'fixed sea level':
      return SHEET_LENGTH * (1 - (pressure / ground) ** SHEET_EXPONENT);
    case 'temperature corrected':
      return (site.temperature / LAPSE) * (1 - (pressure / ground) ** x);
  }
}

/** Metres that the formula shows for each geopotential metre above the ground of the site. */
export function readingScale(formula: AltimeterFormula, site: Site): number {
  switch (formula) {
    case 'standard atmosphere':
      return (
        (SEA_LEVEL_TEMPERATURE / site.temperature) *
        (groundPressure(site) / SEA_LEVEL_PRESSURE) ** (1 / PRESSURE_EXPONENT)
      );
    case 'fixed sea level':
      return (SHEET_LENGTH * LAPSE * SHEET_EXPONENT * PRESSURE_EXPONENT) / site.temperature;
    case 'temperature corrected':
      return 1;
  }
}

/** Metres shown for each true metre just above the ground: the scale with a geopotential metre's share of a true one. */
export function readingSlope(formula: AltimeterFormula, site: Site): number {
  return readingScale(formula, site) * geopotentialRise(site.elevation, 1);
}

/**
 * Reading in m without noise.
 *
 * @param rise geopotential metres above the ground
 * @param scale of `readingScale`
 */
export function barometricReading(
  rise: number,
  airspeed: number,
  scale: number,
  bias: number,
  flowError: number,
): number {
  return scale * rise + bias + (flowError * airspeed * airspeed) / (2 * GRAVITY);
}
