/** The report: one result to one HTML file that needs nothing else. */
import type { AssessResult } from '../../sim/assess/result.js';
import { drawChart } from '../kit/draw.js';
import { pageScript, pageStyle, renderHtml } from '../page/html.js';
import { type ReportOptions, reportView } from './view.js';

export async function renderReport(result: AssessResult, options: ReportOptions = {}): Promise<string> {
  const view = await reportView(result, drawChart, options);
  const made = view.made === null ? '' : `${view.made} - `;
  const style = pageStyle(view.title, `${made}seed ${view.seed} - scenario ${view.shortHash} - ${view.program}`);
  return renderHtml('page', view, style, pageScript());
}
