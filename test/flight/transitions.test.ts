/** The tables of transitions.ts: each row is taken by a flight that meets its event, and by no other phase. */
import { describe, expect, test } from 'vitest';
import type { FlightDraw, FlightNoise } from '../../sim/draws/draw.js';
import { type Ending, flyOn, giveOrder } from '../../sim/flight/course.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { type Arms, motorsRun, PHASES, type Phase, type PhaseEvent, type Stick } from '../../sim/flight/phase.js';
import {
  ARMS_TABLE,
  AWAITED,
  armsHappen,
  enterPhase,
  happen,
  PHASE_TABLE,
  STANCE_TABLE,
  STICK_TABLE,
  stanceHappens,
  stickHappens,
} from '../../sim/flight/transitions.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { Slot } from '../../sim/model/scratch.js';
import { State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectWithin } from '../model/near.js';
import { courseFrom } from './bench.js';
import { QUIET, quietDraw } from './nominal-inputs.js';

/** A can with open arms, 300 m up, that falls at 20 m/s. */
const falling = (change: (inputs: FlightInputs) => void = () => {}, draw = quietDraw(change), speed = 20) => {
  draw.inputs.arms.release_delay = -1;
  draw.inputs.rotors.start_time = 0;
  return courseFrom(draw, { height: 300, velocity: [0, 0, -speed] });
};

const canopy = (inputs: FlightInputs) => {
  inputs.parachute = {
    diameter: 0.9,
    drag_coefficient: 0.75,
    deployment_time: 0.4,
    fill_constant: 8,
    added_mass: 0.5,
    fire_below: 250,
    fire_faster_than: 12,
    failure: false,
  };
};

/** One outage, from `begin` to `end`. */
function outage(begin: number, end: number, change: (inputs: FlightInputs) => void = () => {}): FlightDraw {
  const { inputs } = quietDraw(change);
  inputs.link.outage_rate = 1;
  inputs.link.outage_length = 1;
  const noise: FlightNoise = {
    ...QUIET,
    outages: { at: (node, column) => [begin, end - begin][node * 2 + column] ?? 1e9 },
  };
  return { inputs, noise };
}

/** Flies on and gives the phases that the steps were flown in, in their order, and how it ended. */
function phasesOf(course: Course, until = 100): { readonly phases: readonly Phase[]; readonly ending: Ending } {
  const phases: Phase[] = [course.s.phase];
  course.observer = () => {
    if (phases.at(-1) !== course.s.phase) phases.push(course.s.phase);
  };
  const ending = flyOn(course, until);
  if (phases.at(-1) !== course.s.phase) phases.push(course.s.phase);
  return { phases, ending };
}

describe('a flight takes the row', () => {
  test('falling - order - waiting, until the arms are open: then waiting - start - braking', () => {
    const course = falling((inputs) => {
      inputs.arms.release = 'on the order';
      // No stream holds such a spring: the arms are open when the bench says.
      inputs.arms.hinge_torque = 1e4;
    });
    course.s.releaseTime = Number.POSITIVE_INFINITY;
    expect(phasesOf(course, 1).phases).toEqual(['falling']);
    course.craft.releaseDelay = 0.3;
    giveOrder(course);
    expect([course.s.phase, course.journal.orderTime]).toEqual(['waiting', 1]);
    expectWithin(course.s.releaseTime, 1.3, 1e-12);
    expect(phasesOf(course, 1.69).phases).toEqual(['waiting']);
    expect(phasesOf(course, 1.71).phases).toEqual(['waiting', 'braking']);
    expectWithin(course.journal.runningTime, 1.3 + 0.4, 1e-6);
  });

  test.each<[string, (inputs: FlightInputs) => void]>([
    [
      'damaged',
      (inputs) => {
        inputs.ejection.load = 1.01 * inputs.ejection.strength;
      },
    ],
    [
      'without a rotor',
      (inputs) => {
        inputs.rotors.dead = [true, true, true, true];
      },
    ],
  ])('falling - order in vain - falling with a craft that is %s: the order is noted', (_, change) => {
    const course = falling(change);
    flyOn(course, 1);
    giveOrder(course);
    expect(course.journal.orderTime).toBe(1);
    expect(phasesOf(course)).toEqual({ phases: ['falling'], ending: 'ground' });
  });

  const guarded = (rate: number) =>
    falling((inputs) => {
      inputs.stabiliser.arming_guard = { rate, tilt: Math.PI / 4, hold: 0.2 };
    });

  test('waiting - ask guard - guarded, and guarded - start - braking after the hold time', () => {
    const course = guarded(3);
    flyOn(course, 1);
    giveOrder(course);
    expect(phasesOf(course, 1.19).phases).toEqual(['waiting', 'guarded']);
    expect(phasesOf(course, 1.21).phases).toEqual(['guarded', 'braking']);
    expectWithin(course.journal.runningTime - course.journal.guardTime, 0.2, 1e-12);
  });

  test('starting - first thrust - braking, each rotor from its own time on; running with the last of them', () => {
    const course = falling((inputs) => {
      inputs.rotors.own_start_factor = [1, 1.4, 0.8, 1.1];
      inputs.rotors.dead = [false, true, false, false];
    });
    course.craft.startTimes.set([0.25, 0.35, 0.2, 0.275]);
    giveOrder(course);
    expect(phasesOf(course, 0.1999).phases).toEqual(['waiting', 'starting']);
    expect(phasesOf(course, 0.2001).phases).toEqual(['starting', 'braking']);
    const { driven } = course.s;
    expect([...driven]).toEqual([0, 0, 1, 0]);
    flyOn(course, 0.26);
    expect([...driven]).toEqual([1, 0, 1, 0]);
    expect(course.journal.runningTime).toBeNaN();
    flyOn(course, 0.5);
    expect([...driven]).toEqual([1, 0, 1, 1]);
    const { startTime, poweredTime, runningTime } = course.journal;
    expect(startTime).toBe(0);
    expectWithin(poweredTime, 0.2, 1e-12);
    expectWithin(runningTime, 0.275, 1e-12);
  });

  test('starting - fire - deploying: no rotor starts any more', () => {
    const course = falling((inputs) => {
      canopy(inputs);
      if (inputs.parachute) inputs.parachute.fire_below = 298;
    });
    course.craft.startTimes.fill(2);
    giveOrder(course);
    expect(phasesOf(course).phases).toEqual(['waiting', 'starting', 'deploying', 'filling', 'canopy']);
    expect(course.journal.poweredTime).toBeNaN();
    expect(course.journal.stopTime).toBeNaN();
  });

  test('guarded stays guarded to the ground where the guard is never met', () => {
    const course = guarded(1e-12);
    giveOrder(course);
    expect(phasesOf(course)).toEqual({ phases: ['waiting', 'guarded'], ending: 'ground' });
    expect(course.journal.runningTime).toBeNaN();
  });

  test('braking - arrest - arrested - take over - approach, at the approach rate', () => {
    const course = falling();
    giveOrder(course);
    const { phases, ending } = phasesOf(course);
    expect(phases).toEqual(['waiting', 'braking', 'approach']);
    expect(ending).toBe('ground');
    expect(course.journal.arrestTime).toBeGreaterThan(0.5);
  });

  test('braking - arrest at once, where the can already falls slowly as the motors start', () => {
    const course = falling(undefined, quietDraw(), 3);
    giveOrder(course);
    expect(phasesOf(course, 0.01).phases).toEqual(['waiting', 'approach']);
    expect(course.journal.arrestTime).toBe(course.journal.runningTime);
  });

  test('arrested - take over - approach only when the link is back', () => {
    const course = falling(
      undefined,
      outage(0.2, 5, (inputs) => {
        inputs.link.fail_safe_time = 60;
      }),
    );
    giveOrder(course);
    expect(phasesOf(course, 4.99).phases).toEqual(['waiting', 'braking', 'arrested']);
    expect(course.s.y[State.UpSpeed]).toBeGreaterThan(0); // full throttle stands: it climbs
    expect(phasesOf(course, 5.01).phases).toEqual(['arrested', 'approach']);
  });

  test.each([
    ['braking', 0.5],
    ['approach', 6],
  ] as const)('%s - pack empty - stopped', (phase, from) => {
    const course = falling();
    giveOrder(course);
    flyOn(course, from);
    expect(course.s.phase).toBe(phase);
    course.craft.cutOff = 1e3;
    expect(phasesOf(course, from + 1).phases).toEqual([phase, 'stopped']);
    expectWithin(course.journal.emptyTime, from + 0.3, 0.11); // the delay, from the first step on
    expect(course.journal.stopTime).toBe(course.journal.emptyTime);
  });

  test.each([
    ['braking', 0.2],
    ['approach', 6],
  ] as const)('%s - fail-safe stop - stopped, the fail-safe time after the link was lost', (phase, from) => {
    const course = falling(
      undefined,
      outage(from, 1e3, (inputs) => {
        inputs.link.fail_safe = 'stop the motors';
        inputs.link.fail_safe_time = 0.5;
      }),
    );
    giveOrder(course);
    expect(phasesOf(course).phases.slice(-2)).toEqual([phase, 'stopped']);
    expectWithin(course.journal.stopTime, from + 0.5, 1e-9);
    expect(course.journal.emptyTime).toBeNaN();
  });

  test('falling - fire - deploying - stretched - filling - filled - canopy, each by its own time, with no motors to stop', () => {
    const course = falling(canopy);
    const begun: Partial<Record<Phase, number>> = {};
    course.observer = () => {
      begun[course.s.phase] ??= course.s.phaseBegan;
    };
    flyOn(course, 100);
    expect(Object.keys(begun)).toEqual(['falling', 'deploying', 'filling', 'canopy']);
    expect(begun.deploying).toBe(course.journal.firedTime);
    expectWithin((begun.filling as number) - (begun.deploying as number), 0.4, 1e-12);
    expectWithin((begun.canopy as number) - (begun.filling as number), course.s.fillTime, 1e-12);
    expect(course.journal.stopTime).toBeNaN();
  });

  test('deploying stays deploying to the ground where that comes first', () => {
    const course = falling((inputs) => {
      canopy(inputs);
      if (inputs.parachute) inputs.parachute.fire_below = 27;
    });
    expect(phasesOf(course)).toEqual({ phases: ['falling', 'deploying'], ending: 'ground' });
  });

  test('guarded - fire - deploying: the guard starts nothing any more', () => {
    const course = falling((inputs) => {
      canopy(inputs);
      inputs.stabiliser.arming_guard = { rate: 1e-12, tilt: Math.PI / 4, hold: 0.2 };
    });
    giveOrder(course);
    expect(phasesOf(course).phases).toEqual(['waiting', 'guarded', 'deploying', 'filling', 'canopy']);
    expect(course.journal.runningTime).toBeNaN();
  });

  test('braking - fire - deploying: the motors stop then', () => {
    const course = falling((inputs) => {
      canopy(inputs);
      if (inputs.parachute) inputs.parachute.fire_below = 299;
    });
    giveOrder(course);
    expect(phasesOf(course).phases).toEqual(['waiting', 'braking', 'deploying', 'filling', 'canopy']);
    expect(course.journal.stopTime).toBe(course.journal.firedTime);
  });

  test('stopped - fire - deploying', () => {
    const course = falling(
      canopy,
      outage(0.2, 1e3, (inputs) => {
        canopy(inputs);
        if (inputs.parachute) inputs.parachute.fire_below = 200;
        inputs.link.fail_safe = 'stop the motors';
        inputs.link.fail_safe_time = 0.1;
      }),
    );
    giveOrder(course);
    expect(phasesOf(course).phases).toEqual(['waiting', 'braking', 'stopped', 'deploying', 'filling', 'canopy']);
    expect(course.journal.stopTime).toBeLessThan(course.journal.firedTime);
  });

  test('filling - tear - torn, and canopy - tear - torn, where the pull is over the strength', () => {
    const course = falling((inputs) => {
      canopy(inputs);
      inputs.ejection.load = 0;
      inputs.ejection.strength = 2 * GRAVITY;
    });
    expect(phasesOf(course).phases).toEqual(['falling', 'deploying', 'filling', 'torn']);
    const whole = falling(canopy);
    while (whole.s.phase !== 'canopy') flyOn(whole, whole.s.time + 0.1);
    whole.craft.strength = 0;
    expect(phasesOf(whole).phases).toEqual(['canopy', 'torn']);
  });
});

describe('beside the phase', () => {
  test('the arms go folded - release - released - free - opening - opened - open beside it', () => {
    const course = courseFrom(quietDraw(), { height: 300 });
    const seen: [Arms, number][] = [[course.s.arms, 0]];
    course.observer = () => {
      if (seen.at(-1)?.[0] !== course.s.arms) seen.push([course.s.arms, course.s.time]);
    };
    flyOn(course, 3);
    expect(seen.map(([arms]) => arms)).toEqual(['folded', 'released', 'opening', 'open']);
    // Released after 2 s and open after 0.4 s more; seen at the end of the first step from there.
    expectWithin(seen[1]?.[1] as number, 2, 0.1);
    expectWithin(seen[3]?.[1] as number, 2.45, 0.1);
  });

  test('the stance becomes upright before the arrest of a fast can, and after that of a slow one', () => {
    const fast = falling();
    const slow = falling(undefined, quietDraw(), 3);
    for (const course of [fast, slow]) {
      giveOrder(course);
      flyOn(course, 5);
      expect(course.s.stance).toBe('upright');
    }
    expect(fast.journal.uprightTime).toBeLessThan(fast.journal.arrestTime);
    expect(slow.journal.uprightTime).toBeGreaterThan(slow.journal.arrestTime);
  });

  test('the stick goes live - outage - held - link back - live, or held - fail-safe - itself - link back - live', () => {
    for (const [failSafe, expected] of [
      [60, ['live', 'held', 'live']],
      [0.5, ['live', 'held', 'itself', 'live']],
    ] as const) {
      const course = falling(
        undefined,
        outage(5, 7, (inputs) => {
          inputs.link.fail_safe_time = failSafe;
        }),
      );
      giveOrder(course);
      const seen: Stick[] = [course.s.stick];
      course.observer = () => {
        if (seen.at(-1) !== course.s.stick) seen.push(course.s.stick);
      };
      flyOn(course, 8);
      expect(seen).toEqual(expected);
    }
  });
});

test('the tilt that stands through an outage is that of the moment in which the link is lost', () => {
  const course = falling();
  enterPhase(course.s, 'approach');
  course.s.y.fill(0, State.East, State.North + 1); // over the landing point: the ground speed alone leans it, by 1/g a m/s
  course.s.y.set([1, -0.5], State.EastSpeed);
  course.s.scratch.fill(9, Slot.TiltEast, Slot.TiltNorth + 1);
  stickHappens(course, 'outage');
  const { scratch, stick } = course.s;
  expect(stick).toBe('held');
  expectWithin(scratch[Slot.TiltEast] as number, -1 / GRAVITY, 1e-12);
  expectWithin(scratch[Slot.TiltNorth] as number, 0.5 / GRAVITY, 1e-12);
});

describe('an event without a row for the phase does nothing', () => {
  const rows = PHASE_TABLE.flatMap((row) => row.from.map((from) => [from, row.event, row.to] as const));
  const events = [...new Set(PHASE_TABLE.map((row) => row.event))];

  /** What an event may change, as text. */
  const shown = ({ s, timers, journal }: Course) =>
    JSON.stringify([
      s.phase,
      s.phaseBegan,
      s.stance,
      s.stick,
      s.arms,
      s.releaseTime,
      s.fillTime,
      [...s.y],
      timers,
      journal,
    ]);
  const courseIn = (phase: Phase) => {
    const course = falling(canopy);
    course.s.scratch[Slot.Voltage] = 15;
    enterPhase(course.s, phase);
    course.s.time = 1;
    return course;
  };

  test.each(rows)('and %s - %s has one: to %s', (from, event, to) => {
    const course = courseIn(from);
    course.s.stick = 'held'; // nobody takes over on top of it
    happen(course, event);
    expect(course.s.phase).toBe(to);
    expect(course.s.phaseBegan).toBe(from === to ? 0 : 1);
  });

  const without = PHASES.flatMap((phase) => events.map((event) => [phase, event] as const)).filter(
    ([phase, event]) => !rows.some(([from, known]) => from === phase && known === event),
  );
  test.each(without)('%s - %s', (phase: Phase, event: PhaseEvent) => {
    const course = courseIn(phase);
    const before = shown(course);
    happen(course, event);
    expect(shown(course)).toBe(before);
    expect(AWAITED[phase][event]).toBe(false);
  });

  test('nor of the arms, the stance and the stick', () => {
    const course = courseIn('braking');
    for (const [table, states, event] of [
      [ARMS_TABLE, ['folded', 'opening', 'open'], armsHappen],
      [STANCE_TABLE, ['tumbling', 'upright'], stanceHappens],
      [STICK_TABLE, ['live', 'held', 'itself'], stickHappens],
    ] as const) {
      const key = event === armsHappen ? 'arms' : event === stanceHappens ? 'stance' : 'stick';
      for (const state of states)
        for (const name of new Set(table.map((row) => row.event))) {
          const row = table.find((one) => one.event === name && (one.from as readonly string[]).includes(state));
          Object.assign(course.s, { [key]: state });
          (event as (course: Course, event: string) => void)(course, name);
          expect([name, state, course.s[key]]).toEqual([name, state, row?.to ?? state]);
        }
    }
  });
});

test('no two rows of a table are for the same state and event', () => {
  for (const table of [PHASE_TABLE, ARMS_TABLE, STANCE_TABLE, STICK_TABLE]) {
    const keys = table.flatMap((row) => row.from.map((from) => `${from}/${row.event}`));
    expect(new Set(keys).size).toBe(keys.length);
  }
});

test('the motors run in the phases that the pack can stop, and in no other', () => {
  for (const phase of PHASES) expect([phase, motorsRun(phase)]).toEqual([phase, AWAITED[phase]['pack empty']]);
});

test('under a canopy steps are short, and so they are once it was torn off', () => {
  for (const phase of ['filling', 'canopy', 'torn'] as const) {
    const course = falling();
    flyOn(course, 0.05);
    enterPhase(course.s, phase);
    const times: number[] = [course.s.time];
    course.observer = () => times.push(course.s.time);
    flyOn(course, 0.3);
    const steps = times.slice(1).map((time, k) => time - (times[k] as number));
    expect(Math.max(...steps)).toBeLessThanOrEqual(0.00625 + 1e-12);
  }
});
