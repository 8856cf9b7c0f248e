/** Results about bench data and flight logs, read back from JSON. */

import { openResult, wrongPart } from '../basics/result-json.js';
import type { FitResult } from '../fit/result.js';
import type { ReconstructResult } from '../reconstruct/result.js';
import type { LearnResult } from './result.js';

export type EvidenceResult = FitResult | ReconstructResult | LearnResult;

export type ReadEvidence<R extends EvidenceResult> =
  | { readonly status: 'ok'; readonly result: R }
  | { readonly status: 'refused'; readonly message: string };

type Parts = readonly (readonly [name: string, expected: string])[];

const SHARED: Parts = [['warnings', 'array']];

/** What each kind and form must hold, as far as its page relies on it. */
const PARTS: Readonly<Record<string, Parts>> = {
  'fit samples': [
    ['data', 'object'],
    ['count', 'number'],
    ['values', 'array'],
    ['families', 'array'],
    ['chosen', 'string'],
    ['curve', 'array'],
    ['quantiles', 'array'],
    ['fragment', 'string'],
  ],
  'fit trials': [
    ['trials', 'number'],
    ['failures', 'number'],
    ['mean', 'number'],
    ['fragment', 'string'],
  ],
  'fit thrust stand': [
    ['rows', 'number'],
    ['full', 'object'],
    ['partThrottle', 'array'],
    ['fragment', 'string'],
  ],
  reconstruct: [
    ['file', 'string'],
    ['rows', 'number'],
    ['rounding', 'object'],
    ['events', 'array'],
    ['quantities', 'array'],
    ['course', 'array'],
    ['measured', 'array'],
    ['scenario', 'object or null'],
  ],
  learn: [
    ['scenario', 'object'],
    ['waves', 'array'],
    ['logs', 'array'],
    ['inputs', 'array'],
    ['riskBefore', 'object'],
    ['riskAfter', 'object'],
    ['fragment', 'string'],
  ],
};

/** Reads a result of one kind; says plainly what is wrong with a file that is none. */
export function parseEvidence<R extends EvidenceResult>(text: string, kind: R['kind']): ReadEvidence<R> {
  const opened = openResult(text);
  if (opened.status === 'refused') return opened;
  const { value } = opened;
  const name = kind === 'fit' ? `fit ${String(value.form)}` : kind;
  const parts = opened.kind === kind && Object.hasOwn(PARTS, name) ? PARTS[name] : null;
  if (parts === null)
    return { status: 'refused', message: `the result is of kind "${opened.kind}", not a ${kind} known here.` };
  const wrong = wrongPart(value, [...SHARED, ...parts]);
  if (wrong !== null) return { status: 'refused', message: `the result is damaged: ${wrong}. Run \`${kind}\` again.` };
  return { status: 'ok', result: value as unknown as R };
}
