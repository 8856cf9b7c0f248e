/** Ways to fly in these tests: whole flights by name, and stretches of flight begun at any state. */
import type { FlightDraw } from '../../sim/draws/draw.js';
import { beginAir } from '../../sim/flight/air.js';
import { flyOn, giveOrder } from '../../sim/flight/course.js';
import { createCraft, setCraft } from '../../sim/flight/craft.js';
import { resetSituation } from '../../sim/flight/fall.js';
import type { FlightModel, FlightRecord } from '../../sim/flight/flight.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { createJournal } from '../../sim/flight/journal.js';
import { CAUSES, type Cause, COLUMN_NAMES, type ColumnName, OUTCOMES, type Outcome } from '../../sim/flight/record.js';
import { createSituation } from '../../sim/flight/situation.js';
import { createTimers } from '../../sim/flight/timers.js';
import { State } from '../../sim/model/state.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import type { Scenario } from '../../sim/scenario/scenario.js';

/** A scenario of the folder configs, with overrides such as "pad.wait=5 min". */
export function scenarioNamed(name: string, ...overrides: readonly string[]): Scenario {
  const read = readScenario(`configs/${name}.yaml`, overrides);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.value;
}

export type Flown = Readonly<Record<ColumnName, number>> & { readonly outcome: Outcome; readonly cause: Cause };

export function named(record: FlightRecord): Flown {
  const values = Object.fromEntries(COLUMN_NAMES.map((name, k) => [name, record.values[k] as number]));
  const words = { outcome: OUTCOMES[record.outcome] as Outcome, cause: CAUSES[record.cause] as Cause };
  return { ...(values as Record<ColumnName, number>), ...words };
}

/** One flight at one planned height. */
export function flyAt(model: FlightModel, draw: FlightDraw, height: number): Flown {
  let flown: Flown | undefined;
  model.fly(draw, [height], (_, record) => {
    flown = named(record);
  });
  if (!flown) throw new Error('No record.');
  return flown;
}

type Three = readonly [number, number, number];
type Four = readonly [number, number, number, number];

export interface Beginning {
  readonly height: number;
  readonly velocity?: Three;
  /** Unit quaternion, body to inertial; upright unless told. */
  readonly attitude?: Four;
  readonly turning?: Three;
  /** Motors on from the start, at these thrust fractions. */
  readonly thrust?: Four;
  /** Air of this density at every height, kg/m3. */
  readonly density?: number;
  readonly stepScale?: number;
}

/** A course of the real equations, begun at a state of one's own; `flyOn` takes it from here. */
export function courseFrom(draw: FlightDraw, begin: Beginning): Course {
  const course: Course = {
    craft: createCraft(),
    s: createSituation(),
    timers: createTimers(),
    journal: createJournal(),
    stepScale: begin.stepScale ?? 1,
    observer: null,
  };
  const { craft, s } = course;
  setCraft(craft, draw.inputs);
  if (begin.thrust) craft.startTimes.fill(0);
  if (begin.density !== undefined) craft.density.nodes.fill(begin.density);
  resetSituation(course, draw);
  const { y } = s;
  y.fill(0, 0, State.Arm1);
  y[State.Height] = begin.height;
  y.set(begin.velocity ?? [0, 0, 0], State.EastSpeed);
  y.set(begin.attitude ?? [1, 0, 0, 0], State.AttitudeW);
  y.set(begin.turning ?? [0, 0, 0], State.TurnX);
  y.set(upInBody(y), State.EstimateX);
  beginAir(craft, s);
  if (begin.thrust) {
    giveOrder(course);
    flyOn(course, MOMENT);
    y.set(begin.thrust, State.Thrust1);
  }
  return course;
}

/** Time in which the motors are switched on, s. */
const MOMENT = 1e-9;

/** The upward direction in body axes. */
export function upInBody(y: ArrayLike<number>): Three {
  const [w, a, b, c] = [0, 1, 2, 3].map((i) => y[State.AttitudeW + i] as number) as [number, number, number, number];
  return [2 * (a * c - w * b), 2 * (b * c + w * a), w * w - a * a - b * b + c * c];
}

/** Turns a vector from body to inertial axes. */
export function toInertial(y: ArrayLike<number>, v: Three): Three {
  const [w, a, b, c] = [0, 1, 2, 3].map((i) => y[State.AttitudeW + i] as number) as [number, number, number, number];
  const cross = (p: Three, q: Three): Three => [
    p[1] * q[2] - p[2] * q[1],
    p[2] * q[0] - p[0] * q[2],
    p[0] * q[1] - p[1] * q[0],
  ];
  const axis: Three = [a, b, c];
  const once = cross(axis, v);
  const twice = cross(axis, once);
  return [
    v[0] + 2 * (w * once[0] + twice[0]),
    v[1] + 2 * (w * once[1] + twice[1]),
    v[2] + 2 * (w * once[2] + twice[2]),
  ];
}
