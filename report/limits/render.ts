/** The day card: one sheet of paper as one HTML file. */
import type { DayCardResult } from '../../sim/limits/result.js';
import { readAssets } from '../page/assets.js';
import { renderHtml } from '../page/html.js';
import { dayCardView } from './view.js';

export async function renderDayCard(result: DayCardResult): Promise<string> {
  const style = readAssets('limits', '.css')
    .map(({ text }) => text)
    .join('\n');
  return renderHtml('day-card', dayCardView(result), style);
}
