/**
 * How many flights, studies or logs a test takes: few in `npm test`, enough for its figure in `npm run verify`, which prints
 * the figures. Files named *.verify.ts use this; what they hold must fail on a planted fault with the few as well.
 */
export const IN_FULL = process.env.IN_FULL === 'yes';

export function howMany(few: number, inFull: number): number {
  return IN_FULL ? inFull : few;
}

/** Prints a figure that a check in full rests on. */
export function figure(what: string, ...values: readonly (number | string)[]): void {
  if (!IN_FULL) return;
  const shown = values.map((value) => (typeof value === 'number' ? String(Number(value.toPrecision(3))) : value));
  process.stdout.write(`  ${what}: ${shown.join(' ')}\n`);
}
