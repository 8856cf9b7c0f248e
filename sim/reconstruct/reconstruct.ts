/** Turns a flight log into height and speed over time, events and quantities, laid over what the scenario predicts. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { presentVersions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { FlightColumns } from '../flight/record.js';
import { scenarioWarnings } from '../scenario/hazards.js';
import type { Scenario } from '../scenario/scenario.js';
import type { EnvelopePoint } from '../trace/result.js';
import { type Reconstruction, reconstructCourse } from './course.js';
import { roundingOf } from './events.js';
import type { Known } from './known.js';
import { eventsOf, quantitiesOf } from './quantities.js';
import type { FlightLog } from './read-log.js';
import type { CoursePoint, LogQuantity, QuantityName, ReconstructResult } from './result.js';

/** What the scenario's own flights did, to lay the log over. */
export interface Predicted {
  readonly scenario: Scenario;
  readonly seed: string;
  readonly envelope: readonly EnvelopePoint[];
  readonly columns: FlightColumns;
}

const POINTS = 140;
const MEASURED = 600;
/** A stretch without a reading counts as a gap from this length on, s. */
const GAP = 0.5;
const REACH = 1.645;

export function reconstruct(log: FlightLog, known: Known, predicted: Predicted | null): Answer<ReconstructResult> {
  const made = reconstructCourse(log, known);
  if (made === null)
    return refused(
      `"${log.file}" shows no fall: no stretch of free fall in the g-reading and no fast descent in the height. Are the columns and their units right? --time, --reading and --height name them.`,
    );
  const gaps = gapsOf(log, made.start);
  return ok({
    kind: 'reconstruct',
    versions: presentVersions(),
    file: log.file,
    invented: log.invented,
    channels: log.reading === null ? 'height' : log.height === null ? 'reading' : 'reading and height',
    rows: log.time.length,
    duration: log.time[log.time.length - 1] - log.time[0],
    gaps,
    rounding: {
      reading: log.reading === null ? null : roundingOf(log.reading),
      height: log.height === null ? null : roundingOf(log.height),
    },
    zeroError: made.events.rest === null ? null : made.events.rest - 1,
    events: eventsOf(made),
    quantities: quantitiesOf(log, made, known.plannedHeight).map((one) => placed(one, predicted)),
    course: made.heightsHeld ? courseOf(made) : [],
    measured: measuredOf(log, made.start),
    plannedHeight: known.plannedHeight,
    scenario:
      predicted === null
        ? null
        : {
            title: predicted.scenario.title,
            hash: predicted.scenario.hash,
            changed: predicted.scenario.changed,
            seed: predicted.seed,
            flights: predicted.columns.outcome.length,
            envelope: predicted.envelope,
          },
    warnings: [
      ...(predicted === null ? [] : scenarioWarnings(predicted.scenario)),
      ...warningsOf(log, known, made, gaps),
    ],
  });
}

/**
 * A quantity of the log in simulated flights, NaN in flights in which it never came; null for a quantity that the record
 * of a flight does not hold.
 */
export function simulatedQuantity(
  name: QuantityName,
  flights: FlightColumns,
  plannedHeight: number,
): Float64Array | null {
  const column = (key: keyof FlightColumns['columns']) => Float64Array.from(flights.columns[key] ?? []);
  const running = column('running_time');
  const up = () => {
    const [height, speed, order] = [column('order_height'), column('speed_at_order'), column('order_time')];
    return height.map((one, i) => one - speed[i] * (running[i] - order[i]));
  };
  switch (name) {
    case 'throttle_up_time':
      return running;
    case 'throttle_up_height':
      return up();
    case 'height_below_plan':
      return up().map((one) => plannedHeight - one);
    case 'speed_at_throttle_up':
      return column('speed_at_order');
    case 'stopping_height': {
      const arrest = column('arrest_height');
      return up().map((one, i) => one - arrest[i]);
    }
    case 'stopping_time':
      return column('arrest_time').map((one, i) => one - running[i]);
    case 'touchdown_time':
      return column('time');
    case 'touchdown_speed':
      return column('vertical_speed');
    default:
      return null;
  }
}

function placed(one: LogQuantity, predicted: Predicted | null): LogQuantity {
  if (predicted === null || one.value === null || one.low === null || one.high === null) return one;
  const simulated = simulatedQuantity(one.name, predicted.columns, predicted.columns.height);
  const values = simulated?.filter((value) => !Number.isNaN(value)) ?? new Float64Array(0);
  if (values.length < 20) return one;
  const share = (limit: number) => values.filter((value) => value < limit).length / values.length;
  return { ...one, percentile: [share(one.value), share(one.low), share(one.high)] };
}

function courseOf({ smoothed, step }: Reconstruction): readonly CoursePoint[] {
  const nodes = smoothed.mean.height.length;
  const count = Math.min(POINTS, nodes);
  return Array.from({ length: count }, (_, i) => {
    const k = Math.round((i * (nodes - 1)) / Math.max(1, count - 1));
    const band = (middle: number, sd: number): [number, number, number] => [
      rounded(middle - REACH * sd),
      rounded(middle),
      rounded(middle + REACH * sd),
    ];
    return {
      time: rounded(k * step),
      height: band(smoothed.mean.height[k], smoothed.sd.height[k]),
      speed: band(-smoothed.mean.speed[k], smoothed.sd.speed[k]),
    };
  });
}

function rounded(value: number): number {
  return Number(value.toFixed(3));
}

function measuredOf(log: FlightLog, start: number): ReconstructResult['measured'] {
  const kept: number[] = [];
  for (let i = 0; i < log.time.length; i++)
    if (log.time[i] >= start - 2 && log.height !== null && !Number.isNaN(log.height[i])) kept.push(i);
  if (kept.length === 0) for (let i = 0; i < log.time.length; i++) if (log.time[i] >= start - 2) kept.push(i);
  const each = Math.max(1, Math.ceil(kept.length / MEASURED));
  const shown = (values: Float64Array | null, i: number) =>
    values === null || Number.isNaN(values[i]) ? null : rounded(values[i]);
  return kept
    .filter((_, at) => at % each === 0)
    .map((i) => ({
      time: rounded(log.time[i] - start),
      reading: shown(log.reading, i),
      height: shown(log.height, i),
    }));
}

/** Stretches without any reading at all. */
function gapsOf(log: FlightLog, start: number): ReconstructResult['gaps'] {
  const gaps: { from: number; to: number }[] = [];
  let last = log.time[0];
  for (let i = 0; i < log.time.length; i++) {
    const read = [log.reading, log.height].some((values) => values !== null && !Number.isNaN(values[i]));
    if (!read) continue;
    if (log.time[i] - last > GAP) gaps.push({ from: rounded(last - start), to: rounded(log.time[i] - start) });
    last = log.time[i];
  }
  return gaps;
}

function warningsOf(
  log: FlightLog,
  known: Known,
  made: Reconstruction,
  gaps: ReconstructResult['gaps'],
): readonly Warning[] {
  const warnings: Warning[] = [];
  const warn = (code: string, text: string, advice: string) => warnings.push({ code, text, advice });
  if (log.height === null)
    warn(
      'no height',
      'A g-meter alone reads 1 g at any steady speed: heights and speeds are loose, and the touchdown speed cannot be told.',
      'Log the barometric height as well: the two together are the log to recommend.',
    );
  if (log.reading === null)
    warn(
      'no reading',
      'A height alone tells events to half a second, and neither shocks nor the touchdown speed.',
      'Log the g-reading as well.',
    );
  if (log.reading !== null && known.sensorOffset === null)
    warn(
      'no offset',
      'How far the g-meter sits from the centre of mass was not said; a tumbling can reads more by it.',
      "Say it, as --sensor-offset '20 mm'.",
    );
  if (log.reading !== null && !made.events.ejectionSeen)
    warn(
      'ejection not seen',
      'The readings show neither a shock nor a drop at the ejection: its time, from which all others count, is known to a second at best.',
      'Log faster (50 readings a second or more), or start the log at the ejection.',
    );
  if (!made.heightsHeld)
    warn(
      'floating heights',
      'Neither a barometer nor both the height at ejection and a touchdown hold the heights, so none are given.',
      "Say --ejection-height '720 m', or give the scenario.",
    );
  if (made.events.touchdown === null)
    warn(
      'no touchdown',
      'The log ends before the can lies still: the ground does not hold the heights.',
      'Keep logging for a few seconds after the touchdown.',
    );
  if (made.events.throttleUp === null)
    warn(
      'no throttle-up',
      'The log shows no throttle-up: either there was none, or the readings are too coarse.',
      'Compare with the video.',
    );
  if (gaps.length > 0)
    warn(
      'gaps',
      `${gaps.length} ${gaps.length === 1 ? 'gap' : 'gaps'} in the log, ${gaps
        .map(({ from, to }) => `${from.toFixed(1)} to ${to.toFixed(1)} s`)
        .slice(0, 4)
        .join(', ')} after ejection: what happened there is bridged, with wider bands.`,
      'An event inside a gap is seen at its end.',
    );
  return warnings;
}
