/**
 * Remarks under the table of a day card say how to read a cell, how far it may be off, why heights rise and what the card
 * does not know.
 */
import type { CardAxis, LimitsResult } from '../../sim/limits/result.js';
import { countText, metres } from '../kit/words/numbers.js';

export interface Remark {
  readonly lead: string;
  readonly text: string;
}

export function howToRead(result: LimitsResult): readonly Remark[] {
  return [
    { lead: 'Reading it.', text: reading(result) },
    { lead: 'Each cell stands by itself.', text: alone(result) },
    { lead: 'How far off it may be.', text: offBy(result) },
    { lead: 'Why heights rise, or do not.', text: monotone(result) },
    { lead: 'All else is as in the scenario.', text: others(result) },
  ];
}

function reading({ rows, columns }: LimitsResult): string {
  const ordered = [rows, columns].every(({ ordered: one }) => one);
  const between = ordered
    ? 'Between two values take the harder one: the lower row, the column to the right'
    : 'Between two values take the greater of their heights, and \u201cdo not fly\u201d over any height';
  return `Measure both values now. ${between}. Outside the table there is no answer. Never plan the throttle-up below the height of the cell, and above it only as far as the report shows greater heights to serve. Small figures: the risk of not landing softly there and the upper end of its interval, which decides; in a crossed cell, what the height that came nearest breaks.`;
}

function alone({ cells, flights }: LimitsResult): string {
  const judged = cells.filter(
    ({ status, inherited }) => status === 'height shown' || (status === 'do not fly' && !inherited),
  );
  const wrong = Math.max(1, Math.round(judged.length / 20));
  return `A height is accepted when the upper end of its interval, from ${countText(flights)} flights, keeps every limit. That is right for about 95 of 100 cells, not for all cells at once: of the ${countText(judged.length)} flown here about ${countText(wrong)} may be a step too low.`;
}

function offBy({ heights, cells }: LimitsResult): string {
  const step = heights.length > 1 ? heights[1] - heights[0] : 0;
  const most = Math.max(0, ...cells.map(({ untried }) => untried));
  const stars =
    most > 0
      ? `A cell with * passed over up to ${most} heights under the one shown, after three that failed: it may be so many steps (${metres(most * step)}) too high`
      : 'No cell here passed over a height, which it does after three that failed; it could then be up to three steps too high';
  return `Heights go in steps of ${metres(step)} from ${metres(heights[0])} to ${metres(heights[heights.length - 1])}. ${stars}. With more flights a cell may come out a step lower. Flights of the same number share their luck in all cells.`;
}

function monotone({ rows, columns }: LimitsResult): string {
  const names = (inputs: readonly CardAxis[]) => inputs.map(({ path }) => path).join(' and ');
  const known = [rows, columns].filter(({ ordered }) => ordered);
  const unknown = [rows, columns].filter(({ ordered }) => !ordered);
  const rises =
    known.length === 0
      ? []
      : [
          `By the physics of the model a worse value of ${names(known)} makes no landing easier. So a cell is sought from the height of its easier neighbours up, and their \u201cdo not fly\u201d passes on without flights: heights never fall towards the harder side, and a cell that could do with less by luck is not found out.`,
        ];
  const free =
    unknown.length === 0
      ? []
      : [
          `Which values of ${names(unknown)} are the harder ones is not known: along it each cell is sought anew, and heights may rise and fall.`,
        ];
  return [...rises, ...free].join(' ');
}

function others({ rows, columns, guesses, inputs }: LimitsResult): string {
  return `${countText(guesses)} of ${countText(inputs)} inputs are guesses; how far a cell holds for what nobody has measured was not asked. Every other input is drawn from its own distribution there, whatever the day is like. The scenario itself has ${rows.path} ${rows.inScenario} and ${columns.path} ${columns.inScenario}. Another craft, site or change needs another card.`;
}
