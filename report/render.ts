/** The report: one result to one HTML file that needs nothing else. */
import type { AssessResult } from '../sim/result/result.js';
import { drawChart } from './charts/draw.js';
import { pageScript, pageStyle, renderHtml } from './html.js';
import { type ReportOptions, reportView } from './view.js';

export async function renderReport(result: AssessResult, options: ReportOptions = {}): Promise<string> {
  const view = await reportView(result, drawChart, options);
  const made = view.made === null ? '' : `${view.made} - `;
  const style = pageStyle(view.title, `${made}seed ${view.seed} - scenario ${view.shortHash} - ${view.program}`);
  return renderHtml('page', view, style, pageScript());
}
