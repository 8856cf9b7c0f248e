/**
 * Starting values of a new scenario, by path, as written in the file: guesses of a plausible size, to be replaced by
 * measurements. They are invented, for no particular can, and deliberately not round: none is a recommendation. Entries with
 * a standard that is good enough are not listed, nor the decisions of `DECISIONS`.
 */
import type { DecidedPath, InputPath, OptionalSectionPath, SettingPath } from './paths.js';

const varies = (distribution: string) => `{ ${distribution}, kind: varies from flight to flight, source: guess }`;
const unmeasured = (distribution: string) => `{ ${distribution}, kind: fixed but not measured, source: guess }`;
const guess = (value: string) => `{ value: ${value}, source: guess }`;

/** What stands for a decision that nobody has made yet; a scenario with it is refused by all but `check`. */
export const TO_DECIDE = 'to decide';

/** Decisions that no program fills in, and what helps to make each. */
export const DECISIONS: Readonly<Partial<Record<DecidedPath, string>>> = {
  'plan.throttle_up_height':
    "a height above ground that you plan, with its unit; try heights with --set 'plan.throttle_up_height=...' before you write one down",
  'criteria.ground_impact_risk':
    'the share of flights that may fail to land softly, in %, agreed with the range safety officer before anything is flown',
};

/** Optional sections that the starter has switched on. */
export const SWITCHED_ON: readonly OptionalSectionPath[] = ['stabiliser.arming_guard'];

export const STARTING_VALUES: Readonly<Record<string, string>> = {
  title: 'My can',
  about: 'What flies, from where, and when.',

  'plan.motor_stop': '""',
  'plan.cue': 'call-out',

  'criteria.recovery_circle.radius': '310 m',
  'criteria.recovery_circle.chance_outside': '4.5 %',
  'criteria.touchdown_energy.most': '42 J',
  'criteria.touchdown_energy.chance_over': '4.5 %',

  'site.elevation': guess('287 m'),
  'site.temperature': varies('normal: { mean: 21.3 degC, sd: 4.2 K }'),
  'site.pressure': guess('978 hPa'),
  'site.keep_out': '[{ name: spectators, east: 200 m, north: -150 m, radius: 50 m }]',

  'wind.speed': varies('weibull: { shape: 2, scale: 3.3 m/s }'),
  'wind.from': varies('uniform: { from: 0 deg, to: 360 deg }'),
  'wind.gust_factor': varies('log-normal: { median: 1, spread: 0.3 }'),

  'can.diameter': guess('76 mm'),
  'can.length': guess('204 mm'),
  'can.mass': varies('normal: { mean: 493 g, sd: 6 g }'),
  'can.drag_factor': unmeasured('log-normal: { median: 1, spread: 0.1 }'),
  'can.side_drag_coefficient': guess('0.7'),
  'can.end_drag_coefficient': guess('0.85'),
  'can.slender_body_factor': unmeasured('uniform: { from: 0.3, to: 1 }'),
  'can.tumble_floor': unmeasured('uniform: { from: 0 deg/s, to: 120 deg/s }'),
  'can.arm_drag_area': unmeasured('normal: { mean: 12 cm^2, sd: 3 cm^2 }'),
  'can.blade_drag_area': unmeasured('normal: { mean: 9 cm^2, sd: 2.5 cm^2 }'),
  'can.folded_axial_inertia': guess('4.2e-4 kg m^2'),
  'can.folded_transverse_inertia': guess('1.8e-3 kg m^2'),
  'can.open_axial_inertia': guess('1.1e-3 kg m^2'),
  'can.open_transverse_inertia': guess('2.4e-3 kg m^2'),

  'rotors.diameter': guess('3 in'),
  'rotors.distance_from_axis': guess('105 mm'),
  'rotors.height_above_centre_of_mass': guess('95 mm'),
  'rotors.bench_thrust': guess('253 gf'),
  'rotors.bench_power': guess('97 W'),
  'rotors.bench_voltage': guess('15.2 V'),
  'rotors.bench_density': guess('1.2 kg/m^3'),
  'rotors.thrust_factor': unmeasured('normal: { mean: 1, sd: 0.05 }'),
  'rotors.zero_thrust_speed': unmeasured('normal: { mean: 36 m/s, sd: 4 m/s }'),
  'rotors.vortex_ring_depth': unmeasured('uniform: { from: 0.1, to: 0.4 }'),
  'rotors.dead': unmeasured('log-normal: { median: 0.07 %, spread: 1.1 }'),

  'battery.cells': '4',
  'battery.capacity': varies('normal: { mean: 520 mAh, sd: 20 mAh }'),
  'battery.resistance': varies('log-normal: { median: 55 mohm, spread: 0.2 }'),
  'battery.cut_off_voltage': guess('12.4 V'),
  'battery.standby_power': guess('4 W'),
  'battery.open_circuit': '[[0 %, 3 V], [50 %, 3.83 V], [100 %, 4.2 V]]',

  'pad.wait': varies('triangular: { from: 4 min, mode: 18 min, to: 57 min }'),

  'ejection.height': varies('normal: { mean: 615 m, sd: 38 m }'),
  'ejection.horizontal_speed': varies('normal: { mean: 0 m/s, sd: 8 m/s }'),
  'ejection.vertical_speed': varies('normal: { mean: 0 m/s, sd: 3 m/s }'),
  'ejection.east': varies('normal: { mean: 0 m, sd: 60 m }'),
  'ejection.north': varies('normal: { mean: 0 m, sd: 60 m }'),
  'ejection.tumble_rate': varies('log-normal: { median: 400 deg/s, spread: 0.5 }'),
  'ejection.strength': varies('normal: { mean: 110 gee, sd: 12 gee }'),
  'ejection.load': varies('normal: { mean: 60 gee, sd: 12 gee }'),

  'arms.release': 'after ejection',
  'arms.release_delay': guess('1.9 s'),
  'arms.opening_time': varies('uniform: { from: 0.25 s, to: 0.6 s }'),
  'arms.hinge_torque': unmeasured('log-normal: { median: 0.055 N m, spread: 0.3 }'),
  'arms.own_torque_factor': varies('log-normal: { median: 1, spread: 0.12 }'),
  'arms.friction': unmeasured('uniform: { from: 0.1, to: 0.35 }'),
  'arms.fold': 'tips down',
  'arms.longest_wait': '1.5 s',
  'arms.release_failure': unmeasured('log-normal: { median: 0.27 %, spread: 1.1 }'),
  'arms.stuck': unmeasured('log-normal: { median: 0.06 %, spread: 1.1 }'),

  'stabiliser.gyro_scale_error': varies('normal: { mean: 0, sd: 0.01 }'),
  'stabiliser.gyro_bias': varies('normal: { mean: 0 deg/s, sd: 0.3 deg/s }'),
  'stabiliser.starting_error': varies('normal: { mean: 0 deg, sd: 10 deg }'),
  'stabiliser.arming_guard.rate': '430 deg/s',
  'stabiliser.arming_guard.tilt': '115 deg',

  'pilot.reaction': `
  log-normal:
    median: { uniform: { from: 1 s, to: 1.4 s }, kind: fixed but not measured }
    spread: 0.44
  kind: varies from flight to flight
  source: guess`,
  'pilot.lapse': unmeasured('log-normal: { median: 2.4 %, spread: 0.7 }'),
  'pilot.lapse_length': varies('weibull: { shape: 1, scale: 3 s }'),
  'pilot.call_out.bias': unmeasured('normal: { mean: 0 m, sd: 6 m }'),
  'pilot.call_out.flow_error': unmeasured('normal: { mean: 0.2, sd: 0.15 }'),
  'pilot.picture.judgement': varies('log-normal: { median: 0.85, spread: 0.4 }'),
  'pilot.ground_speed_error': varies('normal: { mean: 0 m/s, sd: 0.5 m/s }'),

  'link.outage_rate': unmeasured('log-normal: { median: 0.017/s, spread: 0.8 }'),

  'video.power': guess('2 W'),
  'video.thermal_resistance': unmeasured('log-normal: { median: 18 K/W, spread: 0.2 }'),
  'video.time_constant': guess('12 min'),
  'video.limit': guess('95 degC'),

  'parachute.diameter': guess('0.9 m'),
  'parachute.fire_below': '63 m',
  'parachute.fire_faster_than': '12 m/s',
} satisfies Partial<Record<InputPath | SettingPath, string>>;
