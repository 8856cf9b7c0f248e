/** How far a study is. What is yet to come is guessed, and each guess gives way to what was flown. */

import { SCREENING_FLIGHTS } from '../decision/height-plan.js';
import { FLIGHTS_PER_WORLD } from '../draws/draw.js';
import type { Flyer } from '../ensemble/flyer.js';
import { WORLDS } from './worlds.js';

/** The phases of a study, in their order. */
export const PHASES = [
  'heights asked for',
  'search for a height',
  'fresh flights',
  'what nobody has measured',
  'what would help',
] as const;
export type Phase = (typeof PHASES)[number];

export interface StudyProgress {
  readonly phase: Phase;
  /** One flight is one descent at one height. */
  readonly flown: number;
  /** What was flown in the phases that are over, and what is expected of this one and of those to come. */
  readonly total: number;
}

export type ExpectedFlights = Readonly<Record<Phase, number>>;

/** A phase that takes more flights than expected has at least this share of them still to come. */
const STILL_TO_COME = 0.05;

export interface StudyCount {
  /** A better guess of what each phase takes. */
  expect(expected: ExpectedFlights): void;
  /** The phase that flies from now on; those before it are over. */
  begin(phase: Phase): void;
  /** The same flyer, its flights counted. */
  counted(flyer: Flyer): Flyer;
  readonly phase: Phase;
}

export function createStudyCount(
  first: ExpectedFlights,
  onProgress: (progress: StudyProgress) => void = () => {},
): StudyCount {
  const flown = new Map<Phase, number>(PHASES.map((phase) => [phase, 0]));
  let expected = first;
  let phase: Phase = PHASES[0];
  const total = () =>
    PHASES.reduce((sum, one, index) => {
      const done = flown.get(one) as number;
      const now = PHASES.indexOf(phase);
      if (index < now) return sum + done;
      const over = done > expected[one] ? Math.ceil(done * (1 + STILL_TO_COME)) : expected[one];
      return sum + (index === now ? over : expected[one]);
    }, 0);
  const hear = (flights: number) => {
    flown.set(phase, (flown.get(phase) as number) + flights);
    onProgress({ phase, flown: [...flown.values()].reduce((sum, one) => sum + one, 0), total: total() });
  };
  return {
    expect(better) {
      expected = better;
    },
    begin(next) {
      phase = next;
    },
    counted: (flyer) => ({
      fly(batch, onFlown, stop) {
        const heard = (flights: number) => {
          hear(flights * batch.heights.length);
          onFlown?.(flights);
        };
        return flyer.fly(batch, heard, stop);
      },
      close: flyer.close,
    }),
    get phase() {
      return phase;
    },
  };
}

/** Flights of the search for a height besides its screening, in flights a height, as seen with the demo. */
const SEARCH_COST = 6;
/** Flights that ask the inputs what would help, with 2000 flights a height or more, as seen with the demo. */
const HELP_FLIGHTS = 6000;
const HELP_FROM = 2000;

/** What a study with this number of flights at each height is likely to fly. */
export function expectedFlights(study: {
  readonly flights: number;
  /** How many heights were asked for, or the search starts from. */
  readonly heights: number;
  readonly searches: boolean;
  /** Whether any input is unmeasured, so that there are worlds to fly. */
  readonly unmeasured: boolean;
  /** Whether they are flown without a search too. */
  readonly assuresPlanned: boolean;
}): ExpectedFlights {
  const { flights, heights, searches, unmeasured, assuresPlanned } = study;
  const worlds = unmeasured ? WORLDS * FLIGHTS_PER_WORLD : 0;
  const screening = 2 * heights * Math.min(SCREENING_FLIGHTS, flights);
  return {
    'heights asked for': searches ? flights : heights * flights,
    'search for a height': searches ? Math.round(screening + SEARCH_COST * flights) : 0,
    'fresh flights': searches ? 3 * flights : 0,
    'what nobody has measured': searches || assuresPlanned ? worlds : 0,
    'what would help': searches ? Math.round(HELP_FLIGHTS * Math.min(1, flights / HELP_FROM)) : 0,
  };
}
