/** Paths of the numbers in a result that are none: JSON would turn them into null in silence. */
export function notFinite(value: unknown, path = 'result'): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notFinite(part, `${path}.${key}`));
}
