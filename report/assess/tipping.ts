/** A table tells how far each guess may be off before the verdict turns, and a note how that was found. */
import type { TippingPlace, TippingResult, TippingRow } from '../../sim/assess/decisions.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { differenceParts } from '../../sim/statistics/words.js';
import { type CellLike, type Table, table } from '../kit/table.js';
import { inputName, inputValueText } from '../kit/words/inputs.js';
import { flightsText, metres, percentLimit, unbroken } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';

export function tippingTable({ rows, limit, height }: TippingResult, result: AssessResult): Table {
  return table(
    `How far each guess may be off before the estimated risk at ${metres(height)} crosses ${percentLimit(limit)}, all else as drawn, up to the 1 % or 99 % end of its range; what turns soonest wants measuring first.`,
    ['Guess', 'If it is', 'What happens', '#Risk at that end'],
    rows.map((row): CellLike[] => [
      capitalised(inputName(row.path)),
      row.side === 'low' ? 'lower' : 'higher',
      tippingText(row, result),
      bandText(row.riskAtEnd),
    ]),
  );
}

export function tippingNote({ rows, flights: read }: TippingResult): string {
  const held = rows.some(({ flights }) => flights > 0)
    ? ' Guesses drawn together with others, or from a few values, were held in flights of their own.'
    : '';
  return unbroken(
    `Read off the ${flightsText(read)} at that height, in each of which every guess was drawn anew and apart from the others, by a smooth curve of the risk over one guess at a time; what holds or has turned does so by one-sided 95 %.${held}`,
  );
}

function bandText(risk: TippingRow['riskAtEnd']): string {
  const { estimate, lower, upper } = differenceParts(risk);
  return unbroken(`${estimate} % (${lower} to ${upper} %)`);
}

/** Words are for what the flights show; what is only estimated stands in the column of the risk. */
function tippingText(row: TippingRow, { scenario }: AssessResult): string {
  const { status, side, keeps, keepsToEnd, turned } = row;
  const at = ({ value }: TippingPlace) => inputValueText(scenario, row.path, value);
  if (status === 'not on this side')
    return turned === null
      ? 'not settled: by the estimate already on the other side at its middle value'
      : 'already on the other side at its middle value';
  if (keepsToEnd) return 'the verdict holds to the end of its plausible range';
  if (keeps === null)
    return turned === null
      ? 'not settled'
      : `the verdict has turned at ${at(turned)}; nearer to the median it is not settled`;
  const holds = `the verdict holds ${side === 'low' ? 'down' : 'up'} to ${at(keeps)}`;
  return turned === null ? `${holds}; further out it is not settled` : `${holds} and has turned at ${at(turned)}`;
}
