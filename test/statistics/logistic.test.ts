import { describe, expect, it } from 'vitest';
import { expit, fitLogistic, type LogisticCell } from '../../sim/statistics/logistic.js';
import { inverseOf, quadraticForm } from '../../sim/statistics/symmetric.js';

/** Beetles killed by carbon disulphide (Bliss 1935), as in Dobson, An Introduction to Generalized Linear Models. */
const BEETLES: readonly LogisticCell[] = [
  [1.6907, 59, 6],
  [1.7242, 60, 13],
  [1.7552, 62, 18],
  [1.7842, 56, 28],
  [1.8113, 63, 52],
  [1.8369, 59, 53],
  [1.861, 62, 61],
  [1.8839, 60, 60],
].map(([dose, trials, events]) => ({ row: [1, dose], trials, events }));

function fitted(cells: readonly LogisticCell[], firth: boolean) {
  const fit = fitLogistic(cells, { firth });
  if (fit.status !== 'fitted') throw new Error(fit.why);
  return fit;
}

describe('logistic regression', () => {
  // The GLMLAB user's guide on these data, which agrees with Dobson: -60.717455 (5.180701), 34.270326 (2.912134). (Its
  // table prints 60 killed of the seventh 62, which does not give its figures; Dobson's 61 does.) The last digit of a
  // standard error depends on the step at which it is taken.
  it('gives the published coefficients and standard errors of the beetles', () => {
    const { coefficients, covariance } = fitted(BEETLES, false);
    expect(coefficients[0]).toBeCloseTo(-60.717455, 5);
    expect(coefficients[1]).toBeCloseTo(34.270326, 5);
    expect(Math.sqrt(covariance[0][0])).toBeCloseTo(5.180701, 4);
    expect(Math.sqrt(covariance[1][1])).toBeCloseTo(2.912134, 4);
  });

  // Dalal, Fowlkes and Hoadley, Journal of the American Statistical Association 84:945, 1989: 23 launches, at least one
  // O-ring in distress by temperature (degF), data from memory; R's glm gives 15.0429 (7.3786) and -0.2322 (0.1082)
  // (Statistics Notebook, Brigham Young University-Idaho, "challenger").
  it('gives the published coefficients where each cell is one trial', () => {
    const degrees = [66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58];
    const distress = [1, 8, 9, 10, 13, 20, 22].reduce(
      (all, at) => all.with(at, 1),
      degrees.map(() => 0),
    );
    const cells = degrees.map((one, i) => ({ row: [1, one], trials: 1, events: distress[i] }));
    const { coefficients, covariance } = fitted(cells, false);
    expect(coefficients[0]).toBeCloseTo(15.0429, 4);
    expect(coefficients[1]).toBeCloseTo(-0.2322, 4);
    expect(Math.sqrt(covariance[0][0])).toBeCloseTo(7.3786, 3);
    expect(Math.sqrt(covariance[1][1])).toBeCloseTo(0.1082, 4);
  });

  // Closed form: with as many coefficients as cells, the penalty adds one half to the events and the others of each cell
  // (for one cell Jeffreys' prior of a chance, Beta(1/2, 1/2)).
  it('with the penalty adds half an event and half a non-event to each cell of a saturated model', () => {
    const cells = [
      { row: [1, 0, 0], trials: 40, events: 0 },
      { row: [1, 1, 0], trials: 25, events: 25 },
      { row: [1, 0, 1], trials: 30, events: 7 },
    ];
    const { coefficients } = fitted(cells, true);
    for (const { row, trials, events } of cells) {
      const eta = row.reduce((sum, value, i) => sum + value * coefficients[i], 0);
      expect(expit(eta)).toBeCloseTo((events + 0.5) / (trials + 1), 6);
    }
  });

  // Independent of the steps: the penalised log-likelihood, written out for two coefficients, has its top there, and
  // its curvature without the penalty is the inverse of the covariance.
  it('stands at the top of the likelihood, with the curvature as covariance', () => {
    const data = (a: number, b: number) =>
      BEETLES.reduce((sum, { row, trials, events }) => {
        const p = 1 / (1 + Math.exp(-(a + b * row[1])));
        return sum + events * Math.log(p) + (trials - events) * Math.log(1 - p);
      }, 0);
    const penalty = (a: number, b: number) => {
      const [s, sx, sxx] = BEETLES.reduce(
        ([one, x, xx], { row, trials }) => {
          const p = 1 / (1 + Math.exp(-(a + b * row[1])));
          const w = trials * p * (1 - p);
          return [one + w, x + w * row[1], xx + w * row[1] ** 2];
        },
        [0, 0, 0],
      );
      return Math.log(s * sxx - sx ** 2) / 2;
    };
    const { coefficients, covariance } = fitted(BEETLES, true);
    const [a, b] = coefficients;
    const top = data(a, b) + penalty(a, b);
    // Along the ridge and across it; one thousandth of a standard error either way loses about 5e-7.
    for (const share of [-0.02, 0.02])
      for (const [da, db] of [
        [5.2, -2.9],
        [0.1, 0],
        [0, 0.05],
      ]) {
        expect(data(a + share * da, b + share * db) + penalty(a + share * da, b + share * db)).toBeLessThan(top);
      }
    const step = 0.01;
    const curvature = (2 * data(a, b) - data(a, b + step) - data(a, b - step)) / step ** 2;
    const information = inverseOf(covariance)?.inverse ?? [];
    expect(curvature / information[1][1]).toBeCloseTo(1, 3);
  });

  it('says so where events lie apart or cells do not tell the coefficients, and the penalty answers for the first', () => {
    const apart = [0, 1, 2, 3].map((x) => ({ row: [1, x], trials: 10, events: x < 2 ? 0 : 10 }));
    expect(fitLogistic(apart, { firth: false })).toEqual({ status: 'not fitted', why: 'no end' });
    const { coefficients, covariance } = fitted(apart, true);
    for (const value of [...coefficients, ...covariance.flat()]) expect(Number.isFinite(value)).toBe(true);
    const none = [0, 1, 2].map((x) => ({ row: [1, x], trials: 50, events: 0 }));
    expect(fitLogistic(none, { firth: false }).status).toBe('not fitted');
    expect(Number.isFinite(fitted(none, true).coefficients[0])).toBe(true);
    const oneValue = [{ row: [1, 2], trials: 50, events: 5 }];
    expect(fitLogistic(oneValue, { firth: true })).toEqual({ status: 'not fitted', why: 'no information' });
    expect(fitLogistic([], { firth: true })).toEqual({ status: 'not fitted', why: 'no information' });
  });
});

describe('small symmetric matrices', () => {
  // By hand: [[4, 2], [2, 3]] has determinant 8 and inverse [[3, -2], [-2, 4]] / 8.
  it('are inverted, and refused where they are singular', () => {
    const found = inverseOf([
      [4, 2],
      [2, 3],
    ]);
    expect(found?.inverse.flat().map((value) => 8 * value)).toEqual([3, -2, -2, 4].map((n) => expect.closeTo(n, 12)));
    expect(found?.logDeterminant).toBeCloseTo(Math.log(8), 12);
    expect(
      quadraticForm(
        [
          [4, 2],
          [2, 3],
        ],
        [1, -1],
      ),
    ).toBe(3);
    expect(
      inverseOf([
        [1, 1],
        [1, 1],
      ]),
    ).toBeNull();
  });
});
