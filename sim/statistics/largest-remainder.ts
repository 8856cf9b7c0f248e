/**
 * Whole numbers in proportion to counts that add up to `total`, by the largest remainder (Hamilton's method): each count
 * gets the whole part of its share total x count/sum; what is left over goes, one each, to the largest remainders, of
 * equal ones to the first. No number is a whole one or more off its share. All are 0 where all counts are.
 *
 * Source: Balinski and Young, Fair Representation, 2nd ed. 2001, chapter 3 (cited from memory).
 */
export function largestRemainder(counts: readonly number[], total = 100): readonly number[] {
  const sum = counts.reduce((all, count) => all + count, 0);
  if (sum === 0) return counts.map(() => 0);
  const shares = counts.map((count) => (total * count) / sum);
  const whole = shares.map(Math.floor);
  const byRemainder = [...shares.keys()].sort((a, b) => shares[b] - whole[b] - (shares[a] - whole[a]) || a - b);
  const left = total - whole.reduce((all, count) => all + count, 0);
  for (const index of byRemainder.slice(0, left)) whole[index] += 1;
  return whole;
}
