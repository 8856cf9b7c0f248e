/**
 * Holm's adjusted p-values: of m values in ascending order, the i-th (from 0) times m - i, never falling, at most 1.
 * Calling every adjusted value at or under 5 % significant keeps the chance of any false call among all m at 5 %, whatever
 * the dependence.
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
