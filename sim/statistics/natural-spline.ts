/**
 * Natural cubic spline as regressors: 1, x and a term for each knot but the last two. The curve is cubic between knots,
 * smooth to its second derivative, and straight beyond the first and the last knot.
 *
 * N(x) = d_k(x) - d_K-1(x), d_k(x) = ((x - knot_k)+^3 - (x - knot_K)+^3) / (knot_K - knot_k).
 * Source: Hastie, Tibshirani and Friedman, The Elements of Statistical Learning, 2nd ed. 2009, eq. 5.4 and 5.5 (from
 * memory).
 */
export function naturalSpline(knots: readonly number[]): (x: number) => readonly number[] {
  const last = knots[knots.length - 1];
  const term = (x: number, knot: number) => (cubed(x - knot) - cubed(x - last)) / (last - knot);
  const inner = knots.slice(0, -2);
  return (x) => {
    const common = term(x, knots[knots.length - 2]);
    return [1, x, ...inner.map((knot) => term(x, knot) - common)];
  };
}

function cubed(x: number): number {
  return x > 0 ? x * x * x : 0;
}
