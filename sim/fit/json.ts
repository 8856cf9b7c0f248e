/** Reads what bench data say back from JSON. */
import { resultReader } from '../basics/read-result.js';
import type { FitResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseFit = resultReader<FitResult>({ kind: 'fit', called: 'fit' }, schema, () => null);
