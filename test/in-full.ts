/**
 * How many flights, studies or logs a test takes: few in `npm test`, enough for its figure in `npm run verify`, which prints
 * the figures. Files named *.verify.ts use this; what they hold must fail on a planted fault with the few as well.
 */
export const IN_FULL = process.env.IN_FULL === 'yes';

export function howMany(few: number, inFull: number): number {
  return IN_FULL ? inFull : few;
}

/** How much further off than with the number in full a mean or share of `n` may be: its scatter goes by the root. */
export function widened(tolerance: number, n: number, inFull: number): number {
  return tolerance * Math.sqrt(inFull / n);
}

/** Prints a figure that a check in full rests on. */
export function figure(what: string, ...values: readonly (number | string)[]): void {
  if (!IN_FULL) return;
  const shown = values.map((value) => (typeof value === 'number' ? String(Number(value.toPrecision(3))) : value));
  process.stdout.write(`  ${what}: ${shown.join(' ')}\n`);
}
