import { describe, expect, it } from 'vitest';
import { checkScenario } from '../../sim/check/check.js';
import { burdock } from '../ensemble/burdock.js';

/** Doubts about the demo with these changes: code and both numbers. */
function doubts(...overrides: readonly string[]) {
  return checkScenario(burdock(...overrides), burdock()).doubts;
}

const WRONG: readonly (readonly [code: string, overrides: readonly string[]])[] = [
  ['thrust to weight', ['rotors.bench_thrust=1200 gf']],
  ['tip speed', ['rotors.diameter=1.2 in']],
  ['bench power', ['rotors.bench_power=4 W']],
  ['cut-off voltage', ['battery.cut_off_voltage=16.5 V']],
  ['hover current', ['battery.capacity=45 mAh']],
  ['ejection height', ['ejection.height=200 m']],
  ['stop', ['plan.throttle_up_height=20 m']],
  ['fall speed', ['can.mass=6 kg']],
  ['ordinary flight', ['plan.throttle_up_height=20 m']],
  ['off its law: can.mass', ['can.mass=4 kg']],
  ['off its law: rotors.windmill_power', ['rotors.windmill_power=0.1']],
];

describe('plausibility', () => {
  it('finds nothing in the demo', () => {
    expect(doubts()).toEqual([]);
  });

  it.each(WRONG)('doubts the %s, with both numbers in the sentence', (code, overrides) => {
    const doubt = doubts(...overrides).find((one) => one.code === code);
    expect(doubt).toBeDefined();
    if (doubt === undefined) return;
    const figures = [...doubt.text.matchAll(/\d+(?:\.\d+)?/g)].map(([text]) => Number(text));
    for (const wanted of [doubt.found, doubt.bound])
      expect(figures.some((figure) => Math.abs(figure - wanted) <= Math.max(0.51, 0.01 * Math.abs(wanted)))).toBe(true);
  });

  // pi sqrt(T / (C_T rho)) / D with T = 2 N, C_T = 0.15, rho = 1.2 kg/m3, D = 30 mm: 349.1 m/s.
  it('reckons the tip speed from the thrust coefficient', () => {
    const [tip] = doubts('rotors.bench_thrust=2 N', 'rotors.bench_density=1.2 kg/m^3', 'rotors.diameter=30 mm').filter(
      ({ code }) => code === 'tip speed',
    );
    expect(tip.found).toBeCloseTo(349.07, 2);
  });

  it('doubts what lies off the standard law, said by the file alone', () => {
    const same = burdock('can.wash_share=0.95');
    const [doubt] = checkScenario(same, same).doubts;
    expect(doubt).toMatchObject({ code: 'off its law: can.wash_share', found: 0.95 });
    expect(doubt.bound).toBeCloseTo(0.7, 2);
  });
});
