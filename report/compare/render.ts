/** The page of a comparison: one result to one HTML file that needs nothing else. */
import type { CompareResult } from '../../sim/compare/result.js';
import { drawChart } from '../kit/draw.js';
import { pageScript, pageStyle, renderHtml } from '../page/html.js';
import { compareView } from './view.js';

export async function renderComparison(result: CompareResult): Promise<string> {
  const view = await compareView(result, drawChart);
  const [a, b] = view.designs;
  const style = pageStyle(`A: ${a.title} - B: ${b.title}`, `seed ${view.seed} - A ${a.shortHash} - B ${b.shortHash}`);
  return renderHtml('compare', view, style, pageScript());
}
