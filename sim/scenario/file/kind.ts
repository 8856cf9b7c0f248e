/** The two kinds of uncertainty, and the reading of the kind that an entry says it has. */
import { nearestName } from '../../basics/nearest-name.js';
import type { Uncertainty } from '../../distributions/distribution.js';
import type { Asked } from './range.js';
import { describeWritten, entryOf, type WrittenMap } from './written.js';

export const VARIES: Uncertainty = 'varies from flight to flight';
export const UNMEASURED: Uncertainty = 'fixed but not measured';
export const KINDS: readonly Uncertainty[] = [VARIES, UNMEASURED];

const EXPECTED = KINDS.map((kind) => `"kind: ${kind}"`).join(' or ');

/** Reads `kind`; null after a report. `only` is the single kind that makes sense here; it need not be said. */
export function readKind(
  map: WrittenMap,
  { path, report }: Asked,
  only?: { readonly kind: Uncertainty; readonly why: string },
): Uncertainty | null {
  const entry = entryOf(map, 'kind');
  if (entry === undefined) {
    if (only !== undefined) return only.kind;
    report(map.place, path, 'a distribution without its kind', EXPECTED);
    return null;
  }
  const { value } = entry;
  const kind = value.form === 'scalar' ? KINDS.find((name) => name === value.source) : undefined;
  if (kind === undefined) {
    report(
      value.place,
      path,
      describeWritten(value),
      EXPECTED,
      value.form === 'scalar' ? nearestName(value.source, KINDS) : null,
    );
    return null;
  }
  if (only === undefined || kind === only.kind) return kind;
  report(value.place, path, `"${kind}"`, `"${only.kind}": ${only.why}`);
  return null;
}
