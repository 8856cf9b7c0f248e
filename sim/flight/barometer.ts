/** The barometer of a flight: what it shows, and the parachute that goes by it. */
import { CALL_OUT_STEP, GUST_STEP } from '../draws/draw.js';
import { geopotentialRise } from '../model/atmosphere.js';
import { barometricReading } from '../model/barometer.js';
import { State } from '../model/state.js';
import { RATE_WINDOW, READINGS } from './constants.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Nodes of the flight's clock from one node of the call-out to the next. */
const EACH = Math.round(CALL_OUT_STEP / GUST_STEP);

/** Reading in m with its noise, without latency, at a node whose wind is not taken on yet: `windTo` is that of now. */
export function readingAtNode(craft: Craft, s: Situation): number {
  const { y, windTo } = s;
  const e = y[State.EastSpeed] - windTo[0];
  const n = y[State.NorthSpeed] - windTo[1];
  const u = y[State.UpSpeed] - windTo[2];
  const speed = Math.sqrt(e * e + n * n + u * u);
  const rise = geopotentialRise(craft.elevation, y[State.Height]);
  return barometricReading(rise, speed, craft.readingScale, craft.readingBias, craft.flowError) + noiseNow(craft, s);
}

/** Reading noise in m: linear between its nodes. */
function noiseNow(craft: Craft, s: Situation): number {
  if (s.noise === null) return 0;
  const x = s.time / CALL_OUT_STEP;
  const k = Math.floor(x);
  const a = s.noise.callOut.at(k, 0);
  const b = s.noise.callOut.at(k + 1, 0);
  return craft.readingNoise * (a + (x - k) * (b - a));
}

/** Whether the parachute reads the barometer at a node: at the nodes of the call-out, where it still may fire. */
export function isWatched(node: number): boolean {
  return node % EACH === 0;
}

/** The reading at a watched node. */
export function keepReading(s: Situation, node: number, reading: number): void {
  s.readings[(node / EACH) % READINGS] = reading;
}

/**
 * At the node that the flight has come to: the parachute fires `latency` after the first watched node at which the reading is at
 * or under its height and has fallen faster than its rate over the last 0.6 s; before 0.6 s it has no rate and does not fire.
 */
export function watchBarometer(craft: Craft, s: Situation): void {
  const node = s.node + 1;
  if (!craft.canopyWorks || !s.awaits.fire || s.triggerNode < node || !isWatched(node)) return;
  const reading = readingAtNode(craft, s);
  keepReading(s, node, reading);
  const turn = node / EACH;
  if (turn < READINGS - 1) return;
  const before = s.readings[(turn + 1) % READINGS];
  if (reading > craft.fireBelow || !(before - reading > craft.fireFasterThan * RATE_WINDOW)) return;
  s.triggerNode = node;
  s.fireTime = s.time + craft.readingLatency;
}
