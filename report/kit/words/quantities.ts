/** Quantities of a logged flight as people say them. */
import type { QuantityName } from '../../../sim/reconstruct/result.js';

const WORDS: Readonly<Record<QuantityName, string>> = {
  throttle_up_time: 'throttle-up after ejection',
  throttle_up_height: 'height of throttle-up',
  height_below_plan: 'throttle-up below the planned height',
  delay: 'delay from the planned height to throttle-up',
  speed_at_throttle_up: 'fall speed at throttle-up',
  mean_fall_speed: 'mean fall speed, ejection to throttle-up',
  stopping_height: 'stopping height',
  stopping_time: 'stopping time',
  touchdown_time: 'touchdown after ejection',
  touchdown_speed: 'vertical touchdown speed',
  peak_reading: 'largest reading in flight',
};

export function quantityWords(name: QuantityName): string {
  return WORDS[name];
}
