import { describe, expect, it } from 'vitest';
import { flyAnswer } from '../../sim/check/fly-answer.js';
import { handNumbers } from '../../sim/check/hand-numbers.js';
import { nominalDraw } from '../../sim/draws/drawer.js';
import { burdock } from '../ensemble/burdock.js';

const inputsOf = (...overrides: readonly string[]) => nominalDraw(burdock(...overrides)).inputs;
const BARE = ['rotors.thrust_measured=bare', 'can.drag_factor=1', 'can.wash_share=0.5', 'can.arm_drag_area=10 cm^2'];

describe('whether it flies', () => {
  it('counts the thrust without what the wash takes from the arms, s S / (4 A)', () => {
    const inputs = inputsOf(...BARE, 'rotors.diameter=80 mm');
    const { thrustToWeight } = handNumbers(inputs);
    // A = pi 0.08^2 / 4 = 5.0265e-3 m2, so that 0.5 x 1e-3 / (4 A) = 0.024868.
    expect(flyAnswer(inputs).thrustToWeight / thrustToWeight).toBeCloseTo(1 - 0.024868, 6);
    expect(flyAnswer(inputs).bareThrustToWeight).toBe(thrustToWeight);
  });

  it('takes nothing off a thrust that was measured on the can', () => {
    const inputs = inputsOf(...BARE, 'rotors.thrust_measured=in the can');
    expect(flyAnswer(inputs).thrustToWeight).toBe(handNumbers(inputs).thrustToWeight);
  });

  it('says no at and under a weight, says that 1.5 is little, and never rounds a no to 1.00', () => {
    const one = flyAnswer(inputsOf('can.mass=590 g')).thrustToWeight * 590;
    const at = (ratio: number) => flyAnswer(inputsOf(`can.mass=${one / ratio} g`));
    expect(at(0.25)).toMatchObject({
      flies: false,
      sentence: 'It does not fly: 0.25 of the weight; more than 1 is needed, 1.5 is little.',
    });
    expect(at(1.25)).toMatchObject({
      flies: true,
      sentence: 'It flies: thrust is 1.25 of the weight on site; 1.5 is little.',
    });
    expect(at(1.75).sentence).toBe('It flies: thrust is 1.75 of the weight on site.');
    expect(at(0.9996).sentence).toMatch(/does not fly: 0\.9996 of/);
  });
});
