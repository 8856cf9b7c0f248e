/**
 * The back-up parachute fires by itself and fills in t_f = n D / v (Knacke, Parachute Recovery Systems Design Manual, 1992,
 * from memory). Its drag area grows as (t/t_f)^2 up to Cd S, where S is the total cloth area. It pulls at the top of the can.
 */

/** Fill time in s from the constant n, the diameter m and the speed at firing m/s. */
export function fillTime(constant: number, diameter: number, speed: number): number {
  return (constant * diameter) / Math.max(speed, 1);
}

/** Full drag area in m2. */
export function canopyDragArea(dragCoefficient: number, diameter: number): number {
  return (dragCoefficient * Math.PI * diameter * diameter) / 4;
}

/** Share of the full drag area at `time` s after firing. */
export function filling(time: number, fill: number): number {
  if (time <= 0) return 0;
  const x = time / fill;
  return x >= 1 ? 1 : x * x;
}
