/**
 * The air along a flight: at each node of the flight's clock the wind is the mean profile plus the gust series, and between
 * two nodes it is linear in time; the fluctuation of the thrust in the vortex ring is constant between two nodes.
 */
import { GUST_STEP } from '../draws/draw.js';
import { nextInSeries } from '../model/ring-noise.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import { gustCorrelation, nextGust, readGustScales, readMeanWind } from '../model/wind.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Mean wind at `height` plus the unit gusts at their intensity, as the wind at the next node. */
function fillWind(craft: Craft, s: Situation, height: number): void {
  const { windTo, gust, scales } = s;
  readGustScales(height, scales);
  const horizontal = craft.gustSigma * scales[2];
  const along = readMeanWind(craft.windSpeed, craft.windExponent, height) + horizontal * gust[0];
  const across = horizontal * gust[1];
  windTo[0] = along * craft.windEast - across * craft.windNorth;
  windTo[1] = along * craft.windNorth + across * craft.windEast;
  windTo[2] = craft.gustSigma * gust[2];
}

/** Sets the air at ejection: node 0. */
export function beginAir(craft: Craft, s: Situation): void {
  const gusts = s.noise?.gusts;
  for (let i = 0; i < 3; i += 1) s.gust[i] = gusts === undefined ? 0 : gusts.at(0, i);
  fillWind(craft, s, s.y[State.Height]);
  s.handTo = s.noise === null ? 0 : craft.throttleNoise * s.noise.throttle.at(0, 0);
  s.node = -1;
}

/** Begins the thrust fluctuation with the interval in which the first motor starts. */
export function beginRing(s: Situation): void {
  s.ringBegin = s.node;
  s.ringNode = s.node - 1;
}

/** Takes the thrust fluctuation on to the interval that the flight is in. */
export function followRing(craft: Craft, s: Situation): void {
  const { ring, noise } = s;
  const { ringSeries } = craft;
  while (s.ringNode < s.node) {
    s.ringNode += 1;
    const k = s.ringNode - s.ringBegin;
    for (let i = 0; i < 4; i += 1) {
      const normal = noise === null ? 0 : noise.ring.at(k, i);
      ring[i] = k === 0 ? ringSeries.deviation * normal : nextInSeries(ringSeries, ring[i], normal);
    }
  }
}

/** Airspeed of the centre of mass in m/s, now; the wind of the nodes before and after now must be known. */
export function airspeed(s: Situation): number {
  const { scratch: w, y } = s;
  const f = s.time / GUST_STEP - s.node;
  const e = y[State.EastSpeed] - w[Slot.WindEast] - f * w[Slot.WindChangeEast];
  const n = y[State.NorthSpeed] - w[Slot.WindNorth] - f * w[Slot.WindChangeNorth];
  const u = y[State.UpSpeed] - w[Slot.WindUp] - f * w[Slot.WindChangeUp];
  return Math.sqrt(e * e + n * n + u * u);
}

/** Takes the air one node on: what was next is now, and the wind one node later is worked out from the state now. */
export function nextAir(craft: Craft, s: Situation): void {
  const { scratch: w, windTo, gust, scales, y, noise } = s;
  s.node += 1;
  const e = windTo[0];
  const n = windTo[1];
  const u = windTo[2];
  if (noise !== null && craft.gustSigma > 0) {
    const ae = y[State.EastSpeed] - e;
    const an = y[State.NorthSpeed] - n;
    const az = y[State.UpSpeed] - u;
    const airspeed = Math.sqrt(ae * ae + an * an + az * az);
    const horizontal = gustCorrelation(airspeed, GUST_STEP, scales[0]);
    const vertical = gustCorrelation(airspeed, GUST_STEP, scales[1]);
    const node = s.node + 1;
    gust[0] = nextGust(gust[0], horizontal, noise.gusts.at(node, 0));
    gust[1] = nextGust(gust[1], horizontal, noise.gusts.at(node, 1));
    gust[2] = nextGust(gust[2], vertical, noise.gusts.at(node, 2));
  }
  s.handFrom = s.handTo;
  s.handTo = noise === null ? 0 : craft.throttleNoise * noise.throttle.at(s.node + 1, 0);
  fillWind(craft, s, y[State.Height] + GUST_STEP * y[State.UpSpeed]);
  w[Slot.WindEast] = e;
  w[Slot.WindNorth] = n;
  w[Slot.WindUp] = u;
  w[Slot.WindChangeEast] = windTo[0] - e;
  w[Slot.WindChangeNorth] = windTo[1] - n;
  w[Slot.WindChangeUp] = windTo[2] - u;
}
