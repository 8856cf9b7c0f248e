/** Reads what flights taught back from JSON. */
import { resultReader } from '../basics/read-result.js';
import type { LearnResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseLearn = resultReader<LearnResult>(
  { kind: 'learn', called: 'result of learning' },
  schema,
  () => null,
);
