import { describe, expect, it } from 'vitest';
import { fitThrustStand } from '../../sim/fit/thrust-stand.js';
import { inputOf, readVariant } from '../scenario/file/memory-files.js';

const GF = 9.80665e-3;
/** A stand without any error: V = 16.8 - 0.055 I - sag, T = 290 gf (V/15.2)^2.1 c, P = 110 W (V/15.2)^3 c^1.5. */
function exactTable(header = 'throttle_pct,thrust_gf,current_A,voltage_V', separator = ','): string {
  const rows: string[] = [];
  for (const openCircuit of [16.8, 16.0, 15.2]) {
    for (const fraction of [0.25, 0.5, 1]) {
      let voltage = openCircuit;
      for (let i = 0; i < 60; i++) voltage = openCircuit - 0.055 * current(voltage, fraction);
      const thrust = 290 * (voltage / 15.2) ** 2.1 * fraction;
      rows.push([100 * fraction, thrust, current(voltage, fraction), voltage].map(String).join(separator));
    }
  }
  return `${header}\n${rows.join('\n')}\n`;
}

function current(voltage: number, fraction: number): number {
  return (110 * (voltage / 15.2) ** 3 * fraction ** 1.5) / voltage;
}

function fitted(text: string, rotors = 1, density: number | null = 1.15) {
  const made = fitThrustStand(text, 'stand.csv', { rotors, density });
  if (made.status === 'refused') throw new Error(made.messages.join('\n'));
  return made.value;
}

describe('a thrust-stand table', () => {
  it('gives back the exponent, thrust and power that made it', () => {
    const { exponent, full } = fitted(exactTable()).result;
    expect(exponent?.value.value).toBeCloseTo(2.1, 6);
    const share = full.voltage / 15.2;
    expect(full.thrust.value / GF).toBeCloseTo(290 * share ** 2.1, 4);
    expect(full.power.value).toBeCloseTo(110 * share ** 3, 4);
  });

  it('gives back the resistance where the open-circuit voltage stood still', () => {
    const rows = [0, 1, 2, 4, 7.2].map((amps, i) => `${25 * i},${70 * i},${amps},${16.4 - 0.055 * amps}`);
    const { pack } = fitted(`throttle,thrust,current,voltage\n${rows.join('\n')}\n`).result;
    expect(pack?.resistance.value).toBeCloseTo(0.055, 9);
    expect(pack?.openCircuit.value).toBeCloseTo(16.4, 9);
    for (const one of pack?.residuals ?? []) expect(one.measured).toBeCloseTo(one.fitted, 9);
  });

  it('finds the resistance although the pack runs down from sweep to sweep', () => {
    expect(fitted(exactTable()).result.pack?.resistance.value).toBeCloseTo(0.055, 6);
  });

  it('shows nothing left over at part throttle where the model is right, but for the voltage', () => {
    for (const { measured, fitted: byModel, x } of fitted(exactTable()).result.partThrottle) {
      expect(x).toBeLessThan(1);
      expect(Math.abs(measured - byModel)).toBeLessThan(0.12 * byModel);
    }
  });

  it('shares thrust and power out among the rotors', () => {
    const one = fitted(exactTable(), 1).result.full;
    const four = fitted(exactTable(), 4).result.full;
    expect(four.thrust.value).toBeCloseTo(one.thrust.value / 4, 9);
    expect(four.power.value).toBeCloseTo(one.power.value / 4, 9);
  });

  it('is read back by the scenario', () => {
    const { fragment } = fitted(exactTable().replace(/(\d\d)\.(\d)\d*$/m, '$1.$2')).result;
    const read = readVariant(fragment);
    expect(inputOf(read, 'rotors.bench_thrust').source).toBe('measured');
    expect(inputOf(read, 'battery.resistance').source).toBe('measured');
    expect(inputOf(read, 'rotors.bench_density').value).toMatchObject({ value: 1.15 });
  });

  it.each([
    ['units in brackets', 'Throttle [%];Thrust (g);Current (A);Voltage [V]', ';'],
    ['newtons and milliamperes', 'throttle_pct,thrust_N,current_mA,voltage_V', ','],
  ])('is read with %s', (_, header, separator) => {
    expect(fitted(exactTable(header, separator)).result.rows).toBe(9);
  });

  it.each([
    ['throttle,thrust,current\n100,290,7\n', /begins with "voltage"/],
    ['throttle,thrust,current,voltage\n50,100,2,16\n60,120,3,16\n70,140,4,15.8\n', /no row at full throttle/],
    ['throttle,thrust,current,voltage\n150,100,2,16\n', /:2: .*throttle from 0 to 100 %/],
    ['throttle,thrust,current,voltage\n100,-290,7,15\n100,-280,7,15\n', /:2: .*above 0 at full throttle/],
    ['throttle,thrust,current,voltage\n100,290,0,15\n100,280,7,15\n', /:2: .*above 0 at full throttle/],
    ['throttle,thrust,current,voltage\n100,290,7,15\n', /1 whole row;/],
    ['throttle,thrust_kg/m,current,voltage\n100,100,2,16\n', /unit of column/],
    ['throttle,thrust,current_W,voltage\n100,100,2,16\n', /A or mA/],
  ])('is refused as %j', (text, words) => {
    const made = fitThrustStand(text, 'stand.csv', { rotors: 1, density: null });
    expect(made).toMatchObject({ status: 'refused', messages: [expect.stringMatching(words)] });
  });

  it('says what it cannot tell', () => {
    const rows = ['100,290,0.1,15.2', '50,100,0.1,15.2', '25,50,0.1,15.2'];
    const { warnings, exponent, pack } = fitted(
      `throttle,thrust,current,voltage\n${rows.join('\n')}\n`,
      1,
      null,
    ).result;
    expect(exponent).toBeNull();
    expect(pack).toBeNull();
    expect(warnings.map(({ code }) => code)).toEqual([
      'no repeat',
      'no exponent',
      'no resistance',
      'part throttle',
      'no density',
    ]);
  });
});
