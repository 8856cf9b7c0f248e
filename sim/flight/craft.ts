/**
 * The constants of one flight: the equations of motion need them, and `setCraft` works them out once from the flight's inputs.
 * It writes them into one reused object, so that flying allocates nothing.
 */

import { GUST_STEP } from '../draws/draw.js';
import { type Airframe, cylinderInertia, endDragCoefficient, sideDragCoefficient } from '../model/airframe.js';
import type { Homing } from '../model/approach.js';
import { armMass, openArmsInertia } from '../model/arms.js';
import { createDensityProfile, type DensityProfile, fillDensityProfile, type Site } from '../model/atmosphere.js';
import { dampedRateGain, LARGEST_REACH } from '../model/attitude.js';
import { readingScale } from '../model/barometer.js';
import {
  COMMON_OPEN_CIRCUIT,
  chargeAfterStandby,
  coldResistanceFactor,
  flatTable,
  openCircuitVoltage,
} from '../model/battery.js';
import { breaks } from '../model/ejection.js';
import { hingeByBench, hingeLever } from '../model/hinge.js';
import { canopyDragArea, carriedVolume } from '../model/parachute.js';
import { type RingSeries, setRingSeries } from '../model/ring-noise.js';
import { discArea, hoverInducedSpeed, hoverWashLoss } from '../model/rotors.js';
import { senderTemperature } from '../model/video.js';
import { gustIntensity, windAt20Feet } from '../model/wind.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import {
  APPROACH_STEP,
  EARLY_FOLDED_TURN,
  EARLY_RELEASE,
  FOLDED_TURN,
  HINGE_STEPS,
  LONGEST_WAIT,
  LOOP_STEPS,
} from './constants.js';

export interface Craft {
  mass: number;
  perMass: number;
  readonly airframe: Airframe;
  readonly density: DensityProfile;

  // Wind: unit vector along the mean wind (towards), speed at 10 m, exponent, sigma_w.
  windEast: number;
  windNorth: number;
  windSpeed: number;
  windExponent: number;
  gustSigma: number;

  // Inertia folded, and what the open arms add, kg m2.
  foldedAxial: number;
  foldedTransverse: number;
  addedAxial: number;
  addedTransverse: number;
  /** Inertia with all arms open, which the controller goes by. */
  openAxial: number;
  openTransverse: number;
  /** The order lets the arms go, else the ejection does; how long after, s. */
  releasedByOrder: boolean;
  releaseDelay: number;
  openingTime: number;
  /** The hinges: inertia of an arm about its own, kg m2; from it to the rotor's centre, m; first moment of the arm, kg m. */
  hingeInertia: number;
  hingeLever: number;
  armMoment: number;
  /** Torque of the spring of each arm, and of the friction against its motion, N m. */
  readonly hingeSpring: Float64Array;
  readonly hingeFriction: Float64Array;
  /** 1 with the tips down, -1 with the tips up. */
  foldSign: number;
  /** From the release until the arms are free to turn, s; how long after it the motors wait, s. */
  catchTime: number;
  longestWait: number;
  /** Largest step while arms turn, s. */
  hingeStep: number;
  /** Largest turning in one step while folded, rad. */
  foldedTurn: number;

  // Arms and rotors. `opens` and `runs` are 1 or 0 for each.
  perArmX: number;
  /** Centre of mass off the axis along x and y, m. */
  centreX: number;
  centreY: number;
  /** Factor on the thrust of each rotor about the common one. */
  readonly ownThrust: Float64Array;
  /** Drag area of each open arm with motor, and with stopped blades, m2; running: blades only where the rotor is dead. */
  readonly stoppedAreas: Float64Array;
  readonly runningAreas: Float64Array;
  readonly opens: Float64Array;
  readonly runs: Float64Array;
  /** Share of each arm's area in the wash of its rotor. */
  washShare: number;
  /** Full-throttle thrust for a density of 1 at bench voltage, N m3/kg: the true one, which acts on the craft. */
  thrustConstant: number;
  /** The same as the controller takes it to be: it divides by this in its loops. */
  believedThrustConstant: number;
  /** Full-throttle power over V^3 for a density of 1, W m3/(kg V3). */
  powerConstant: number;
  perBenchVoltage: number;
  voltageExponent: number;
  /** Zero-thrust speed over voltage, m/(s V). */
  zeroThrustConstant: number;
  /** Hover induced speed at full throttle and bench voltage, m/s; the density cancels. */
  inducedConstant: number;
  perMotorLag: number;
  /** From the order to start until each rotor gives thrust, s. */
  readonly startTimes: Float64Array;
  ringDepth: number;
  /** r, and the series of xi on the flight's clock. */
  ringFluctuation: number;
  readonly ringSeries: RingSeries;
  /** f: power of a rotor in fast descent over its static power. */
  windmillPower: number;
  torqueArm: number;
  /** 1 over it, or 0 without twist. */
  perTorqueArm: number;

  // Battery.
  cells: number;
  capacity: number;
  resistance: number;
  cutOff: number;
  cutOffDelay: number;
  chargeAtEjection: number;
  standbyCurrent: number;
  /** Charge and open-circuit voltage of a cell by turns, and how many pairs. */
  openCircuit: Float64Array;
  openCircuitPairs: number;

  // Stabiliser.
  gyroRange: number;
  gyroScale: number;
  readonly gyroBias: Float64Array;
  perReferenceTime: number;
  /** Share of a g by which the specific force may be off and still be trusted in part. */
  referenceGate: number;
  rateGain: number;
  attitudeGain: number;
  integralGain: number;
  /** Largest part of the roll and of the pitch command that the integral term may take. */
  integralReach: number;
  /** 1 over it, or 0 without an integral term. */
  perIntegralReach: number;
  largestRate: number;
  uprightCosine: number;
  uprightRate: number;
  uprightHold: number;
  guarded: boolean;
  guardRate: number;
  guardCosine: number;
  guardHold: number;

  // Approach.
  approachSpeed: number;
  readonly homing: Homing;
  touchdownSpeed: number;
  responseTime: number;
  throttleNoise: number;
  /** Largest step on the approach well above the flare, s. */
  approachStep: number;

  // Link.
  failSafeTime: number;
  failSafeStops: boolean;

  // Parachute.
  canopyWorks: boolean;
  canopyDragArea: number;
  canopyDiameter: number;
  /** Of the air carried along by the open canopy, m3. */
  carriedVolume: number;
  deploymentTime: number;
  fillConstant: number;
  fireBelow: number;
  fireFasterThan: number;
  /** Acceleration that tears the canopy off, m/s2. */
  strength: number;

  // What is broken before the fall begins.
  damaged: boolean;
  released: boolean;
  pictureLost: boolean;

  // Barometer.
  elevation: number;
  /** Metres that it shows for each geopotential metre above the ground. */
  readingScale: number;
  readingBias: number;
  flowError: number;
  readingNoise: number;
  readingLatency: number;
}

export function createCraft(): Craft {
  const airframe: Airframe = {
    diameter: 0,
    length: 0,
    middle: 0,
    sideDrag: 0,
    endDrag: 0,
    slenderArea: 0,
    tumbleFloor: 0,
    armX: 0,
    armHeight: 0,
  };
  return {
    mass: 0,
    perMass: 0,
    airframe,
    density: createDensityProfile(),
    windEast: 0,
    windNorth: 0,
    windSpeed: 0,
    windExponent: 0,
    gustSigma: 0,
    foldedAxial: 0,
    foldedTransverse: 0,
    addedAxial: 0,
    addedTransverse: 0,
    openAxial: 0,
    openTransverse: 0,
    releasedByOrder: false,
    releaseDelay: 0,
    openingTime: 0,
    hingeInertia: 0,
    hingeLever: 0,
    armMoment: 0,
    hingeSpring: new Float64Array(4),
    hingeFriction: new Float64Array(4),
    foldSign: 1,
    catchTime: 0,
    longestWait: 0,
    hingeStep: 0,
    foldedTurn: 0,
    perArmX: 0,
    centreX: 0,
    centreY: 0,
    ownThrust: new Float64Array(4),
    stoppedAreas: new Float64Array(4),
    runningAreas: new Float64Array(4),
    opens: new Float64Array(4),
    runs: new Float64Array(4),
    washShare: 0,
    thrustConstant: 0,
    believedThrustConstant: 0,
    powerConstant: 0,
    perBenchVoltage: 0,
    voltageExponent: 0,
    zeroThrustConstant: 0,
    inducedConstant: 0,
    perMotorLag: 0,
    startTimes: new Float64Array(4),
    ringDepth: 0,
    ringFluctuation: 0,
    ringSeries: { deviation: 0, correlation: 0 },
    windmillPower: 0,
    torqueArm: 0,
    perTorqueArm: 0,
    cells: 0,
    capacity: 0,
    resistance: 0,
    cutOff: 0,
    cutOffDelay: 0,
    chargeAtEjection: 0,
    standbyCurrent: 0,
    openCircuit: flatTable(COMMON_OPEN_CIRCUIT),
    openCircuitPairs: COMMON_OPEN_CIRCUIT.length,
    gyroRange: 0,
    gyroScale: 0,
    gyroBias: new Float64Array(3),
    perReferenceTime: 0,
    referenceGate: 0,
    rateGain: 0,
    attitudeGain: 0,
    integralGain: 0,
    integralReach: 0,
    perIntegralReach: 0,
    largestRate: 0,
    uprightCosine: 0,
    uprightRate: 0,
    uprightHold: 0,
    guarded: false,
    guardRate: 0,
    guardCosine: 0,
    guardHold: 0,
    approachSpeed: 0,
    homing: { flareHeight: 0, largestTangent: 0, groundSpeedLimit: 0, speedErrorEast: 0, speedErrorNorth: 0 },
    touchdownSpeed: 0,
    responseTime: 0,
    throttleNoise: 0,
    approachStep: 0,
    failSafeTime: 0,
    failSafeStops: false,
    canopyWorks: false,
    canopyDragArea: 0,
    canopyDiameter: 0,
    carriedVolume: 0,
    deploymentTime: 0,
    fillConstant: 0,
    fireBelow: 0,
    fireFasterThan: 0,
    strength: 0,
    damaged: false,
    released: false,
    pictureLost: false,
    elevation: 0,
    readingScale: 0,
    readingBias: 0,
    flowError: 0,
    readingNoise: 0,
    readingLatency: 0,
  };
}

const TOP_MARGIN = 100;
/** A thrust that was measured in the can is taken to be at least this share of the bare one: beyond it the model has no sense. */
const LEAST_THRUST_LEFT = 0.1;

/** Works out the constants of one flight from its inputs. */
export function setCraft(craft: Craft, inputs: FlightInputs): void {
  const { can, rotors, battery, stabiliser, pilot, link, wind, ejection, parachute, video } = inputs;
  setAir(craft, inputs);
  craft.mass = can.mass;
  craft.perMass = 1 / can.mass;

  const slenderness = can.length / can.diameter;
  const airframe = craft.airframe;
  const endArea = discArea(can.diameter);
  airframe.diameter = can.diameter;
  airframe.length = can.length;
  airframe.middle = can.middle_above_centre_of_mass;
  airframe.sideDrag = (can.side_drag_coefficient ?? sideDragCoefficient(slenderness)) * can.diameter * can.drag_factor;
  airframe.endDrag = (can.end_drag_coefficient ?? endDragCoefficient(slenderness)) * endArea * can.drag_factor;
  airframe.slenderArea = can.slender_body_factor * endArea;
  airframe.tumbleFloor = can.tumble_floor;

  const solid = cylinderInertia(can.mass, can.diameter, can.length);
  const added = openArmsInertia(can.mass, can.diameter, rotors.distance_from_axis, rotors.height_above_centre_of_mass);
  craft.foldedAxial = can.folded_axial_inertia ?? solid.axial;
  craft.foldedTransverse = can.folded_transverse_inertia ?? solid.transverse;
  craft.addedAxial = can.open_axial_inertia === null ? added.axial : can.open_axial_inertia - craft.foldedAxial;
  craft.addedTransverse =
    can.open_transverse_inertia === null ? added.transverse : can.open_transverse_inertia - craft.foldedTransverse;
  craft.openAxial = craft.foldedAxial + craft.addedAxial;
  craft.openTransverse = craft.foldedTransverse + craft.addedTransverse;
  craft.releasedByOrder = inputs.arms.release === 'on the order';
  craft.releaseDelay = inputs.arms.release_delay;
  craft.openingTime = inputs.arms.opening_time;
  const early = inputs.arms.release === 'after ejection' && inputs.arms.release_delay < EARLY_RELEASE;
  craft.foldedTurn = early ? EARLY_FOLDED_TURN : FOLDED_TURN;
  setHinges(craft, inputs);

  airframe.armX = rotors.distance_from_axis / Math.SQRT2;
  airframe.armHeight = rotors.height_above_centre_of_mass;
  craft.perArmX = 1 / airframe.armX;
  craft.centreX = can.centre_of_mass_offset[0];
  craft.centreY = can.centre_of_mass_offset[1];
  for (let i = 0; i < 4; i += 1) {
    craft.startTimes[i] = rotors.start_time * rotors.own_start_factor[i];
    craft.ownThrust[i] = rotors.own_thrust_factor[i];
    const opens = !inputs.arms.release_failure && !inputs.arms.stuck[i];
    craft.opens[i] = opens ? 1 : 0;
    const runs = opens && !rotors.dead[i];
    craft.runs[i] = runs ? 1 : 0;
    const blades = can.windmilling_factor * can.blade_drag_area;
    const stopped = opens ? can.drag_factor * (can.arm_drag_area + blades) : 0;
    craft.stoppedAreas[i] = stopped;
    craft.runningAreas[i] = runs ? can.drag_factor * can.arm_drag_area : stopped;
  }
  const disc = discArea(rotors.diameter);
  const measured = (rotors.bench_thrust * rotors.thrust_factor) / rotors.bench_density;
  const armArea = can.drag_factor * can.arm_drag_area;
  const lacking = rotors.thrust_measured === 'in the can' ? hoverWashLoss(can.wash_share, armArea, disc) : 0;
  craft.washShare = can.wash_share;
  craft.thrustConstant = measured / Math.max(1 - lacking, LEAST_THRUST_LEFT);
  craft.believedThrustConstant = measured;
  craft.powerConstant = rotors.bench_power / (rotors.bench_density * rotors.bench_voltage ** 3);
  craft.perBenchVoltage = 1 / rotors.bench_voltage;
  craft.voltageExponent = rotors.voltage_exponent;
  craft.zeroThrustConstant = rotors.zero_thrust_speed / rotors.bench_voltage;
  craft.inducedConstant = hoverInducedSpeed(craft.thrustConstant, 1, disc);
  craft.perMotorLag = 1 / rotors.motor_lag;
  craft.ringDepth = rotors.vortex_ring_depth;
  craft.ringFluctuation = rotors.ring_fluctuation;
  setRingSeries(craft.ringSeries, GUST_STEP, rotors.ring_strouhal, craft.inducedConstant, rotors.diameter);
  craft.windmillPower = rotors.windmill_power;
  craft.torqueArm = rotors.torque_arm;
  craft.perTorqueArm = rotors.torque_arm > 0 ? 1 / rotors.torque_arm : 0;

  const openCircuit = battery.open_circuit ?? COMMON_OPEN_CIRCUIT;
  craft.cells = battery.cells;
  craft.capacity = battery.capacity;
  craft.resistance = battery.resistance * coldResistanceFactor(inputs.site.temperature);
  craft.cutOff = battery.cut_off_voltage;
  craft.cutOffDelay = battery.cut_off_delay;
  craft.openCircuit = flatTable(openCircuit);
  craft.openCircuitPairs = openCircuit.length;
  craft.chargeAtEjection = chargeAfterStandby(
    openCircuit,
    battery.cells,
    battery.capacity,
    battery.charge_at_arming,
    battery.standby_power,
    inputs.pad.wait,
  );
  const resting = battery.cells * openCircuitVoltage(openCircuit, craft.chargeAtEjection);
  craft.standbyCurrent = resting > 0 ? battery.standby_power / resting : 0;

  craft.gyroRange = stabiliser.gyro_range;
  craft.gyroScale = stabiliser.gyro_scale_error;
  for (let i = 0; i < 3; i += 1) craft.gyroBias[i] = stabiliser.gyro_bias[i];
  craft.perReferenceTime = 1 / stabiliser.reference_time;
  craft.referenceGate = stabiliser.reference_gate;
  craft.rateGain = dampedRateGain(stabiliser.rate_gain, rotors.motor_lag);
  craft.attitudeGain = stabiliser.attitude_gain;
  craft.integralGain = stabiliser.integral_gain;
  craft.integralReach = LARGEST_REACH * stabiliser.integral_limit;
  craft.perIntegralReach = craft.integralReach > 0 ? 1 / craft.integralReach : 0;
  craft.largestRate = stabiliser.largest_rate;
  craft.uprightCosine = Math.cos(stabiliser.upright_tilt);
  craft.uprightRate = stabiliser.upright_rate;
  craft.uprightHold = stabiliser.upright_hold;
  const guard = stabiliser.arming_guard;
  craft.guarded = guard !== null;
  craft.guardRate = guard === null ? 0 : guard.rate;
  craft.guardCosine = guard === null ? 0 : Math.cos(guard.tilt);
  craft.guardHold = guard === null ? 0 : guard.hold;

  craft.approachSpeed = pilot.approach_speed;
  craft.homing.flareHeight = pilot.flare_height;
  craft.touchdownSpeed = pilot.touchdown_speed;
  craft.responseTime = pilot.response_time;
  craft.throttleNoise = pilot.throttle_noise;
  craft.approachStep = Math.min(APPROACH_STEP, LOOP_STEPS / loopGains(craft), pilot.response_time);
  craft.homing.largestTangent = Math.tan(pilot.tilt_limit);
  craft.homing.groundSpeedLimit = pilot.ground_speed_limit;
  craft.homing.speedErrorEast = pilot.ground_speed_error[0];
  craft.homing.speedErrorNorth = pilot.ground_speed_error[1];

  craft.failSafeTime = link.fail_safe_time;
  craft.failSafeStops = link.fail_safe === 'stop the motors';

  craft.canopyWorks = parachute !== null && !parachute.failure;
  craft.canopyDragArea = parachute === null ? 0 : canopyDragArea(parachute.drag_coefficient, parachute.diameter);
  craft.canopyDiameter = parachute === null ? 0 : parachute.diameter;
  craft.carriedVolume = parachute === null ? 0 : carriedVolume(parachute.added_mass, parachute.diameter);
  craft.deploymentTime = parachute === null ? 0 : parachute.deployment_time;
  craft.fillConstant = parachute === null ? 0 : parachute.fill_constant;
  craft.fireBelow = parachute === null ? 0 : parachute.fire_below;
  craft.fireFasterThan = parachute === null ? 0 : parachute.fire_faster_than;
  craft.strength = ejection.strength;

  craft.damaged = breaks(ejection.load, ejection.strength);
  craft.released = !inputs.arms.release_failure;
  craft.pictureLost =
    video !== null &&
    senderTemperature(
      inputs.site.temperature,
      video.power,
      video.thermal_resistance,
      video.time_constant,
      inputs.pad.wait,
    ) > video.limit;
  craft.windSpeed = wind.speed;
}

/**
 * Sum of the gains that bound a long step, 1/s. An integral gain of up to 2 leaves the bound of the other two loops where it
 * is (worked out for lags of 10 to 70 ms); beyond, each 1/s counts for two.
 */
function loopGains({ rateGain, attitudeGain, integralGain }: Craft): number {
  return rateGain + attitudeGain + 2 * Math.max(0, integralGain - 2);
}

/** The hinges of the arms (sim/model/hinge.ts), from the torque and the opening time on the bench. */
function setHinges(craft: Craft, { arms, can, rotors }: FlightInputs): void {
  const mass = armMass(can.mass, craft.addedAxial, can.diameter, rotors.distance_from_axis);
  const lever = hingeLever(can.diameter, rotors.distance_from_axis);
  const hinge = hingeByBench(mass * lever * lever, arms.hinge_torque, arms.opening_time);
  const spring = arms.hinge_torque / (1 - arms.friction);
  craft.hingeInertia = hinge.inertia;
  craft.catchTime = hinge.catchTime;
  craft.hingeLever = lever;
  craft.armMoment = mass * lever;
  craft.foldSign = arms.fold === 'tips down' ? 1 : -1;
  for (let i = 0; i < 4; i += 1) {
    craft.hingeSpring[i] = arms.own_torque_factor[i] * spring;
    craft.hingeFriction[i] = arms.friction * craft.hingeSpring[i];
  }
  craft.longestWait = arms.longest_wait ?? arms.opening_time + LONGEST_WAIT;
  craft.hingeStep = HINGE_STEPS * (arms.opening_time - hinge.catchTime);
}

function setAir(craft: Craft, inputs: FlightInputs): void {
  const { site, wind, ejection } = inputs;
  const place: Site = site;
  fillDensityProfile(craft.density, place, Math.max(ejection.height, 0) + TOP_MARGIN);
  craft.elevation = site.elevation;
  const { formula, bias, flow_error, noise, latency } = inputs.pilot.call_out;
  craft.readingScale = readingScale(formula, place);
  craft.readingBias = bias;
  craft.flowError = flow_error;
  craft.readingNoise = noise;
  craft.readingLatency = latency;
  craft.windEast = -Math.sin(wind.from);
  craft.windNorth = -Math.cos(wind.from);
  craft.windExponent = wind.shear_exponent;
  craft.gustSigma = gustIntensity(windAt20Feet(wind.speed, wind.shear_exponent), wind.gust_factor);
}
