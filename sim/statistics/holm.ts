/**
 * Holm's adjusted p-values: sorted ascending, the i-th of m (from 0) times m - i, never falling, at most 1. Calling
 * those at or under 5 % keeps the chance of any false call in the family at 5 % whatever the dependence.
 *
 * Source: Holm, Scandinavian Journal of Statistics 6:65, 1979.
 */
export function holm(pValues: readonly number[]): number[] {
  const order = pValues.map((_, index) => index).sort((a, b) => pValues[a] - pValues[b]);
  const adjusted = new Array<number>(pValues.length).fill(1);
  let largest = 0;
  order.forEach((index, rank) => {
    largest = Math.max(largest, Math.min(1, (pValues.length - rank) * pValues[index]));
    adjusted[index] = largest;
  });
  return adjusted;
}
