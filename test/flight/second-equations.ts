/**
 * The equations of sim/MODEL.md a second time: written from the document, sharing no code with sim, as plain as can
 * be. Left out: the arming guard, inertia and open-circuit table that the scenario does not give.
 */
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';

export type Vector = [number, number, number];

/** What holds between two events. */
export interface Stage {
  /** Whether each rotor has started; powered flight is on with the first of them. */
  readonly started: readonly boolean[];
  /** All that can have started: the integral term counts. Without it as soon as each has. */
  readonly running?: boolean;
  readonly upright: boolean;
  /** The hand has taken over. */
  readonly arrested: boolean;
  /** Who holds the stick once it has; held: with the tilt that stood last, as tangents east and north. */
  readonly stick?: 'live' | 'held' | 'itself';
  readonly heldTilt?: readonly [number, number];
  /** Which way each arm turns about its hinge: 1 opens, -1 closes, 0 rests. */
  readonly arms?: readonly number[];
  /** The parachute pulls: since when, and in which time it fills. */
  readonly canopy?: { readonly begun: number; readonly fill: number };
}

/** What a flight meets besides its state; without it the mean wind at every height, a steady hand. */
export interface Day {
  /** Wind at a time, m/s. */
  readonly wind: (t: number) => Vector;
  /** Unsteadiness of the throttle hand at a time, m/s2. */
  readonly hand: (t: number) => number;
  /** xi of a rotor in the interval of the clock that the flight is in. */
  readonly ring: (rotor: number) => number;
}

/** Where each part of the state stands in the array. */
export const AT = {
  r: 0,
  v: 3,
  q: 6,
  w: 10,
  p: 13,
  c: 16,
  charge: 20,
  hand: 21,
  z: 22,
  a: 24,
  da: 28,
  size: 32,
} as const;

const G = 9.80665;
const RADIUS = 6356766;
const GAS = 287.05307;
const SX = [1, -1, -1, 1];
const SY = [1, 1, -1, -1];
const ST = [1, -1, 1, -1];

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const size = (a: Vector) => Math.sqrt(dot(a, a));
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (k: number, a: Vector): Vector => [k * a[0], k * a[1], k * a[2]];
const clip = (x: number, from: number, to: number) => Math.min(to, Math.max(from, x));
/** From `high` at or above `top` down to `low` at or under `bottom`, straight between. */
const ramp = (x: number, bottom: number, top: number, low: number, high: number) =>
  low + (high - low) * clip((x - bottom) / (top - bottom), 0, 1);

export function interpolate(x: number, xs: readonly number[], ys: readonly number[]): number {
  if (x <= xs[0]) return ys[0];
  for (let i = 1; i < xs.length; i++)
    if (x <= xs[i]) return ys[i - 1] + ((ys[i] - ys[i - 1]) * (x - xs[i - 1])) / (xs[i] - xs[i - 1]);
  return ys[ys.length - 1];
}

const CHARGE = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
const CELL = [3.0, 3.562, 3.691, 3.732, 3.759, 3.792, 3.833, 3.887, 3.955, 4.041, 4.131, 4.2];
export const openCircuit = (cells: number, charge: number) => cells * interpolate(charge, CHARGE, CELL);

const geopotential = (z: number) => (RADIUS * z) / (RADIUS + z);

/** Temperature, pressure and density of the day at a height above the ground. */
export function airOf({ site }: FlightInputs, z: number) {
  const T = site.temperature - 0.0065 * (geopotential(site.elevation + z) - geopotential(site.elevation));
  const ground = site.pressure ?? 101325 * ((288.15 - 0.0065 * geopotential(site.elevation)) / 288.15) ** 5.255876;
  const pressure = ground * (T / site.temperature) ** 5.255876;
  return { ground, pressure, density: pressure / (GAS * T) };
}

/** What the altimeter shows at a height and an airspeed, without noise. */
export function readingOf(inputs: FlightInputs, z: number, airspeed: number): number {
  const { ground, pressure } = airOf(inputs, z);
  const { formula, bias, flow_error } = inputs.pilot.call_out;
  const heights = {
    'standard atmosphere':
      (288.15 / 0.0065) * ((ground / 101325) ** (1 / 5.255876) - (pressure / 101325) ** (1 / 5.255876)),
    'fixed sea level': 44330 * (1 - (pressure / ground) ** 0.1903),
    'temperature corrected': (inputs.site.temperature / 0.0065) * (1 - (pressure / ground) ** (1 / 5.255876)),
  };
  return heights[formula] + bias + (flow_error * airspeed ** 2) / (2 * G);
}

/** Points and weights of the four-point Gauss-Legendre rule on -1..1, from its closed form. */
const near = Math.sqrt(3 / 7 - (2 / 7) * Math.sqrt(6 / 5));
const far = Math.sqrt(3 / 7 + (2 / 7) * Math.sqrt(6 / 5));
const GAUSS = [
  [-far, (18 - Math.sqrt(30)) / 36],
  [-near, (18 + Math.sqrt(30)) / 36],
  [near, (18 + Math.sqrt(30)) / 36],
  [far, (18 - Math.sqrt(30)) / 36],
];
/** The same integral in many strips, to see what four points cost. */
export const manyStrips = (n: number) => Array.from({ length: n }, (_, i) => [(2 * i + 1) / n - 1, 2 / n]);

export interface Equations {
  readonly derivative: (stage: Stage) => (t: number, y: number[]) => number[];
  readonly tilt: (y: readonly number[]) => number;
  readonly chargeAtEjection: number;
  /** The hand's acceleration as it takes over. */
  readonly takeOver: (t: number, y: readonly number[]) => number;
  readonly airspeed: (t: number, y: readonly number[]) => number;
  readonly voltage: (t: number, y: readonly number[], stage: Stage) => number;
  /** The pilot's tilt as tangents east and north. */
  readonly pilotTilt: (y: readonly number[]) => readonly [number, number];
  readonly meanWind: (z: number) => Vector;
  /** v_h at full throttle, bench voltage, at the ground: the speed that the ring's noise goes by. */
  readonly ringSpeed: number;
  /** From the release until the arms are free, s; the friction of each, N m, and the torque on it but for friction. */
  readonly catchTime: number;
  readonly friction: readonly number[];
  readonly armTorques: (t: number, y: number[], stage: Stage) => readonly number[];
}

export function equationsOf(
  inputs: FlightInputs,
  strips: readonly (readonly number[])[] = GAUSS,
  day: Day | null = null,
): Equations {
  const { can, rotors, battery, stabiliser, arms, site, wind, pilot } = inputs;
  const m = can.mass;
  const zm = can.middle_above_centre_of_mass;
  const K = can.drag_factor;
  const A = (Math.PI * can.diameter ** 2) / 4;
  const slimness = can.length / can.diameter;
  const cdSide = can.side_drag_coefficient ?? interpolate(slimness, [1, 2, 5, 10], [0.63, 0.68, 0.74, 0.82]);
  const cdEnd = can.end_drag_coefficient ?? interpolate(slimness, [1, 2, 4, 7], [0.91, 0.85, 0.87, 0.99]);
  const a = rotors.distance_from_axis / Math.SQRT2;
  const places = SX.map((sx, i): Vector => [a * sx, a * SY[i], rotors.height_above_centre_of_mass]);
  const disc = (Math.PI * rotors.diameter ** 2) / 4;
  const folded = { axial: can.folded_axial_inertia ?? Number.NaN, across: can.folded_transverse_inertia ?? Number.NaN };
  const open = { axial: can.open_axial_inertia ?? Number.NaN, across: can.open_transverse_inertia ?? Number.NaN };
  const opens = arms.stuck.map((stuck) => !stuck && !arms.release_failure);
  const runs = opens.map((one, i) => one && !rotors.dead[i]);
  const gain = Math.min(stabiliser.rate_gain, 0.6 / rotors.motor_lag);
  const R = battery.resistance * Math.exp(3131 / (273 + site.temperature - 273.15) - 3131 / 298);
  const chargeAtEjection = waitOnPad();
  const standby = battery.standby_power / openCircuit(battery.cells, chargeAtEjection);

  /** ds/dt = -P/(E(s) capacity) over the wait, in steps of a second (Heun). */
  function waitOnPad(): number {
    const rate = (s: number) => -battery.standby_power / (openCircuit(battery.cells, s) * battery.capacity);
    const n = Math.max(1, Math.ceil(inputs.pad.wait));
    const dt = inputs.pad.wait / n;
    let s = battery.charge_at_arming;
    for (let i = 0; i < n; i++) {
      const first = rate(s);
      s += (dt / 2) * (first + rate(s + dt * first));
    }
    return s;
  }

  const density = (z: number) => airOf(inputs, z).density;

  function meanWind(z: number): Vector {
    const U = wind.speed * (Math.max(z, 0.1) / 10) ** wind.shear_exponent;
    return [-U * Math.sin(wind.from), -U * Math.cos(wind.from), 0];
  }

  function columns(y: readonly number[]): [Vector, Vector, Vector] {
    const [w, x, yy, z] = y.slice(AT.q, AT.q + 4);
    return [
      [w * w + x * x - yy * yy - z * z, 2 * (x * yy + w * z), 2 * (x * z - w * yy)],
      [2 * (x * yy - w * z), w * w - x * x + yy * yy - z * z, 2 * (yy * z + w * x)],
      [2 * (x * z + w * yy), 2 * (yy * z - w * x), w * w - x * x - yy * yy + z * z],
    ];
  }
  const vectorAt = (y: readonly number[], at: number): Vector => [y[at], y[at + 1], y[at + 2]];
  const toBody = (axes: [Vector, Vector, Vector], f: Vector): Vector => [
    dot(axes[0], f),
    dot(axes[1], f),
    dot(axes[2], f),
  ];

  // The hinges: mass of an arm by the inertia that open arms add, inertia by the mass or, where that is too slow, by the bench.
  const wall = can.diameter / 2;
  const armMass = (open.axial - folded.axial) / (4 * (rotors.distance_from_axis ** 2 - wall ** 2));
  const lever = rotors.distance_from_axis - wall;
  const hingeInertia = Math.min(armMass * lever ** 2, (arms.hinge_torque * arms.opening_time ** 2) / Math.PI);
  const catchTime = arms.opening_time - Math.sqrt((Math.PI * hingeInertia) / arms.hinge_torque);
  const springs = arms.own_torque_factor.map((factor) => (factor * arms.hinge_torque) / (1 - arms.friction));
  const friction = springs.map((spring) => arms.friction * spring);
  const tips = arms.fold === 'tips down' ? 1 : -1;

  /** K_T T_bench, and what of it the arm took away while it was measured. */
  const benchThrust = rotors.thrust_factor * rotors.bench_thrust;
  const armShare = (can.wash_share * K * can.arm_drag_area) / (4 * disc);
  const taken = rotors.thrust_measured === 'in the can' ? Math.max(1 - armShare, 0.1) : 1;
  const believedThrust = (rho: number, V: number) =>
    benchThrust * (rho / rotors.bench_density) * (V / rotors.bench_voltage) ** rotors.voltage_exponent;
  const fullThrust = (rho: number, V: number) => believedThrust(rho, V) / taken;

  function induced(X: number): number {
    if (X >= 0) return -X / 2 + Math.sqrt(X ** 2 / 4 + 1);
    if (X <= -2) return -X / 2 - Math.sqrt(X ** 2 / 4 - 1);
    const u = clip((-X - 1.8) / 0.2, 0, 1);
    return 1 - 1.125 * X - 1.372 * X ** 2 - 1.718 * X ** 3 - 0.655 * X ** 4 - 0.026 * (3 * u ** 2 - 2 * u ** 3);
  }

  function ringLoss(y: number): number {
    if (y <= 0.5 || y >= 2) return 0;
    const u = y <= 1.25 ? (y - 0.5) / 0.75 : (2 - y) / 0.75;
    return 3 * u ** 2 - 2 * u ** 3;
  }

  function airThroughRotors(t: number, y: readonly number[]): { u: Vector; through: Vector[] } {
    const axes = columns(y);
    const over = day === null ? meanWind(y[2]) : day.wind(t);
    const u = toBody(axes, add(vectorAt(y, AT.v), times(-1, over)));
    return { u, through: places.map((P) => add(u, cross(vectorAt(y, AT.w), P))) };
  }

  /** Voltage and rotor current: the induced speeds depend on the thrust, so on the voltage: by fixed point. */
  function electric(t: number, y: readonly number[], stage: Stage): { V: number; current: number } {
    const E = openCircuit(battery.cells, chargeAtEjection - y[AT.charge] / battery.capacity);
    const e = E - R * standby;
    if (!stage.started.includes(true)) return { V: e, current: 0 };
    const rho = density(y[2]);
    const { through } = airThroughRotors(t, y);
    let V = e;
    for (let turn = 0; turn < 100; turn++) {
      let J = 0;
      for (let i = 0; i < 4; i++) {
        const c = y[AT.c + i];
        if (c <= 0) continue;
        const X = through[i][2] / Math.sqrt((c * fullThrust(rho, V)) / (2 * rho * disc));
        const u = clip(-X - 1, 0, 1);
        const stall = (rotors.windmill_power - 0.4) * (3 * u ** 2 - 2 * u ** 3);
        const factor = 0.4 + 0.6 * Math.max(0, X + induced(X)) + stall;
        J += (c ** 1.5 * rotors.bench_power * (rho / rotors.bench_density) * factor) / rotors.bench_voltage ** 3;
      }
      const next = (2 * e) / (1 + Math.sqrt(1 + 4 * J * R * e));
      const done = Math.abs(next - V) < 1e-13 * e;
      V = next;
      if (done) return { V, current: J * V * V };
    }
    throw new Error('The voltage does not settle.');
  }

  function pilotTilt(y: readonly number[]): readonly [number, number] {
    const hf = pilot.flare_height;
    const back = Math.hypot(y[0], y[1]) * 0.3;
    const share = back > pilot.ground_speed_limit ? pilot.ground_speed_limit / back : 1;
    const [e, n] = [0, 1].map(
      (i) => (ramp(y[2], hf, 2 * hf, pilot.ground_speed_error[i], -0.3 * share * y[i]) - y[AT.v + i]) / G,
    );
    const most = Math.tan(pilot.tilt_limit) / Math.hypot(e, n);
    const yawRate = (Math.abs(y[AT.w + 2]) * 180) / Math.PI;
    const k = Math.min(1, most) * ramp(yawRate, 80, 90, 1, 0);
    return [k * e, k * n];
  }

  function commands(
    y: readonly number[],
    stage: Stage,
    measured: Vector,
    T: number,
  ): { motors: number[]; winding: readonly number[] } {
    const p = vectorAt(y, AT.p);
    let t: Vector = p;
    let C = 1;
    if (stage.arrested) {
      const held = stage.stick === 'itself' ? ([0, 0] as const) : stage.heldTilt;
      const [e, n] = stage.stick === 'live' || stage.stick === undefined ? pilotTilt(y) : (held ?? [0, 0]);
      t = add(p, toBody(columns(y), [e, n, 0]));
      C = (m * (G + y[AT.hand])) / (4 * T * Math.max(p[2], 0.7));
    }
    const slope = (2 * stabiliser.attitude_gain) / (size(t) + t[2]);
    let wanted: Vector = [-t[1] * slope, t[0] * slope, 0];
    if (size(wanted) > stabiliser.largest_rate) wanted = times(stabiliser.largest_rate / size(wanted), wanted);
    const perRate = (open.across * gain) / (4 * a * T);
    const limit = 0.5 * stabiliser.integral_limit;
    const asked = [0, 1].map((i) => perRate * stabiliser.integral_gain * y[AT.z + i]);
    const errors = [wanted[0] - measured[0], wanted[1] - measured[1]];
    const [roll, pitch] = errors.map((error, i) => perRate * error + clip(asked[i], -limit, limit));
    const yaw = (-open.axial * gain * measured[2]) / (4 * rotors.torque_arm * T);
    const k = Math.min(1, 0.5 / (Math.abs(roll) + Math.abs(pitch)));
    const r = k * (Math.abs(roll) + Math.abs(pitch));
    const level = clip(C, r, 1 - r);
    const before = SX.map((sx, i) => level + k * (roll * SY[i] - pitch * sx));
    let j = 1;
    for (let i = 0; i < 4; i++) {
      const step = yaw * ST[i];
      if (step > 0) j = Math.min(j, (1 - before[i]) / step);
      if (step < 0) j = Math.min(j, before[i] / -step);
    }
    const room = clip(5 * (1 - (Math.abs(roll) + Math.abs(pitch)) / 0.5), 0, 1);
    const winding = errors.map((error, i) => {
      const unwinds = error * y[AT.z + i] < 0;
      return unwinds ? error : error * Math.min(room, clip(5 * (1 - Math.abs(asked[i]) / limit), 0, 1));
    });
    return { motors: before.map((one, i) => one + Math.max(0, j) * yaw * ST[i]), winding };
  }

  function derivative(stage: Stage) {
    return (t: number, y: number[]): number[] => {
      const axes = columns(y);
      const v = vectorAt(y, AT.v);
      const w = vectorAt(y, AT.w);
      const p = vectorAt(y, AT.p);
      const rho = density(y[2]);
      const { u, through } = airThroughRotors(t, y);
      const angles = [0, 1, 2, 3].map((i) => y[AT.a + i]);
      const o = angles.reduce((sum, angle) => sum + Math.sin(angle) ** 2 / 4, 0);
      const rate = angles.reduce((sum, angle, i) => sum + (Math.sin(2 * angle) * y[AT.da + i]) / 4, 0);
      const armAreas: number[] = [];
      let F: Vector = [0, 0, 0];
      let M: Vector = [0, 0, 0];
      const push = (place: Vector, force: Vector) => {
        F = add(F, force);
        M = add(M, cross(place, force));
      };

      push([0, 0, 0], [0, 0, -0.5 * rho * K * cdEnd * A * Math.abs(u[2]) * u[2]]);
      for (const [x, weight] of strips) {
        const s = zm + (x * can.length) / 2;
        const local: Vector = [u[0] + w[1] * s, u[1] - w[0] * s, 0];
        const ds = (weight * can.length) / 2;
        push([0, 0, s], times(-0.5 * rho * K * cdSide * can.diameter * size(local) * ds, local));
      }
      const across: Vector = [u[0], u[1], 0];
      if (size(u) > 0)
        push(
          [0, 0, zm + (can.length / 2) * Math.sign(u[2])],
          times(
            -rho * can.slender_body_factor * A * Math.abs(u[2]) * Math.sqrt((1 + Math.abs(u[2]) / size(u)) / 2),
            across,
          ),
        );
      const { V, current } = electric(t, y, stage);
      const T = fullThrust(rho, V);
      places.forEach((P, i) => {
        const turns = stage.started[i] && runs[i];
        const blades = turns ? 0 : can.windmilling_factor * can.blade_drag_area;
        armAreas[i] = opens[i] ? K * (can.arm_drag_area + blades) : 0;
        const area = armAreas[i] * Math.sin(angles[i]);
        const drag = (u: Vector) => times(-0.5 * rho * area * size(u), u);
        const c = turns ? y[AT.c + i] : 0;
        const vh = c > 0 ? Math.sqrt((c * T) / (2 * rho * disc)) : 0;
        const wash = c > 0 ? vh * induced(through[i][2] / vh) : 0;
        push(P, times(1 - can.wash_share, drag(through[i])));
        push(P, times(can.wash_share, drag(add(through[i], [0, 0, wash]))));
      });
      const drive =
        ((1 - o) * ((rho * K * cdSide * can.diameter * size(across) * can.length ** 3) / 12) * can.tumble_floor) /
        (Math.hypot(w[0], w[1]) + 0.001);
      M = add(M, [drive * w[0], drive * w[1], 0]);

      const powered = stage.started.includes(true);
      if (powered)
        places.forEach((P, i) => {
          if (!stage.started[i] || !runs[i]) return;
          const c = Math.max(y[AT.c + i], 0);
          const Vc = through[i][2];
          const T0 = c * T;
          const xi = day === null ? 0 : rotors.ring_fluctuation * day.ring(i);
          const V0 = (rotors.zero_thrust_speed * V) / rotors.bench_voltage;
          const thrust =
            Vc >= 0
              ? T * (c - (0.5705 * Math.sqrt(c) * Vc) / V0 - 0.4295 * (Vc / V0) ** 2)
              : c === 0
                ? 0
                : ((loss) => T0 * (1 - rotors.vortex_ring_depth * loss) * Math.max(0, 1 + xi * loss))(
                    ringLoss(-Vc / Math.sqrt(T0 / (2 * rho * disc))),
                  );
          const own = rotors.own_thrust_factor[i] * thrust;
          push(P, [0, 0, own]);
          M = add(M, [0, 0, ST[i] * rotors.torque_arm * own]);
        });

      const { parachute } = inputs;
      if (stage.canopy && parachute) {
        const top: Vector = [0, 0, zm + can.length / 2];
        const stream = add(u, cross(w, top));
        const v = size(stream);
        const ahead = times(1 / v, stream);
        const tau = Math.min((t - stage.canopy.begun) / stage.canopy.fill, 1);
        const filling = t - stage.canopy.begun <= stage.canopy.fill;
        const radius = 0.35 * parachute.diameter;
        const whole = parachute.added_mass * rho * (4 / 3) * Math.PI * radius ** 3;
        const carried = whole * tau ** 3;
        const growth = filling ? (3 * whole * tau ** 2) / stage.canopy.fill : 0;
        const cloth = (Math.PI * parachute.diameter ** 2) / 4;
        const D = 0.5 * rho * parachute.drag_coefficient * cloth * tau ** 2 * v ** 2;
        const others = dot(add(F, times(-m * G, toBody(axes, [0, 0, 1]))), ahead);
        // P = D + d(m_a v)/dt with m dv/dt = F_o - P.
        const pull = Math.max(0, (D + growth * v + (carried / m) * others) / (1 + carried / m));
        push(top, times(-pull, ahead));
      }

      const [dx, dy] = can.centre_of_mass_offset;
      M = add(M, times(-1, cross([dx, dy, 0], F)));
      const inertia = {
        axial: folded.axial + o * (open.axial - folded.axial),
        across: folded.across + o * (open.across - folded.across),
      };
      const growth = { axial: rate * (open.axial - folded.axial), across: rate * (open.across - folded.across) };
      const momentum: Vector = [inertia.across * w[0], inertia.across * w[1], inertia.axial * w[2]];
      const gyration = cross(w, momentum);
      const dw: Vector = [
        (M[0] - gyration[0] - growth.across * w[0]) / inertia.across,
        (M[1] - gyration[1] - growth.across * w[1]) / inertia.across,
        (M[2] - gyration[2] - growth.axial * w[2]) / inertia.axial,
      ];

      const f = times(1 / m, F);
      const torques = angles.map((angle, i) => {
        const outwards = Math.max((SX[i] * u[0] + SY[i] * u[1]) / Math.SQRT2, 0);
        const un = tips * u[2] * Math.sin(angle) + outwards * Math.cos(angle);
        const air = -0.5 * rho * armAreas[i] * lever * un * Math.abs(un);
        return springs[i] + air - tips * armMass * lever * f[2] * Math.sin(angle);
      });
      const turn = stage.arms ?? [0, 0, 0, 0];
      const full = stabiliser.gyro_range;
      const measured = w.map((one, i) =>
        clip((1 + stabiliser.gyro_scale_error) * one + stabiliser.gyro_bias[i], -full, full),
      ) as Vector;
      const up = toBody(axes, [0, 0, 1]);
      const gate = stabiliser.reference_gate;
      const W = ramp(Math.abs(size(f) / G - 1), 0.8 * gate, 1.2 * gate, 1, 0);
      const towards = size(f) > 0 ? times(1 / size(f), f) : p;
      let dp = cross(times(-1, measured), p);
      dp = add(dp, times(W / stabiliser.reference_time, add(towards, times(-1, p))));
      if (stage.upright) dp = add(dp, add(up, times(-1, p)));

      const [q0, q1, q2, q3] = y.slice(AT.q, AT.q + 4);
      const accelerated = [0, 1, 2].map((i) => axes[0][i] * f[0] + axes[1][i] * f[1] + axes[2][i] * f[2]);
      const command = powered
        ? commands(y, stage, measured, believedThrust(rho, V))
        : { motors: [0, 0, 0, 0], winding: [0, 0] };
      const hf = pilot.flare_height;
      const wantedDescent =
        stage.stick === 'itself'
          ? pilot.approach_speed
          : ramp(y[2], hf / 2, hf, pilot.touchdown_speed, pilot.approach_speed);
      const unsteady = day === null || stage.stick === 'itself' ? 0 : day.hand(t);
      const pull = Math.min(2, 0.5 / pilot.response_time) * (-v[2] - wantedDescent) + unsteady;
      return [
        ...v,
        accelerated[0],
        accelerated[1],
        accelerated[2] - G,
        0.5 * (-q1 * w[0] - q2 * w[1] - q3 * w[2]),
        0.5 * (q0 * w[0] + q2 * w[2] - q3 * w[1]),
        0.5 * (q0 * w[1] - q1 * w[2] + q3 * w[0]),
        0.5 * (q0 * w[2] + q1 * w[1] - q2 * w[0]),
        ...dw,
        ...dp,
        ...command.motors.map((one, i) => (stage.started[i] && runs[i] ? (one - y[AT.c + i]) / rotors.motor_lag : 0)),
        current + standby,
        stage.arrested && stage.stick !== 'held' ? (clip(pull, -5, 5) - y[AT.hand]) / pilot.response_time : 0,
        ...command.winding.map((one) => ((stage.running ?? !stage.started.includes(false)) ? one : 0)),
        ...turn.map((way, i) => (way === 0 ? 0 : y[AT.da + i])),
        ...turn.map((way, i) => (way === 0 ? 0 : (torques[i] - way * friction[i]) / hingeInertia)),
      ];
    };
  }

  return {
    derivative,
    chargeAtEjection,
    tilt: (y) => Math.acos(clip(columns(y)[2][2], -1, 1)),
    takeOver: (t, y) => {
      const { V } = electric(t, y, { started: [true, true, true, true], upright: true, arrested: false });
      return clip((4 * believedThrust(density(y[2]), V)) / m - G, -5, 5);
    },
    airspeed: (t, y) => size(airThroughRotors(t, y).u),
    voltage: (t, y, stage) => electric(t, y, stage).V,
    pilotTilt,
    meanWind,
    catchTime,
    friction,
    armTorques: (t, y, stage) => {
      const rates = derivative({ ...stage, arms: [1, 1, 1, 1] })(t, y).slice(AT.da);
      return rates.map((one, i) => hingeInertia * one + friction[i]);
    },
    ringSpeed: Math.sqrt(fullThrust(density(0), rotors.bench_voltage) / (2 * density(0) * disc)),
  };
}
