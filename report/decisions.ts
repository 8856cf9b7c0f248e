/** What a study may have decided beyond its curve: each piece is shown where it is there, and left out where not. */
import type { AssessResult } from '../sim/result/result.js';

export type ReportedResult = AssessResult;
