/** The day card: one sheet of paper as one HTML file. */
import type { LimitsResult } from '../../sim/limits/result.js';
import { readAssets } from '../page/assets.js';
import { renderHtml } from '../page/html.js';
import { limitsView } from './view.js';

export async function renderLimits(result: LimitsResult): Promise<string> {
  const style = readAssets('limits', '.css')
    .map(({ text }) => text)
    .join('\n');
  return renderHtml('limits', limitsView(result), style);
}
