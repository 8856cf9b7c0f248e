/**
 * The wind: the mean wind follows the power law, and the gusts follow the Dryden model as nodes on the flight's clock.
 *
 * Mean wind: U = U10 (z/10)^p (Hellmann; p = 1/7 over open ground), held below 0.1 m.
 * Gusts: Dryden, MIL-F-8785C, low altitude form, heights in FEET in the brackets:
 *   L_w = h, L_u = L_v = h/(0.177 + 0.000823 h)^1.2,
 *   sigma_w = 0.1 W20, sigma_u = sigma_v = sigma_w/(0.177 + 0.000823 h)^0.4,  10 ft <= h <= 1000 ft.
 * Below 10 ft the values at 10 ft hold. Above 2000 ft L is 1750 ft and all three intensities are sigma_w; between 1000 and
 * 2000 ft everything is linear in height. W20 is the mean wind at 20 ft. On each axis the gust is of first order, exact for
 * any step:
 *   g' = a g + sqrt(1 - a^2) N(0, 1),  a = exp(-V dt / L),  u = sigma(h) g,
 * where V is the airspeed, at least 1 m/s. g has unit variance, so the intensity follows the height at once.
 */

const METRES_PER_FOOT = 0.3048;
const REFERENCE_HEIGHT = 10;
const LOWEST_HEIGHT = 0.1;
const LOWEST_AIRSPEED = 1;

/** Mean wind speed in m/s at height z m, from the speed at 10 m and the exponent of the power law. */
export function meanWindSpeed(speedAt10m: number, exponent: number, z: number): number {
  return speedAt10m * (Math.max(z, LOWEST_HEIGHT) / REFERENCE_HEIGHT) ** exponent;
}

/** W20, the mean wind at 20 ft (6.096 m), m/s. */
export function windAt20Feet(speedAt10m: number, exponent: number): number {
  return meanWindSpeed(speedAt10m, exponent, 20 * METRES_PER_FOOT);
}

const BRACKET_CONSTANT = 0.177;
const BRACKET_SLOPE = 0.000823;
const LOW_FEET = 10;
const TOP_FEET = 1000;
const HIGH_FEET = 2000;
const HIGH_LENGTH_FEET = 1750;

/** Scale lengths in m and intensities relative to sigma_w at a height. */
export interface GustScales {
  /** L_u = L_v, m. */
  horizontalLength: number;
  /** L_w, m. */
  verticalLength: number;
  /** sigma_u / sigma_w. */
  horizontalRatio: number;
}

/** Dryden scales at height z m above ground, written into `into`. */
export function gustScales(z: number, into: GustScales): GustScales {
  const feet = z / METRES_PER_FOOT;
  const low = Math.min(Math.max(feet, LOW_FEET), TOP_FEET);
  const bracket = (BRACKET_CONSTANT + BRACKET_SLOPE * low) ** 0.4;
  let horizontal = low / (bracket * bracket * bracket);
  let vertical = low;
  let ratio = 1 / bracket;
  if (feet > TOP_FEET) {
    const blend = Math.min((feet - TOP_FEET) / (HIGH_FEET - TOP_FEET), 1);
    horizontal += blend * (HIGH_LENGTH_FEET - horizontal);
    vertical += blend * (HIGH_LENGTH_FEET - vertical);
    ratio += blend * (1 - ratio);
  }
  into.horizontalLength = horizontal * METRES_PER_FOOT;
  into.verticalLength = vertical * METRES_PER_FOOT;
  into.horizontalRatio = ratio;
  return into;
}

/** The scales at every foot up to 2000 ft, above which they are constant: length and ratio by turns. */
const FOOT_TABLE = Float64Array.from({ length: 2 * (HIGH_FEET + 1) }, (_, index) => {
  const scales = { horizontalLength: 0, verticalLength: 0, horizontalRatio: 0 };
  gustScales(Math.floor(index / 2) * METRES_PER_FOOT, scales);
  return index % 2 === 0 ? scales.horizontalLength : scales.horizontalRatio;
});

/**
 * The same scales read linearly between whole feet (relative error under 2e-4), without a power function:
 * into[0] = L_u = L_v in m, into[1] = L_w in m, into[2] = sigma_u / sigma_w.
 */
export function readGustScales(z: number, into: Float64Array): void {
  const feet = z / METRES_PER_FOOT;
  const x = feet < 0 ? 0 : Math.min(feet, HIGH_FEET);
  const k = Math.min(x | 0, HIGH_FEET - 1);
  const u = x - k;
  const at = 2 * k;
  const length = FOOT_TABLE[at];
  const ratio = FOOT_TABLE[at + 1];
  into[0] = length + u * (FOOT_TABLE[at + 2] - length);
  into[2] = ratio + u * (FOOT_TABLE[at + 3] - ratio);
  const vertical = Math.max(x, LOW_FEET);
  const blend = vertical > TOP_FEET ? (vertical - TOP_FEET) / (HIGH_FEET - TOP_FEET) : 0;
  into[1] = METRES_PER_FOOT * (blend > 0 ? TOP_FEET + blend * (HIGH_LENGTH_FEET - TOP_FEET) : vertical);
}

/** ln(z / 10 m) at every foot. */
const LOG_TABLE = Float64Array.from({ length: HIGH_FEET + 1 }, (_, feet) =>
  Math.log((feet * METRES_PER_FOOT) / REFERENCE_HEIGHT),
);

/**
 * The mean wind in m/s as `meanWindSpeed` gives it, but without a power function between 10 and 2000 ft: the logarithm read
 * linearly between whole feet (error under 1.3e-3) and the exponential taken by `exponential`.
 */
export function readMeanWind(speedAt10m: number, exponent: number, z: number): number {
  const feet = z / METRES_PER_FOOT;
  if (feet < LOW_FEET || feet >= HIGH_FEET) return meanWindSpeed(speedAt10m, exponent, z);
  const k = feet | 0;
  const low = LOG_TABLE[k];
  return speedAt10m * exponential(exponent * (low + (feet - k) * (LOG_TABLE[k + 1] - low)));
}

/** Up to this size the exponential is taken by its Pade approximant [4/4], relative error under 2e-9. */
const SMALL_EXPONENT = 0.7;

/** exp(x). */
function exponential(x: number): number {
  if (x > SMALL_EXPONENT || x < -SMALL_EXPONENT) return Math.exp(x);
  const square = x * x;
  const even = 1680 + square * (180 + square);
  const odd = x * (840 + 20 * square);
  return (even + odd) / (even - odd);
}

/** sigma_w in m/s. */
export function gustIntensity(windAt20ft: number, gustFactor: number): number {
  return 0.1 * windAt20ft * gustFactor;
}

/** Correlation of a unit gust over `step` s at `airspeed` m/s with scale `length` m: exp(-V step / L). */
export function gustCorrelation(airspeed: number, step: number, length: number): number {
  return exponential(-(Math.max(airspeed, LOWEST_AIRSPEED) * step) / length);
}

/** One step of a unit gust with correlation `a` and a fresh standard normal number. */
export function nextGust(gust: number, a: number, normal: number): number {
  return a * gust + Math.sqrt(1 - a * a) * normal;
}
