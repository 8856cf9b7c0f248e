/**
 * The fluctuation of a rotor's thrust in the vortex ring state: a first-order noise of time constant tau = D/(2 pi St v_h), as it
 * is seen over intervals of the flight's clock. With q = interval/tau, the mean of a unit noise over an interval has the standard
 * deviation s = sqrt(2 (q - 1 + exp(-q)))/q, and its content at low frequency is 2/q (per interval, spectral density at zero over
 * the interval). Both are kept exactly by a first-order series on the intervals of that s and of the correlation
 * (2/q - s^2)/(2/q + s^2) from one to the next; it is the slow content that moves the height of a stop.
 *
 * The rings are shed at regular intervals of 20 to 50 turns of the rotor, with peaks of the thrust up to 95 % of its mean from top
 * to bottom (Stack, Caradonna and Savas, DTIC ADA529846, abstract); St = 0.07 to 0.17 by v_h/(n D) = 0.296 of a 3.0 x 2.0 in
 * propeller, up to 0.36 with the coefficients of a helicopter (own estimate). The fluctuation is largest where the mean loss is, at
 * 1.2 to 1.3 v_h (Veismann, Dougherty and Gharib, Flow 3, 2023, abstract).
 */

/** The series on the intervals: its standard deviation, and the correlation from one interval to the next. */
export interface RingSeries {
  deviation: number;
  correlation: number;
}

/**
 * Writes the series of a unit noise.
 *
 * @param interval s
 * @param strouhal St, corner frequency times D over v_h
 * @param inducedSpeed v_h, m/s
 * @param diameter D, m
 */
export function setRingSeries(
  series: RingSeries,
  interval: number,
  strouhal: number,
  inducedSpeed: number,
  diameter: number,
): void {
  const q = (interval * 2 * Math.PI * strouhal * inducedSpeed) / diameter;
  const variance = (2 * (q - 1 + Math.exp(-q))) / (q * q);
  series.deviation = Math.sqrt(variance);
  series.correlation = (2 / q - variance) / (2 / q + variance);
}

/** The next number of a series from the number before and a standard normal number. */
export function nextInSeries({ deviation, correlation }: RingSeries, before: number, normal: number): number {
  return correlation * before + deviation * Math.sqrt(1 - correlation * correlation) * normal;
}
