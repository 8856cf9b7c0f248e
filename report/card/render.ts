/** The day card: one sheet of paper as one HTML file. */
import type { DayCardResult } from '../../sim/result/day-card.js';
import { readAssets } from '../assets.js';
import { renderHtml } from '../html.js';
import { dayCardView } from './view.js';

export async function renderDayCard(result: DayCardResult): Promise<string> {
  const style = readAssets('styles/card', '.css')
    .map(({ text }) => text)
    .join('\n');
  return renderHtml('day-card', dayCardView(result), style);
}
