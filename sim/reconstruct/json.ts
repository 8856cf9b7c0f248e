/** Reads what a flight log says back from JSON. */
import { resultReader } from '../basics/read-result.js';
import type { ReconstructResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseReconstruct = resultReader<ReconstructResult>(
  { kind: 'reconstruct', called: 'reconstruction' },
  schema,
  () => null,
);
