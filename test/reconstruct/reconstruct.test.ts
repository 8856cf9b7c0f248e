import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { reconstructCourse } from '../../sim/reconstruct/course.js';
import { knownFrom, NOTHING_KNOWN } from '../../sim/reconstruct/known.js';
import { predictFlights } from '../../sim/reconstruct/predict.js';
import { quantitiesOf, valueAt } from '../../sim/reconstruct/quantities.js';
import { type FlightLog, readLog } from '../../sim/reconstruct/read-log.js';
import { type Predicted, reconstruct } from '../../sim/reconstruct/reconstruct.js';
import type { QuantityName, ReconstructResult } from '../../sim/reconstruct/result.js';
import type { Prior } from '../../sim/reconstruct/smoother.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { burdock } from '../ensemble/burdock.js';
import { notFinite } from '../fit/not-finite.js';
import { type Channels, flyLogs } from './synthetic-flights.js';

const REACH = 1.645;
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

function made(log: FlightLog, besides = known, predicted: Predicted | null = null): ReconstructResult {
  const one = reconstruct(log, besides, predicted);
  if (one.status === 'refused') throw new Error(one.messages.join('\n'));
  return one.value;
}

function quantity(result: ReconstructResult, name: QuantityName) {
  const one = result.quantities.find((candidate) => candidate.name === name);
  if (one === undefined) throw new Error(name);
  return one;
}

/** A fall from rest with terminal speed 40 m/s: v = vt tanh(g t/vt), drop = (vt^2/g) ln cosh(g t/vt); g-readings v^2/vt^2. */
function freeFall(
  seconds: number,
  zero = 0,
): {
  readonly log: FlightLog;
  readonly height: number;
  readonly speed: (t: number) => number;
  readonly drop: (t: number) => number;
} {
  const [g, vt] = [9.80665, 40];
  const speed = (t: number) => vt * Math.tanh((g * t) / vt);
  const drop = (t: number) => (vt ** 2 / g) * Math.log(Math.cosh((g * t) / vt));
  const [time, reading] = [[], []] as number[][];
  for (let i = 0; i < (3 + seconds + 4) * 100; i++) {
    const t = i / 100 - 3;
    const force = t < 0 ? 1 : t > seconds + 0.03 ? 1 : t > seconds ? 16 : (speed(t) / vt) ** 2;
    time.push(i / 100);
    reading.push(Math.round((force + zero) * 100) / 100);
  }
  const log = {
    file: 'fall',
    invented: true,
    time: Float64Array.from(time),
    reading: Float64Array.from(reading),
    height: null,
  };
  return { log, height: drop(seconds), speed, drop };
}

describe('a reconstructed free fall', () => {
  it.each([0, 0.2])('with a terminal speed agrees with the closed form, wrong zero %d g', (zero) => {
    const { log, height, speed, drop } = freeFall(9, zero);
    const besides = {
      ...NOTHING_KNOWN,
      sideSpeed: 0,
      ejectionHeight: { mean: height, sd: 1 },
      ejectionSpeed: { mean: 0, sd: 0.1 },
    };
    const result = reconstructCourse(log, besides);
    if (result === null) throw new Error();
    // vt 40: 5 s -> 33.6546 m/s, 100.393 m.
    expect(speed(5)).toBeCloseTo(33.6546, 4);
    expect(drop(5)).toBeCloseTo(100.393, 3);
    for (const t of [1, 3, 5, 8]) {
      const late = t + 3 - result.start;
      expect(Math.abs(-valueAt(result.smoothed.mean.speed, result.step, late) - speed(t))).toBeLessThan(0.7);
      expect(Math.abs(valueAt(result.smoothed.mean.height, result.step, late) - (height - drop(t)))).toBeLessThan(2.5);
    }
  });

  it('of a terminal speed twice as high reads the same in the end: its bands say so', () => {
    const { log, height } = freeFall(20);
    const result = reconstructCourse(log, { ...NOTHING_KNOWN, ejectionHeight: { mean: height, sd: 20 } });
    if (result === null) throw new Error();
    const middle = valueAt(result.smoothed.sd.speed, result.step, 15);
    expect(REACH * middle).toBeGreaterThan(1);
  });
});

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
    for (let id = 0; id < 160; id++) {
      const channels = kinds[id % 5];
      // Steps of 0.1 g, a wrong zero from -0.1 to 0.1 g, a gap of 1.5 s somewhere in the fall in every third log.
      const gap = 3 + (id % 9);
      const flown = fly(id, channels, {
        readingZero: ((id % 21) - 10) / 100,
        heightZero: (id % 13) - 6,
        ...barometerErrors(id),
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
  }, 120_000);

  it('are seen, nearly all of 160', () => {
    expect(unseen).toBeLessThanOrEqual(2);
  });

  // Twenty moments of one flight go together: 64 flights put a standard deviation of about 3 % on a coverage of 90 %.
  it.each(['reading and height', 'reading', 'height'] as const)(
    'with %s lie inside their 90 in 100 bands about as often as stated',
    (channels) => {
      const { heights, speeds, of } = counts[channels];
      expect(heights / of).toBeGreaterThan(0.85);
      expect(speeds / of).toBeGreaterThan(0.85);
      if (channels === 'reading') return; // A g-meter alone: its bands are on the safe side.
      expect(heights / of).toBeLessThan(0.96);
      expect(speeds / of).toBeLessThan(0.97);
    },
  );

  it('with a barometer, of either kind, lie inside nearly as often as stated', () => {
    const [one, other] = [counts['reading and height'], counts.height];
    expect((one.heights + other.heights) / (one.of + other.of)).toBeGreaterThan(0.87);
    expect((one.speeds + other.speeds) / (one.of + other.of)).toBeGreaterThan(0.87);
  });

  it('are known to metres with a barometer, to tens of metres with a g-meter alone', () => {
    const width = (channels: Channels) => counts[channels].width / counts[channels].of;
    expect(width('reading and height')).toBeLessThan(8);
    expect(width('reading')).toBeGreaterThan(20);
  });
});

describe('the quantities of a flight', () => {
  const fly = flyLogs(scenario, 'quantities');

  it.each([
    ['reading and height', 7],
    ['height', 6],
  ] as const)('of %s cover the truth about as often as stated', (channels, names) => {
    const counts = new Map<string, { in: number; of: number }>();
    for (let id = 0; id < 32; id++) {
      const flown = fly(id, channels, barometerErrors(id));
      if (flown.outcome !== 0) continue;
      const result = reconstructCourse(flown.log, known);
      if (result === null) continue;
      const running = flown.at('running_time');
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
    // 90 % of about 31; three standard deviations of the count are 5.
    for (const count of counts.values()) expect(count.in / count.of).toBeGreaterThan(0.74);
    const [covered, of] = [...counts.values()].reduce(([a, b], one) => [a + one.in, b + one.of], [0, 0]);
    expect(of).toBeGreaterThan(28 * names);
    expect(covered / of).toBeGreaterThan(0.87);
  });

  it('of heights alone hold after a short fall too, whose end is not steady yet', () => {
    const read = readScenario('configs/teasel.yaml', []);
    if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
    const drop = flyLogs(read.value, 'short fall', 60);
    const besides = knownFrom(read.value);
    let [covered, of] = [0, 0];
    for (let id = 0; id < 30; id++) {
      const flown = drop(id, 'height');
      const result = flown.outcome === 0 ? reconstructCourse(flown.log, besides) : null;
      if (result === null) continue;
      const [height] = flown.truth(flown.at('running_time'));
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
    expect(of).toBeGreaterThan(45);
    // 90 % of some 26 flights, two numbers of each that go together: three standard deviations are 18 %.
    expect(covered / of).toBeGreaterThan(0.72);
  });

  it('of a g-meter alone leave the touchdown speed open, and the offset is asked for', () => {
    const result = made(fly(3, 'reading').log);
    expect(quantity(result, 'touchdown_speed').status).toBe('not identifiable');
    expect(quantity(result, 'throttle_up_time').status).toBe('known');
    expect(quantity(result, 'peak_reading').value).toBeGreaterThan(1.5);
    expect(result.warnings.map(({ code }) => code)).toEqual(['no height', 'no offset']);
  });

  it('of a g-meter alone without any known height are times only', () => {
    const result = made(fly(3, 'reading').log, NOTHING_KNOWN);
    expect(result.course).toEqual([]);
    for (const name of ['throttle_up_height', 'mean_fall_speed', 'stopping_height'] as const)
      expect(quantity(result, name).status).toBe('not identifiable');
    expect(quantity(result, 'stopping_time').status).toBe('known');
  });

  it('of a log that ends in the air say so', () => {
    const { log, at } = fly(4, 'reading and height');
    const end = log.time.findIndex((time) => time > 3 + at('time') - 10);
    const cut = {
      ...log,
      time: log.time.slice(0, end),
      reading: (log.reading as Float64Array).slice(0, end),
      height: (log.height as Float64Array).slice(0, end),
    };
    const result = made(cut);
    expect(result.warnings.map(({ code }) => code)).toContain('no touchdown');
    expect(quantity(result, 'touchdown_speed').status).toBe('not identifiable');
  });

  it('of a log too slow to catch the ejection say that its time is a guess, and still hold it', () => {
    const slow = fly(5, 'reading and height', { load: 0, readingRate: 25 });
    const result = made(slow.log);
    expect(result.warnings.map(({ code }) => code)).toContain('ejection not seen');
    const up = quantity(result, 'throttle_up_time');
    expect(up.low).toBeLessThan(slow.at('running_time'));
    expect(up.high).toBeGreaterThan(slow.at('running_time'));
  });

  it('stand among those of the simulated flights', async () => {
    const predicted = await predictFlights(scenario, '1', 250, 40);
    const result = made(fly(5, 'reading and height').log, known, predicted);
    expect(result.scenario?.flights).toBe(40);
    const share = quantity(result, 'speed_at_throttle_up').percentile;
    expect(share?.[1]).toBeLessThanOrEqual(share?.[0] ?? -1);
    expect(share?.[2]).toBeGreaterThanOrEqual(share?.[0] ?? 2);
    expect(notFinite(result)).toEqual([]);
    expect(quantity(result, 'mean_fall_speed').percentile).toBeNull();
  });

  it('come out the same twice', () => {
    expect(made(fly(6, 'reading and height').log)).toEqual(made(fly(6, 'reading and height').log));
  });
});

describe('a log file', () => {
  const rows = Array.from({ length: 30 }, (_, i) => `${i / 10},${(i % 3) / 10}`).join('\n');
  const none = { time: null, reading: null, height: null };

  function log(text: string, columns: Partial<typeof none | Record<keyof typeof none, string>> = {}): FlightLog {
    const read = readLog(text, 'log.csv', { ...none, ...columns });
    if (read.status === 'refused') throw new Error(read.messages.join('\n'));
    return read.value;
  }

  it.each([
    ['time_s,reading_g', 0.1, 0.1],
    ['time_ms,acc_m/s^2', 0.1e-3, 0.1 / 9.80665],
    ['t (s),accel [m/s2]', 0.1, 0.1 / 9.80665],
    ['Time,G', 0.1, 0.1],
  ])('with the header %j is read in its units', (header, time, reading) => {
    const read = log(`${header}\n${rows}\n`);
    expect(read.time[1]).toBeCloseTo(time, 12);
    expect(read.reading?.[1]).toBeCloseTo(reading, 12);
    expect(read.height).toBeNull();
  });

  it('takes columns by name, and the size of three axes', () => {
    const feet = log(`clock,up\n${rows}\n`, { time: 'clock:s', height: 'up:ft' });
    expect(feet.height?.[1]).toBeCloseTo(0.03048, 12);
    const axes = Array.from({ length: 30 }, (_, i) => `${i},0.3,0.4,1.2`).join('\n');
    expect(log(`t,ax,ay,az\n${axes}\n`).reading?.[0]).toBeCloseTo(1.3, 12);
  });

  it.each([
    [`time,g\n${rows}\n2.0,0\n`, /log\.csv:32: found the time 2 after 2\.9; expected a time that never falls/],
    [`time,g\n${rows}\n,0\n`, /log\.csv:32: found no time/],
    [`time,g\n${rows}\n3.1,x\n`, /log\.csv:32: found "x"/],
    ['time,g\n1,1\n2,1\n3,1\n4,1\n5,1\n', /holds 5 rows of readings; a flight needs at least 20/],
    [`time,temperature\n${rows}\n`, /neither g-reading nor height/],
    [`g,height\n${rows}\n`, /no column for the time/],
    [`time,g\n${rows}\n99999,0\n`, /runs over 27\.7775 hours.*milliseconds/],
    [`time,g\n${Array.from({ length: 30 }, () => '1,1').join('\n')}\n`, /every row has the same time/],
  ])('is refused with what is wrong', (text, words) => {
    expect(readLog(text, 'log.csv', none)).toMatchObject({
      status: 'refused',
      messages: [expect.stringMatching(words)],
    });
  });

  it('of any content is refused or reconstructed, without a throw and without a number that is none', () => {
    const cell = fc.oneof(
      fc.constant(Number.NaN),
      fc.double({ min: 0, max: 16, noNaN: true }),
      fc.constantFrom(0, 0.1, 1, 1.5),
    );
    const rows = fc.array(
      fc.tuple(fc.double({ min: 0, max: 0.4, noNaN: true }), cell, fc.double({ min: -50, max: 900, noNaN: true })),
      { minLength: 20, maxLength: 150 },
    );
    fc.assert(
      fc.property(rows, fc.constantFrom('both', 'reading', 'height'), (list, channels) => {
        let clock = 0;
        const time = Float64Array.from(list, ([step]) => {
          clock += step;
          return clock;
        });
        const log: FlightLog = {
          file: 'any',
          invented: true,
          time,
          reading: channels === 'height' ? null : Float64Array.from(list, ([, reading]) => reading),
          height: channels === 'reading' ? null : Float64Array.from(list, ([, , height]) => height),
        };
        const one = reconstruct(log, { ...NOTHING_KNOWN, plannedHeight: 100 }, null);
        if (one.status === 'refused') expect(one.messages[0]).toMatch(/shows no fall/);
        else {
          expect(notFinite(one.value)).toEqual([]);
          for (const point of one.value.course)
            for (const value of [...point.height, ...point.speed]) expect(Number.isFinite(value)).toBe(true);
        }
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('without a fall in it is refused', () => {
    const still = log(`time,g\n${Array.from({ length: 300 }, (_, i) => `${i / 10},1`).join('\n')}\n`);
    expect(reconstruct(still, NOTHING_KNOWN, null)).toMatchObject({
      status: 'refused',
      messages: [expect.stringMatching(/shows no fall/)],
    });
  });
});
