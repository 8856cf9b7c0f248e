/** The first number that is none, by its place in the result; null where all are sound. */
export function firstNonsense(value: unknown, place = 'result'): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${place} is ${value}`;
  if (value === undefined) return `${place} is undefined`;
  if (value === null || typeof value !== 'object') return null;
  for (const [key, entry] of Object.entries(value)) {
    const found = firstNonsense(entry, `${place}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
