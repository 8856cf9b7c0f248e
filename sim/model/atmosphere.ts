/**
 * The temperature, pressure and density of the air at a site and above it.
 *
 * US Standard Atmosphere 1976 (identical with ISO 2533 below 32 km), first layer:
 *   T = 288.15 - 0.0065 H,  p = 101325 (T/288.15)^5.255876,  rho = p / (287.05307 T),
 * where H is the geopotential height in m, H = r0 Z / (r0 + Z), r0 = 6 356 766 m. Range: -2 to 11 km.
 * A day warmer or colder than standard has the same lapse from its own temperature T_s at the ground, and the pressure that
 * is hydrostatic with that column, from p_s, standard or measured, at the ground (H_s):
 *   T = T_s - 0.0065 (H - H_s),  p = p_s (T/T_s)^5.255876.
 * The exponent is g/(0.0065 R), so dp/dH = -g rho holds exactly; a standard day has the standard pressure at every height.
 */

/** Gravity, taken as constant over the descent, m/s2 (ISO 80000-3). */
export const GRAVITY = 9.80665;

const EARTH_RADIUS = 6_356_766;
export const SEA_LEVEL_TEMPERATURE = 288.15;
export const SEA_LEVEL_PRESSURE = 101_325;
/** Fall of temperature with geopotential height, K/m. */
export const LAPSE = 0.0065;
const GAS_CONSTANT = 287.05307;
export const PRESSURE_EXPONENT = 5.255876;
const HEAT_RATIO = 1.4;

/** Geopotential height in m from geometric height in m, both above sea level. */
export function geopotentialHeight(geometric: number): number {
  return (EARTH_RADIUS * geometric) / (EARTH_RADIUS + geometric);
}

/** Standard temperature in K at a geopotential height in m. */
export function standardTemperature(geopotential: number): number {
  return SEA_LEVEL_TEMPERATURE - LAPSE * geopotential;
}

/** Standard pressure in Pa at a geopotential height in m. */
export function standardPressure(geopotential: number): number {
  return SEA_LEVEL_PRESSURE * (standardTemperature(geopotential) / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT;
}

/** Density in kg/m3 of dry air at pressure Pa and temperature K (ideal gas). */
export function gasDensity(pressure: number, temperature: number): number {
  return pressure / (GAS_CONSTANT * temperature);
}

/** Speed of sound in m/s at temperature K. */
export function soundSpeed(temperature: number): number {
  return Math.sqrt(HEAT_RATIO * GAS_CONSTANT * temperature);
}

/** The air over one site on one day. */
export interface Site {
  /** Height of the ground above sea level, m. */
  readonly elevation: number;
  /** Air temperature at the ground, K. */
  readonly temperature: number;
  /** Measured pressure at the ground in Pa, or null for the standard one. */
  readonly pressure: number | null;
}

/** Geopotential metres from the ground of a site at `elevation` m up to `height` m above it. */
export function geopotentialRise(elevation: number, height: number): number {
  return geopotentialHeight(elevation + height) - geopotentialHeight(elevation);
}

/** Pressure in Pa at the ground of the site: measured, or standard. */
export function groundPressure(site: Site): number {
  return site.pressure ?? standardPressure(geopotentialHeight(site.elevation));
}

/** Temperature in K at `height` m above the ground of the site. */
export function siteTemperature(site: Site, height: number): number {
  return site.temperature - LAPSE * geopotentialRise(site.elevation, height);
}

/** Pressure in Pa at `height` m above the ground of the site. */
export function sitePressure(site: Site, height: number): number {
  return groundPressure(site) * (siteTemperature(site, height) / site.temperature) ** PRESSURE_EXPONENT;
}

/** Density in kg/m3 at `height` m above the ground of the site. */
export function siteDensity(site: Site, height: number): number {
  return gasDensity(sitePressure(site, height), siteTemperature(site, height));
}

/** Metres between the nodes of a density profile. */
const PROFILE_STEP = 400;
const PER_PROFILE_STEP = 1 / PROFILE_STEP;

/**
 * Density over height as nodes every 400 m, read by the parabola through three of them: no power function in the
 * equations of motion. Relative error under 1e-5 (tested) between the ground and the last node.
 */
export interface DensityProfile {
  nodes: Float64Array;
  count: number;
}

export function createDensityProfile(): DensityProfile {
  return { nodes: new Float64Array(32), count: 0 };
}

/** Fills `profile` for a site up to `top` m above ground; above and below, the outermost parabola goes on. */
export function fillDensityProfile(profile: DensityProfile, site: Site, top: number): void {
  const count = Math.max(3, Math.ceil(top / PROFILE_STEP) + 2);
  if (count > profile.nodes.length) profile.nodes = new Float64Array(2 * count);
  for (let k = 0; k < count; k += 1) profile.nodes[k] = siteDensity(site, k * PROFILE_STEP);
  profile.count = count;
}

/** Density in kg/m3 at `height` m above ground. */
export function densityAt(profile: DensityProfile, height: number): number {
  const nodes = profile.nodes;
  const s = height * PER_PROFILE_STEP;
  let k = s | 0;
  if (k < 0) k = 0;
  if (k > profile.count - 3) k = profile.count - 3;
  const a = nodes[k];
  const b = nodes[k + 1];
  const c = nodes[k + 2];
  const u = s - k;
  return a + u * (b - a + 0.5 * (u - 1) * (c - 2 * b + a));
}
