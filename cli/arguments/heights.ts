import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import type { HeightsRequest } from '../../sim/decision/height-grid.js';
import { parseHeight } from './numbers.js';

const HOW =
  'write a list (80,120,200), a range with its step (80:300:20), or "planned"; heights in metres above ground';
/** What stands for the grid that the program chooses. */
export const STANDARD_HEIGHTS = 'standard';
/** More heights than this make no clearer curve. */
const MOST_HEIGHTS = 100;

/** Reads --heights: which throttle-up heights to fly besides the planned one. */
export function parseHeights(text: string): Answer<HeightsRequest> {
  if (text === STANDARD_HEIGHTS) return ok({ kind: 'standard' });
  if (text.trim() === 'planned') return ok({ kind: 'planned' });
  const heights = text.includes(':') ? fromRange(text) : text.split(',').map(parseHeight);
  if (typeof heights === 'string') return refused(`--heights is "${text}": ${heights}; ${HOW}.`);
  if (heights.includes(null)) {
    const wrong = text.split(/[,:]/).find((part) => parseHeight(part) === null) ?? text;
    return refused(`--heights is "${text}", where "${wrong}" is not a height above 0; ${HOW}.`);
  }
  if (heights.length > MOST_HEIGHTS)
    return refused(
      `--heights asks for ${heights.length} heights, but at most ${MOST_HEIGHTS} are flown; widen the step.`,
    );
  return ok({ kind: 'list', heights: heights as number[] });
}

function fromRange(text: string): (number | null)[] | string {
  const parts = text.split(':').map(parseHeight);
  if (parts.length !== 3) return 'a range has three parts, lowest:highest:step';
  const [lowest, highest, step] = parts;
  if (lowest === null || highest === null || step === null) return parts;
  if (lowest > highest) return `the lowest height comes first, as in ${highest}:${lowest}:${step}`;
  const count = Math.floor((highest - lowest) / step + 1e-9) + 1;
  return count > 10 * MOST_HEIGHTS
    ? `that makes ${count} heights, but at most ${MOST_HEIGHTS} are flown; widen the step`
    : Array.from({ length: count }, (_, index) => Number((lowest + index * step).toFixed(6)));
}
