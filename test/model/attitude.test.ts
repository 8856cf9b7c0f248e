import { describe, expect, test } from 'vitest';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { dampedRateGain, gyroReading, mixRotors, referenceWeight, wantedRates } from '../../sim/model/attitude.js';
import { ROTOR_X, ROTOR_Y, TWIST } from '../../sim/model/rotors.js';
import { Slot } from '../../sim/model/scratch.js';
import { expectWithin } from './near.js';

const DEGREE = Math.PI / 180;

function mix(roll: number, pitch: number, yaw: number, collective: number): number[] {
  const w = new Float64Array(Slot.Size);
  w[Slot.Roll] = roll;
  w[Slot.Pitch] = pitch;
  w[Slot.Yaw] = yaw;
  w[Slot.Collective] = collective;
  mixRotors(w);
  return [...w.subarray(Slot.Command1, Slot.Command1 + 4)];
}

/** What four commands add up to: about x, about y, twist, in common. */
function unmix(commands: readonly number[]) {
  const along = (signs: readonly number[]) => commands.reduce((sum, c, i) => sum + (c * (signs[i] as number)) / 4, 0);
  return { roll: along(ROTOR_Y), pitch: -along(ROTOR_X), yaw: along(TWIST), collective: along([1, 1, 1, 1]) };
}

describe('the gyro', () => {
  test('reads scale and bias, and clips at full scale on both sides', () => {
    const range = 2000 * DEGREE;
    expectWithin(gyroReading(10, 0.01, 0.05, range), 10.15, 1e-12);
    expect(gyroReading(4000 * DEGREE, 0, 0, range)).toBe(range);
    expect(gyroReading(-4000 * DEGREE, 0.01, 0, range)).toBe(-range);
    expect(gyroReading(1990 * DEGREE, 0.01, 0, range)).toBe(range);
  });
});

describe('the accelerometer as a reference', () => {
  test('counts in full within 12 % of g, not at all beyond 18 %, half at the usual gate of 15 %', () => {
    expect([0.88, 1, 1.12].map((g) => referenceWeight((g + (g < 1 ? 1e-9 : -1e-9)) * GRAVITY, 0.15))).toEqual([
      1, 1, 1,
    ]);
    expect([0, 0.81, 1.19, 3].map((g) => referenceWeight(g * GRAVITY, 0.15))).toEqual([0, 0, 0, 0]);
    expectWithin(referenceWeight(1.15 * GRAVITY, 0.15), 0.5, 1e-12);
    expectWithin(referenceWeight(0.85 * GRAVITY, 0.15), 0.5, 1e-12);
  });
});

test('rate gain times motor lag is held at or under 0.6', () => {
  expect(dampedRateGain(10, 0.045)).toBe(10);
  expectWithin(dampedRateGain(30, 0.045) * 0.045, 0.6, 1e-12);
});

describe('the attitude loop', () => {
  const rates = (t: readonly [number, number, number]) => {
    const w = new Float64Array(Slot.Size);
    w.set(t, Slot.WantedX);
    wantedRates(w, 4, 400 * DEGREE);
    return [w[Slot.WantedTurnX], w[Slot.WantedTurnY]] as const;
  };

  test('turns the thrust axis to the wanted direction by the shortest way', () => {
    // t towards +x: z turns to x about +y; t towards +y: about -x.
    expect(rates([0.1, 0, 1])[1]).toBeGreaterThan(0);
    expect(rates([0.1, 0, 1])[0]).toBeCloseTo(0, 12);
    expect(rates([0, 0.1, 1])[0]).toBeLessThan(0);
  });

  test('asks for the gain times the angle when it is small, 2 tan(angle/2) when not, whatever the length of t', () => {
    const angle = 0.6;
    for (const length of [0.2, 1, 5]) {
      const [rx, ry] = rates([length * Math.sin(angle), 0, length * Math.cos(angle)]);
      expectWithin(ry, 4 * 2 * Math.tan(angle / 2), 1e-12);
      expectWithin(rx, 0, 1e-12);
    }
    expectWithin(rates([1e-4, 0, 1])[1], 4e-4, 1e-10);
  });

  test('asks for no more than the largest rate, and turns about x when exactly upside down', () => {
    const [rx, ry] = rates([-0.3, 0.4, -1]);
    expectWithin(Math.hypot(rx, ry), 400 * DEGREE, 1e-12);
    expect(rates([0, 0, -1])).toEqual([400 * DEGREE, 0]);
    expect(rates([0, 0, 1]).map(Math.abs)).toEqual([0, 0]);
  });
});

describe('the mixer', () => {
  test('gives what is asked for where all of it fits', () => {
    const { roll, pitch, yaw, collective } = unmix(mix(0.1, -0.05, 0.04, 0.6));
    expectWithin(roll, 0.1, 1e-12);
    expectWithin(pitch, -0.05, 1e-12);
    expectWithin(yaw, 0.04, 1e-12);
    expectWithin(collective, 0.6, 1e-12);
  });

  test('keeps every command in 0..1 and roll to pitch in proportion, whatever is asked for', () => {
    for (const roll of [-3, -0.4, 0, 0.2, 1])
      for (const pitch of [-2, -0.1, 0, 0.3])
        for (const yaw of [-5, -0.1, 0, 0.3, 9])
          for (const collective of [-1, 0, 0.3, 1, 4]) {
            const commands = mix(roll, pitch, yaw, collective);
            for (const c of commands) expect(c >= 0 && c <= 1).toBe(true);
            const got = unmix(commands);
            expectWithin(got.roll * pitch, got.pitch * roll, 1e-12);
            expect(got.roll * roll).toBeGreaterThanOrEqual(0);
          }
  });

  test('keeps roll and pitch whole at the cost of the collective', () => {
    const low = unmix(mix(0.2, 0.1, 0, 1));
    expectWithin(low.roll, 0.2, 1e-12);
    expectWithin(low.collective, 0.7, 1e-12);
    const high = unmix(mix(0.2, 0.1, 0, 0));
    expectWithin(high.collective, 0.3, 1e-12);
  });

  test('scales roll and pitch together where they alone span more than the range', () => {
    const { roll, pitch, collective } = unmix(mix(2, -1, 0, 1));
    expectWithin(roll, 1 / 3, 1e-12);
    expectWithin(pitch, -1 / 6, 1e-12);
    expectWithin(collective, 0.5, 1e-12);
  });

  test('gives yaw only the room that roll, pitch and collective leave', () => {
    expectWithin(unmix(mix(0, 0, 0.3, 1)).yaw, 0, 1e-12);
    expectWithin(unmix(mix(0, 0, 0.3, 0.9)).yaw, 0.1, 1e-12);
    const crowded = unmix(mix(0.3, 0.2, 0.3, 1));
    expectWithin(crowded.roll, 0.3, 1e-12);
    expectWithin(crowded.pitch, 0.2, 1e-12);
    expectWithin(crowded.yaw, 0, 1e-12);
    // The side of the square where the room ends first.
    expectWithin(unmix(mix(0.2, 0, 0.4, 0.7)).yaw, 0.1, 1e-12);
    expectWithin(unmix(mix(0.2, 0, -0.4, 0.3)).yaw, -0.1, 1e-12);
  });
});
