/**
 * The video sender warms while it waits in the closed can, T = T_air + P R_th (1 - exp(-t/tau)), and shuts down above its
 * limit. It does not come back before the landing.
 */

/** Temperature of the sender in K after `wait` s. */
export function senderTemperature(
  air: number,
  power: number,
  thermalResistance: number,
  timeConstant: number,
  wait: number,
): number {
  return air + power * thermalResistance * (1 - Math.exp(-wait / timeConstant));
}
