/** Logs of flights whose truth is known: the bands of a reconstruction hold it as often as they say. */
import { beforeAll, describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { reconstructCourse } from '../../sim/reconstruct/course.js';
import { knownFrom } from '../../sim/reconstruct/known.js';
import { quantitiesOf, valueAt } from '../../sim/reconstruct/quantities.js';
import type { QuantityName } from '../../sim/reconstruct/result.js';
import type { Prior } from '../../sim/reconstruct/smoother.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { burdock } from '../ensemble/burdock.js';
import { figure, howMany, widened } from '../in-full.js';
import { type Channels, flyLogs } from './synthetic-flights.js';

const REACH = 1.645;
const LOGS = howMany(40, 160);
const FLIGHTS = howMany(10, 32);
const DROPS = howMany(12, 30);
const scenario = burdock();
const known = knownFrom(scenario);

/**
 * The barometer's errors laid evenly over what is known of them (multiples of 1/1.3247 and of its square), so that a
 * count of what is covered tells of the method and not of the luck of so few draws.
 */
function barometerErrors(id: number) {
  const evenly = ({ mean, sd }: Prior, place: number) => {
    const u = place % 1;
    return mean + sd * standardNormalQuantile(u, 1 - u);
  };
  return {
    scaleError: evenly(known.scaleError, 0.7548777 * (id + 1)),
    flowError: evenly(known.flowError, 0.5698403 * (id + 1)),
  };
}

describe('reconstructed flights of known truth', () => {
  interface Count {
    heights: number;
    speeds: number;
    of: number;
    width: number;
  }
  const counts: Record<Channels, Count> = {
    'reading and height': { heights: 0, speeds: 0, of: 0, width: 0 },
    reading: { heights: 0, speeds: 0, of: 0, width: 0 },
    height: { heights: 0, speeds: 0, of: 0, width: 0 },
  };
  let unseen = 0;

  beforeAll(() => {
    const fly = flyLogs(scenario, 'coverage');
    const kinds = ['height', 'reading and height', 'height', 'reading and height', 'reading'] as const;
    for (let id = 0; id < LOGS; id++) {
      const channels = kinds[id % 5];
      // Steps of 0.1 g, a wrong zero from -0.1 to 0.1 g, a gap of 1.5 s somewhere in the fall in every third log.
      const gap = 3 + (id % 9);
      // The how manieth log of its kind: the errors are laid evenly for each kind.
      const place = 2 * Math.floor(id / 5) + (id % 5 < 2 ? 0 : 1);
      const flown = fly(id, channels, {
        readingZero: ((id % 21) - 10) / 100,
        heightZero: (id % 13) - 6,
        ...barometerErrors(place),
        gaps: id % 3 === 0 ? [[gap, gap + 1.5]] : [],
      });
      const result = reconstructCourse(flown.log, known, 0);
      if (result === null) {
        unseen += 1;
        continue;
      }
      const count = counts[channels];
      const end = flown.at('time');
      for (let k = 1; k <= 20; k++) {
        const time = (end * k) / 21;
        const late = time + flown.ejection - result.start;
        const [z, v] = flown.truth(time);
        const [dz, dv] = [result.smoothed.sd.height, result.smoothed.sd.speed].map(
          (sd) => REACH * valueAt(sd, result.step, late),
        );
        if (Math.abs(valueAt(result.smoothed.mean.height, result.step, late) - z) <= dz) count.heights += 1;
        if (Math.abs(-valueAt(result.smoothed.mean.speed, result.step, late) - v) <= dv) count.speeds += 1;
        count.width += dz;
        count.of += 1;
      }
    }
  });

  it('are seen, nearly all of them', () => {
    figure('logs in which no fall is seen', unseen, 'of', LOGS);
    expect(unseen).toBeLessThanOrEqual(LOGS / 80);
  });

  // Twenty moments of one flight go together: 64 flights put a standard deviation of about 3 % on a coverage of 90 %.
  it.each(['reading and height', 'reading', 'height'] as const)(
    'with %s lie inside their 90 in 100 bands about as often as stated',
    (channels) => {
      const { heights, speeds, of } = counts[channels];
      figure(`heights and speeds inside, ${channels}`, heights / of, speeds / of);
      expect(heights / of).toBeGreaterThan(0.9 - widened(0.05, LOGS, 160));
      expect(speeds / of).toBeGreaterThan(0.9 - widened(0.05, LOGS, 160));
      if (channels === 'reading') return; // A g-meter alone: its bands are on the safe side.
      expect(heights / of).toBeLessThan(0.9 + Math.min(0.085, widened(0.06, LOGS, 160)));
      expect(speeds / of).toBeLessThan(0.9 + Math.min(0.085, widened(0.07, LOGS, 160)));
    },
  );

  it('with a barometer, of either kind, lie inside nearly as often as stated', () => {
    const [one, other] = [counts['reading and height'], counts.height];
    expect((one.heights + other.heights) / (one.of + other.of)).toBeGreaterThan(0.9 - widened(0.03, LOGS, 160));
    expect((one.speeds + other.speeds) / (one.of + other.of)).toBeGreaterThan(0.9 - widened(0.03, LOGS, 160));
  });

  it('are known to metres with a barometer, to tens of metres with a g-meter alone', () => {
    const width = (channels: Channels) => counts[channels].width / counts[channels].of;
    expect(width('reading and height')).toBeLessThan(8);
    expect(width('reading')).toBeGreaterThan(20);
  });
});

describe('the quantities of a flight of known truth', () => {
  const fly = flyLogs(scenario, 'quantities');

  it.each([
    ['reading and height', 7],
    ['height', 6],
  ] as const)('of %s cover the truth about as often as stated', (channels, names) => {
    const counts = new Map<string, { in: number; of: number }>();
    for (let id = 0; id < FLIGHTS; id++) {
      const flown = fly(id, channels, barometerErrors(id));
      if (flown.outcome !== 0) continue;
      const result = reconstructCourse(flown.log, known);
      if (result === null) continue;
      const running = flown.throttleUp;
      const [height, speed] = flown.truth(running);
      const truth: Partial<Record<QuantityName, number>> = {
        throttle_up_time: running,
        throttle_up_height: height,
        speed_at_throttle_up: speed,
        stopping_height: height - flown.at('arrest_height'),
        stopping_time: flown.at('arrest_time') - running,
        touchdown_time: flown.at('time'),
        touchdown_speed: flown.at('vertical_speed'),
      };
      for (const { name, low, high } of quantitiesOf(flown.log, result, 250)) {
        const value = truth[name];
        if (value === undefined || low === null || high === null) continue;
        const count = counts.get(name) ?? { in: 0, of: 0 };
        counts.set(name, { in: count.in + (low <= value && value <= high ? 1 : 0), of: count.of + 1 });
      }
    }
    expect(counts.size).toBe(names);
    // 90 % of about 31 in full; three standard deviations of the count are 5.
    for (const [name, count] of counts) {
      figure(`${name} inside, ${channels}`, count.in, 'of', count.of);
      expect(count.in / count.of).toBeGreaterThan(0.9 - widened(0.16, FLIGHTS, 32));
    }
    const [covered, of] = [...counts.values()].reduce(([a, b], one) => [a + one.in, b + one.of], [0, 0]);
    expect(of).toBeGreaterThan(0.87 * FLIGHTS * names);
    expect(covered / of).toBeGreaterThan(0.9 - widened(0.03, FLIGHTS, 32));
  });

  it('of heights alone hold after a short fall too, whose end is not steady yet', () => {
    const read = readScenario('configs/teasel.yaml', []);
    if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
    const drop = flyLogs(read.value, 'short fall', 60);
    const besides = knownFrom(read.value);
    let [covered, of] = [0, 0];
    for (let id = 0; id < DROPS; id++) {
      const flown = drop(id, 'height');
      const result = flown.outcome === 0 ? reconstructCourse(flown.log, besides) : null;
      if (result === null) continue;
      const [height] = flown.truth(flown.throttleUp);
      const truth: Partial<Record<QuantityName, number>> = {
        throttle_up_height: height,
        stopping_height: height - flown.at('arrest_height'),
      };
      for (const { name, low, high } of quantitiesOf(flown.log, result, 60)) {
        const value = truth[name];
        if (value === undefined || low === null || high === null) continue;
        of += 1;
        if (low <= value && value <= high) covered += 1;
      }
    }
    figure('heights of short falls inside', covered, 'of', of);
    expect(of).toBeGreaterThan(1.5 * DROPS);
    // 90 % of some 26 flights in full, two numbers of each that go together: three standard deviations are 18 %.
    expect(covered / of).toBeGreaterThan(0.9 - widened(0.18, DROPS, 30));
  });
});
