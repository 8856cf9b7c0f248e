/** Section 3 shows 100 flights with a symbol for each. */

import type { HeightPoint } from '../../sim/assess/result.js';
import { OUTCOMES, type Outcome } from '../../sim/flight/record.js';
import { largestRemainder } from '../../sim/statistics/largest-remainder.js';
import { proportionText } from '../../sim/statistics/words.js';
import { type Table, table } from '../kit/table.js';
import { countText, flightsText, metres } from '../kit/words/numbers.js';
import { framesSentence } from '../kit/words/sentences.js';

export interface IconCell {
  readonly x: number;
  readonly y: number;
  readonly symbol: string;
}

export interface HundredCells {
  readonly icons: readonly IconCell[];
  /** What the picture shows, in words. */
  readonly label: string;
  /** Where a seen outcome is rarer than the picture can show, how it is drawn all the same. */
  readonly rareNote: string | null;
  readonly legend: readonly { readonly symbol: string; readonly text: string }[];
}

const OUTCOME_WORDS: Readonly<Record<Outcome, { readonly name: string; readonly many: string }>> = {
  soft: { name: 'Soft', many: 'land softly' },
  hard: { name: 'Hard', many: 'land hard' },
  crash: { name: 'Crash', many: 'crash' },
  numerical: { name: 'Not computed', many: 'could not be computed and count as failed' },
};

export function outcomeName(outcome: Outcome): string {
  return OUTCOME_WORDS[outcome].name;
}

const COLUMNS = 20;
/** From one icon to the next, in the units of the drawing. */
const PITCH = 24;

function placeOf(index: number) {
  return { x: PITCH * (index % COLUMNS), y: PITCH * Math.floor(index / COLUMNS) };
}

/**
 * A hundred cells in a fixed order: soft, hard, crash. An outcome that was seen but gets no whole cell is drawn small
 * inside the last soft symbol, so that a rare failure never looks like none.
 */
export function hundredCells(outcomes: Readonly<Record<Outcome, number>>): HundredCells {
  const counts = OUTCOMES.map((outcome) => outcomes[outcome]);
  const cells = largestRemainder(counts);
  const rare = OUTCOMES.filter((_, index) => counts[index] > 0 && cells[index] === 0);
  const symbols = OUTCOMES.flatMap((outcome, index) => new Array<string>(cells[index]).fill(`icon-${outcome}`));
  const lastSoft = cells[0] - 1;
  const icons = symbols.map((symbol, index) => ({ ...placeOf(index), symbol }));
  rare.forEach((outcome, index) => {
    const place = Math.max(0, lastSoft - index);
    icons.push({ ...placeOf(place), symbol: `small-${outcome}` });
  });
  const legend = OUTCOMES.map((outcome, index) => ({ outcome, count: counts[index], icons: cells[index] }))
    .filter(({ outcome, count }) => count > 0 || outcome !== 'numerical')
    .map(({ outcome, count, icons: shown }) => ({
      symbol: `icon-${outcome}`,
      text:
        count > 0 && shown === 0
          ? `fewer than 1 in 100: ${OUTCOME_WORDS[outcome].many} (${countText(count)} of all)`
          : `${shown} ${OUTCOME_WORDS[outcome].many}${count === 0 ? '' : ` (${countText(count)} of all)`}`,
    }));
  const words = OUTCOMES.map((outcome, index) => ({ outcome, icons: cells[index] })).filter(
    ({ icons: shown }) => shown > 0,
  );
  const rareWords = rare.map((outcome) => `fewer than 1 ${OUTCOME_WORDS[outcome].many}`);
  return {
    icons,
    label: `Out of 100 flights: ${[...words.map(({ outcome, icons: shown }) => `${shown} ${OUTCOME_WORDS[outcome].many}`), ...rareWords].join(', ')}.`,
    rareNote:
      rare.length === 0
        ? null
        : 'A small symbol inside a circle: this was seen, but in fewer than 1 flight in 100, so that it gets no circle of its own.',
    legend,
  };
}

export interface HundredPanel {
  readonly height: number;
  readonly shown: boolean;
  readonly caption: string;
  readonly cells: HundredCells;
}

export interface HundredSection {
  readonly panels: readonly HundredPanel[];
  readonly table: Table;
}

function lowerCase(sentence: string): string {
  return `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}

export function hundredSection(points: readonly HeightPoint[], shown: number): HundredSection {
  return {
    panels: points.map((point) => ({
      height: point.height,
      shown: point.height === shown,
      caption: `With throttle-up at ${metres(point.height)}, of ${flightsText(point.risk.flights)}: ${lowerCase(framesSentence(point.risk))}`,
      cells: hundredCells(point.outcomes),
    })),
    table: table(
      'How many flights ended in each way, by throttle-up height.',
      ['#Height', '#Flights', '#Soft', '#Hard', '#Crash', '#Not computed', '#Not soft (90 % interval)'],
      points.map(({ height, outcomes, risk }) => [
        metres(height),
        countText(risk.flights),
        ...OUTCOMES.map((outcome) => countText(outcomes[outcome])),
        proportionText(risk),
      ]),
    ),
  };
}
