/** The invented can "Burdock" at its medians, heavier and with weaker rotors than the demo's, as one flight's inputs: for tests that must not rest on the files' reader. */
import type { FlightDraw, FlightNoise, NoiseSeries } from '../../sim/draws/draw.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';

const DEGREE = Math.PI / 180;
const GRAVITY = 9.80665;

/** What makes the demo this can: heavier, with weaker rotors and a longer wait, so that its braking is harder. */
export const HARDER = [
  'plan.motor_stop=""',
  'can.mass=610 g',
  'rotors.bench_thrust=290 gf',
  'rotors.bench_power=110 W',
  'pad.wait={ triangular: { from: 5 min, mode: 20 min, to: 60 min }, kind: varies from flight to flight }',
];

export function nominalInputs(): FlightInputs {
  return {
    title: 'Burdock',
    about: '',
    invented: 'yes',
    plan: { throttle_up_height: 250, cue: 'call-out', timer_start: 'by itself', motor_stop: '' },
    criteria: {
      ground_impact_risk: 0.05,
      recovery_circle: null,
      touchdown_energy: null,
      vertical_speed: 5,
      horizontal_speed: 8,
      canopy_speed: 6,
      tilt: 30 * DEGREE,
    },
    site: { elevation: 1180, temperature: 303.15, pressure: null, launch_wind_limit: 8.9408, keep_out: [] },
    wind: { speed: 3.5 * Math.sqrt(Math.log(2)), from: Math.PI, shear_exponent: 1 / 7, gust_factor: 1 },
    can: {
      diameter: 0.08,
      length: 0.21,
      mass: 0.61,
      drag_factor: 1,
      side_drag_coefficient: null,
      end_drag_coefficient: null,
      slender_body_factor: 0.65,
      tumble_floor: 60 * DEGREE,
      arm_drag_area: 13e-4,
      blade_drag_area: 10e-4,
      centre_of_mass_offset: [0, 0],
      windmilling_factor: 1.05,
      wash_share: 0.45,
      middle_above_centre_of_mass: 0,
      folded_axial_inertia: 5.9e-4,
      folded_transverse_inertia: 2.45e-3,
      open_axial_inertia: 1.39e-3,
      open_transverse_inertia: 3.2e-3,
    },
    rotors: {
      diameter: 0.0762,
      distance_from_axis: 0.11,
      height_above_centre_of_mass: 0.1,
      bench_thrust: 0.29 * GRAVITY,
      bench_power: 110,
      bench_voltage: 15.2,
      bench_density: 1.15,
      thrust_measured: 'bare',
      thrust_factor: 1,
      own_thrust_factor: [1, 1, 1, 1],
      voltage_exponent: 2,
      zero_thrust_speed: 38,
      motor_lag: 0.045,
      start_time: 0.25,
      own_start_factor: [1, 1, 1, 1],
      vortex_ring_depth: 0.25,
      ring_fluctuation: 0.125,
      ring_strouhal: 0.185,
      windmill_power: 1,
      torque_arm: 0.006,
      dead: [false, false, false, false],
    },
    battery: {
      cells: 4,
      capacity: 0.55 * 3600,
      resistance: 0.055,
      cut_off_voltage: 12.4,
      cut_off_delay: 0.3,
      standby_power: 4.5,
      charge_at_arming: 1,
      open_circuit: null,
    },
    /** Median of triangular(5, 20, 60) min: 60 - sqrt(55 x 40/2). */
    pad: { wait: (60 - Math.sqrt(0.5 * 55 * 40)) * 60 },
    ejection: {
      height: 720,
      horizontal_speed: [0, 0],
      vertical_speed: 0,
      east: 0,
      north: 0,
      tumble_rate: 400 * DEGREE,
      strength: 100 * GRAVITY,
      load: 60 * GRAVITY,
      attitude: [0.5, 0.5, 0.5],
      tumble_axis: [0.5, 0.5],
    },
    arms: {
      release: 'after ejection',
      release_delay: 2,
      opening_time: 0.4,
      hinge_torque: 0.072,
      own_torque_factor: [1, 1, 1, 1],
      friction: 0.24,
      fold: 'tips down',
      longest_wait: 1.4,
      release_failure: false,
      stuck: [false, false, false, false],
    },
    stabiliser: {
      gyro_range: 2000 * DEGREE,
      gyro_scale_error: 0,
      gyro_bias: [0, 0, 0],
      starting_error: 0,
      starting_error_axis: [0.5],
      reference_time: 2,
      reference_gate: 0.15,
      rate_gain: 10,
      attitude_gain: 4,
      integral_gain: 2,
      integral_limit: 0.3,
      largest_rate: 400 * DEGREE,
      upright_tilt: 30 * DEGREE,
      upright_rate: 90 * DEGREE,
      upright_hold: 0.2,
      arming_guard: null,
    },
    pilot: {
      reaction: 1.18,
      lapse: false,
      lapse_length: 3 * Math.LN2,
      call_out: { latency: 0.3, formula: 'standard atmosphere', bias: 0, flow_error: 0.2, noise: 1 },
      picture: { judgement: 0.85 },
      approach_speed: 4,
      flare_height: 4,
      touchdown_speed: 1.2,
      response_time: 0.25,
      throttle_noise: 0.3,
      tilt_limit: 15 * DEGREE,
      ground_speed_limit: 6,
      ground_speed_error: [0, 0],
    },
    link: { delay: 0.1, outage_rate: 0, outage_length: 1, fail_safe_time: 2, fail_safe: 'land by itself' },
    video: null,
    parachute: null,
    time_limit: 600,
  };
}

/**
 * Takes out what lengthens the braking beside the mean loss in the vortex ring: for tests of something else, which then go
 * by simpler closed forms.
 */
export function withoutBrakingEffects({ can, rotors, stabiliser }: FlightInputs): void {
  can.centre_of_mass_offset = [0, 0];
  rotors.own_thrust_factor = [1, 1, 1, 1];
  stabiliser.integral_gain = 0;
  can.windmilling_factor = 1;
  rotors.ring_fluctuation = 0;
  rotors.start_time = 0;
  rotors.windmill_power = 0.4;
  can.wash_share = 0;
}

const zero: NoiseSeries = { at: () => 0 };

/** No gusts, no unsteadiness, no outage. */
export const QUIET: FlightNoise = {
  gusts: zero,
  callOut: zero,
  throttle: zero,
  ring: zero,
  outages: { at: () => 1e9 },
};

export function quietDraw(change: (inputs: FlightInputs) => void = () => {}): FlightDraw {
  const inputs = nominalInputs();
  change(inputs);
  return { inputs, noise: QUIET };
}

/** No wind, no drag but that of the open arms, no braking effect; a pack of `volts` at every charge and load. */
export function thrustAndArms(inputs: FlightInputs, volts: number): void {
  withoutBrakingEffects(inputs);
  inputs.wind.speed = 0;
  inputs.can.side_drag_coefficient = 0;
  inputs.can.end_drag_coefficient = 0;
  inputs.can.slender_body_factor = 0;
  inputs.can.blade_drag_area = 0;
  inputs.arms.release_delay = -100;
  inputs.battery.cells = 1;
  inputs.battery.open_circuit = [
    [0, volts],
    [1, volts],
  ];
  inputs.battery.resistance = 1e-12;
}
