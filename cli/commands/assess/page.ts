/** The page of an assessment. */
import type { AssessResult } from '../../../sim/assess/result.js';

/** The report of an assessment, with the date that its maker gave it. */
export async function assessPage(result: AssessResult): Promise<string> {
  const { renderReport } = await import('../../../report/assess/assess.js');
  return renderReport(result, result.date === undefined ? {} : { date: result.date });
}
