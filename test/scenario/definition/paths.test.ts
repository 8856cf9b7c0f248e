import { describe, expect, expectTypeOf, it } from 'vitest';
import { leafPaths, optionalSections } from '../../../sim/scenario/definition/leaves.js';
import type {
  DecidedPath,
  InputPath,
  OptionalSectionPath,
  SettingPath,
} from '../../../sim/scenario/definition/paths.js';
import { fixedInput, inputByPath } from '../../../sim/scenario/lookup.js';
import { scenarioOf } from '../../draws/scenario.js';

/** The compiler holds the types below and the lines marked as errors to the definition; `npm run lint` runs it. */
describe('paths as types made from the definition', () => {
  const scenario = scenarioOf({});

  it('refuse an input whose name is mistyped', () => {
    expect(inputByPath(scenario, 'can.mass')?.path).toBe('can.mass');
    // @ts-expect-error the definition has no can.mas
    expect(inputByPath(scenario, 'can.mas')).toBeNull();
    // @ts-expect-error the definition has no wind.sped
    expect(scenario.inputs.some(({ path }) => path === 'wind.sped')).toBe(false);
    // @ts-expect-error the definition has no plan.queue
    expect(scenario.settings['plan.queue']).toBeUndefined();
    // @ts-expect-error the definition has no section parashute
    expect(scenario.leftOut.includes('parashute')).toBe(false);
    // @ts-expect-error the mass may be uncertain, so it is no decision
    expect(fixedInput(scenario, 'can.mass')).toBe(1);
  });

  it('keep inputs, settings and luck apart, in sections inside sections too', () => {
    expectTypeOf<'pilot.picture.judgement' | 'rotors.dead' | 'time_limit'>().toExtend<InputPath>();
    expectTypeOf<'title' | 'battery.open_circuit' | 'site.keep_out'>().toExtend<SettingPath>();
    expectTypeOf<
      Extract<InputPath, SettingPath | 'ejection.attitude' | 'pilot' | 'site.keep_out.radius'>
    >().toBeNever();
  });

  it('name the sections that may be left out as the walk through the definition finds them', () => {
    const named: Readonly<Record<OptionalSectionPath, true>> = {
      'criteria.recovery_circle': true,
      'criteria.touchdown_energy': true,
      'stabiliser.arming_guard': true,
      video: true,
      parachute: true,
    };
    expect(Object.keys(named)).toEqual(optionalSections());
  });

  it('name the decisions as the walk through the definition finds them', () => {
    const named: Readonly<Record<DecidedPath, true>> = {
      'plan.throttle_up_height': true,
      'criteria.ground_impact_risk': true,
      'criteria.recovery_circle.radius': true,
      'criteria.recovery_circle.chance_outside': true,
      'criteria.touchdown_energy.most': true,
      'criteria.touchdown_energy.chance_over': true,
      'criteria.vertical_speed': true,
      'criteria.horizontal_speed': true,
      'criteria.canopy_speed': true,
      'criteria.tilt': true,
      'site.launch_wind_limit': true,
      'battery.cells': true,
      'arms.longest_wait': true,
      time_limit: true,
    };
    const decided = leafPaths().flatMap(({ path, entry }) =>
      entry.shape === 'quantity' && entry.fixed === true ? [path] : [],
    );
    expect(Object.keys(named)).toEqual(decided);
  });
});
