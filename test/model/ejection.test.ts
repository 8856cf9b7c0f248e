import { describe, expect, test } from 'vitest';
import { quantileOf } from '../../sim/distributions/law.js';
import { createStream } from '../../sim/draws/streams.js';
import { breaks, uniformDirection, uniformRotation } from '../../sim/model/ejection.js';
import { varies } from '../draws/scenario.js';
import { expectWithin } from './near.js';

const N = 20_000;

function uniforms(name: string): (id: number) => number {
  const stream = createStream('ejection test', 'explore', name);
  return (id) => stream.value(id);
}

/** Largest gap between the sorted values' empirical law and a law; the 0.1 % point of its distribution is 1.95/sqrt(n). */
function kolmogorovGap(values: number[], law: (x: number) => number): number {
  values.sort((a, b) => a - b);
  const gaps = values.map((x, k) => Math.max(Math.abs(law(x) - k / N), Math.abs(law(x) - (k + 1) / N)));
  return Math.max(...gaps);
}
const LARGEST_GAP = 1.95 / Math.sqrt(N);

describe('the attitude at ejection', () => {
  const u = ['a', 'b', 'c'].map(uniforms) as [(id: number) => number, (id: number) => number, (id: number) => number];
  const q = new Float64Array(4);
  const axes = { x: [] as number[], y: [] as number[], z: [] as number[] };
  const traces: number[] = [];
  for (let i = 0; i < N; i += 1) {
    uniformRotation(q, 0, u[0](i), u[1](i), u[2](i));
    const [w, x, y, z] = q as unknown as [number, number, number, number];
    axes.x.push(2 * (x * z - w * y));
    axes.y.push(2 * (y * z + w * x));
    axes.z.push(w * w - x * x - y * y + z * z);
    traces.push(2 * Math.acos(Math.min(1, Math.abs(w))));
  }

  test.each(['x', 'y', 'z'] as const)('has the upward part of body axis %s uniform on -1..1 (Archimedes)', (axis) => {
    expect(kolmogorovGap(axes[axis], (h) => (h + 1) / 2)).toBeLessThan(LARGEST_GAP);
  });

  test('has the angle of rotation with the Haar law (a - sin a)/pi', () => {
    // Miles, Biometrika 52, 1965 (from memory): density (1 - cos a)/pi on 0..pi.
    expect(kolmogorovGap(traces, (a) => (a - Math.sin(a)) / Math.PI)).toBeLessThan(LARGEST_GAP);
  });

  test('is a unit quaternion, and at the medians lies on its side with the top to the east', () => {
    uniformRotation(q, 0, 0.2, 0.9, 0.4);
    expectWithin(Math.hypot(...q), 1, 1e-15);
    uniformRotation(q, 0, 0.5, 0.5, 0.5);
    const [w, x, y, z] = q as unknown as [number, number, number, number];
    expectWithin(2 * (x * z + w * y), 1, 1e-12);
    expectWithin(w * w - x * x - y * y + z * z, 0, 1e-12);
  });
});

describe('the tumble axis', () => {
  test('is uniform over all directions', () => {
    const [a, b] = [uniforms('d'), uniforms('e')];
    const v = new Float64Array(3);
    const parts: number[][] = [[], [], []];
    for (let i = 0; i < N; i += 1) {
      uniformDirection(v, 0, a(i), b(i));
      parts.forEach((part, k) => {
        part.push(v[k] as number);
      });
    }
    for (const part of parts) expect(kolmogorovGap(part, (h) => (h + 1) / 2)).toBeLessThan(LARGEST_GAP);
  });

  test('is horizontal and across the can at the medians: it tumbles end over end', () => {
    const q = new Float64Array(4);
    const v = new Float64Array(3);
    uniformRotation(q, 0, 0.5, 0.5, 0.5);
    uniformDirection(v, 0, 0.5, 0.5);
    const [w, x, y, z] = q as unknown as [number, number, number, number];
    const up = [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z];
    expectWithin(
      up.reduce((sum, part, i) => sum + part * (v[i] as number), 0),
      0,
      1e-12,
    );
    expectWithin(v[2] as number, 0, 1e-12);
    expectWithin(Math.hypot(...v), 1, 1e-12);
  });
});

describe('strength against load', () => {
  const load = uniforms('load');
  const strength = uniforms('strength');

  /** Survivors of n flights; the closed form lies within four standard errors of their share. */
  function survive(laws: readonly [Parameters<typeof quantileOf>[0], Parameters<typeof quantileOf>[0]]): number {
    let whole = 0;
    for (let i = 0; i < N; i += 1)
      if (!breaks(quantileOf(laws[0], load(i)), quantileOf(laws[1], strength(i)))) whole += 1;
    return whole / N;
  }
  const standardError = (r: number) => Math.sqrt((r * (1 - r)) / N);

  test('two normals survive as Phi((mS - mL)/sqrt(sS^2 + sL^2)): 0.994777 (computed)', () => {
    const laws = [
      varies({ family: 'normal', mean: 60, sd: 12 }),
      varies({ family: 'normal', mean: 100, sd: 10 }),
    ] as const;
    expectWithin(survive(laws), 0.994777, 4 * standardError(0.994777));
  });

  test('log-normals of the same means and sds survive as Phi of the difference of the logs: 0.991098 (computed)', () => {
    const logNormal = (mean: number, sd: number) => {
      const spread = Math.sqrt(Math.log(1 + (sd / mean) ** 2));
      return varies({ family: 'log-normal', median: mean * Math.exp(-(spread ** 2) / 2), spread });
    };
    expectWithin(survive([logNormal(60, 12), logNormal(100, 10)]), 0.991098, 4 * standardError(0.991098));
  });

  test('a load equal to the strength is withstood', () => {
    expect(breaks(100, 100)).toBe(false);
    expect(breaks(100.1, 100)).toBe(true);
  });
});
