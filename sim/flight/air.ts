/** The air along a flight: wind at the nodes of the flight's clock, from the mean profile and the gust series. */
import { GUST_STEP } from '../draws/draw.js';
import { gustCorrelation, meanWindSpeed, nextGust, readGustScales } from '../model/wind.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Mean wind at `height` plus the unit gusts at their intensity, into east, north, up. */
function fillWind(into: Float64Array, craft: Craft, height: number, gust: Float64Array, ratio: number): void {
  const along =
    meanWindSpeed(craft.windSpeed, craft.windExponent, height) + craft.gustSigma * ratio * (gust[0] as number);
  const across = craft.gustSigma * ratio * (gust[1] as number);
  into[0] = along * craft.windEast - across * craft.windNorth;
  into[1] = along * craft.windNorth + across * craft.windEast;
  into[2] = craft.gustSigma * (gust[2] as number);
}

/** Sets the air at ejection: node 0. */
export function beginAir(craft: Craft, s: Situation): void {
  const gusts = s.noise?.gusts;
  for (let i = 0; i < 3; i += 1) s.gustNext[i] = gusts === undefined ? 0 : gusts.at(0, i);
  const height = s.y[2] as number;
  readGustScales(height, s.scalesNext);
  fillWind(s.windTo, craft, height, s.gustNext, s.scalesNext[2] as number);
  s.handTo = s.noise === null ? 0 : craft.throttleNoise * s.noise.throttle.at(0, 0);
  s.node = -1;
}

/** Takes the air one node on: what was "next" becomes "from", and the wind one node later is worked out. */
export function nextAir(craft: Craft, s: Situation): void {
  const { windFrom, windTo, gust, gustNext, scales, scalesNext } = s;
  s.node += 1;
  for (let i = 0; i < 3; i += 1) {
    windFrom[i] = windTo[i] as number;
    gust[i] = gustNext[i] as number;
    scales[i] = scalesNext[i] as number;
  }
  s.handFrom = s.handTo;
  workOutNext(craft, s, s.y);
}

/** Works out the wind one node after s.node from the state at s.node. */
function workOutNext(craft: Craft, s: Situation, y: Float64Array): void {
  const from = s.windFrom;
  const ae = (y[3] as number) - (from[0] as number);
  const an = (y[4] as number) - (from[1] as number);
  const az = (y[5] as number) - (from[2] as number);
  const airspeed = Math.sqrt(ae * ae + an * an + az * az);
  const noise = s.noise;
  if (noise !== null && craft.gustSigma > 0) {
    const horizontal = gustCorrelation(airspeed, GUST_STEP, s.scales[0] as number);
    const vertical = gustCorrelation(airspeed, GUST_STEP, s.scales[1] as number);
    const node = s.node + 1;
    s.gustNext[0] = nextGust(s.gust[0] as number, horizontal, noise.gusts.at(node, 0));
    s.gustNext[1] = nextGust(s.gust[1] as number, horizontal, noise.gusts.at(node, 1));
    s.gustNext[2] = nextGust(s.gust[2] as number, vertical, noise.gusts.at(node, 2));
  }
  s.handTo = noise === null ? 0 : craft.throttleNoise * noise.throttle.at(s.node + 1, 0);
  const height = (y[2] as number) + GUST_STEP * (y[5] as number);
  readGustScales(height, s.scalesNext);
  fillWind(s.windTo, craft, height, s.gustNext, s.scalesNext[2] as number);
}
