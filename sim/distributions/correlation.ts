/** Rank correlation between inputs by a Gaussian copula: each input keeps its own distribution. */
import { choleskyFactor } from '../statistics/cholesky.js';
import type { Correlation } from './distribution.js';
import { standardNormalBelow, standardNormalQuantile } from './families/normal.js';
import { withinReach } from './law.js';

/** Inputs tied to one another, directly or through others. */
export interface CorrelatedGroup {
  /** The paths stand in the definition's order; the first input keeps the values of its own stream. */
  readonly paths: readonly string[];
  /** Cholesky factor L of the matrix of normal correlations, L L' = R, row by row; null where there is none. */
  readonly factor: Float64Array | null;
}

/**
 * The groups among `paths` (in the definition's order). A correlation with an input that is not among them, such as an
 * input held at a fixed value, has no effect. `factor` is null where no joint distribution has these correlations, as when
 * two inputs follow a third closely and each other not at all.
 */
export function correlatedGroups(
  correlations: readonly Correlation[],
  paths: readonly string[],
): readonly CorrelatedGroup[] {
  const active = correlations.filter(({ between }) => between.every((path) => paths.includes(path)));
  const grouped = new Set<string>();
  return paths.flatMap((path) => {
    const tied = connected(path, active);
    if (tied.size < 2 || grouped.has(path)) return [];
    for (const member of tied) grouped.add(member);
    const members = paths.filter((member) => tied.has(member));
    return [
      { paths: members, factor: choleskyFactor(normalCorrelations(members, active).flat(), members.length, 'allowed') },
    ];
  });
}

/**
 * Mixes the independent uniform numbers of a group's inputs in place: their normal scores e become z = L e, and z goes
 * back to uniform numbers. An input that needs no mixing keeps its number bit by bit.
 */
export function mix(factor: Float64Array, places: readonly number[], uniforms: Float64Array): void {
  const size = places.length;
  for (let i = size - 1; i > 0; i--) {
    if (factor[i * size + i] === 1) continue;
    let score = 0;
    for (let j = 0; j <= i; j++) {
      const own = uniforms[places[j]];
      const weight = factor[i * size + j];
      if (weight !== 0) score += weight * standardNormalQuantile(own, 1 - own);
    }
    uniforms[places[i]] = withinReach(standardNormalBelow(score));
  }
}

function connected(path: string, correlations: readonly Correlation[]): ReadonlySet<string> {
  const reached = new Set([path]);
  for (const member of reached)
    for (const { between } of correlations)
      if (between.includes(member)) for (const other of between) reached.add(other);
  return reached;
}

/**
 * Normal correlations that give the stated rank correlations: r = 2 sin(pi rho/6) (Pearson 1907; Kruskal, Journal of
 * the American Statistical Association 53:814, 1958, cited from memory). Pairs not stated are uncorrelated.
 */
function normalCorrelations(paths: readonly string[], correlations: readonly Correlation[]): number[][] {
  const matrix = paths.map((row) => paths.map((column): number => (row === column ? 1 : 0)));
  for (const { between, rank } of correlations) {
    const [one, other] = between.map((path) => paths.indexOf(path));
    if (one === -1 || other === -1) continue;
    matrix[one][other] = matrix[other][one] = 2 * Math.sin((Math.PI * rank) / 6);
  }
  return matrix;
}
