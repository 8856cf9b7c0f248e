/** The flight model: it flies a draw at given throttle-up heights, each of which branches from one shared fall. */

import { type FlightDraw, GUST_STEP } from '../draws/draw.js';
import { nominalDraw } from '../draws/drawer.js';
import type { Scenario } from '../scenario/scenario.js';
import { flyOn, giveOrder } from './course.js';
import { createCraft, setCraft } from './craft.js';
import { causeIndex, columnIndex, createRecord, fillRecord, shownCause } from './ending.js';
import { beginFall, createFall, fallPast, heightBetween, passingTime, resetSituation, returnToNode } from './fall.js';
import type { FlightModel, FlightRecord, FlightTrace } from './flight.js';
import type { Course } from './in-flight.js';
import { createJournal } from './journal.js';
import { createOrder, cueInUse, findOrder, type Order } from './order.js';
import { isSoft } from './record.js';
import { createSituation } from './situation.js';
import { createTimers } from './timers.js';
import { TRACE_COLUMNS, type TraceStep, traceEvents, tracePhases, traceStep } from './trace.js';

export interface ModelOptions {
  /** Factor on every step of the integration, to check that it does not matter; 1 unless told. */
  readonly stepScale?: number;
}

const CUE_HEIGHT = columnIndex('cue_height');

export function createFlightModel(scenario: Scenario, options: ModelOptions = {}): FlightModel {
  const course: Course = {
    craft: createCraft(),
    s: createSituation(),
    timers: createTimers(),
    journal: createJournal(),
    stepScale: options.stepScale ?? 1,
    observer: null,
  };
  const { craft, s, journal } = course;
  const fall = createFall();
  const fallRecord = createRecord();
  const record = createRecord();
  const orders: Order[] = [];
  const nominal = createFall();

  /** The nominal fall, which a timer is set by; flown when first needed. */
  function flyNominal(): void {
    const draw = nominalDraw(scenario);
    setCraft(craft, draw.inputs);
    beginFall(course, nominal, draw);
    fallPast(course, nominal, Number.NaN);
  }

  /** Finds the order at each height, falling on only as far as they ask: to the end if one of them comes too late. */
  function fallAndOrder(draw: FlightDraw, heights: readonly number[]): void {
    const timer = draw.inputs.plan.cue === 'timer' || draw.inputs.video?.without_picture === 'timer';
    if (timer && nominal.count === 0) flyNominal();
    setCraft(craft, draw.inputs);
    beginFall(course, fall, draw);
    const byTimer = cueInUse(draw, craft.pictureLost) === 'timer';
    for (let k = 0; k < heights.length; k += 1) {
      if (k === orders.length) orders.push(createOrder());
      const order = orders[k];
      findOrder(course, fall, draw, heights[k], byTimer ? passingTime(nominal, heights[k]) : Number.NaN, order);
      fallPast(course, fall, order.time);
      order.inTime = order.time < fall.endTime && !(order.time >= fall.firedTime);
      if (!order.inTime) fallPast(course, fall, Number.NaN);
    }
    if (fall.over) fillRecord(fallRecord, course, draw.inputs, fall.ending);
  }

  function flyOrder(draw: FlightDraw, order: Order): FlightRecord {
    return order.inTime ? flyBranch(draw, order) : takeFall(draw, order);
  }

  function branchNode(order: Order): number {
    return Math.min(Math.floor(order.time / GUST_STEP), fall.count - 1);
  }

  /** From the last node before the order to the end. */
  function flyBranch(draw: FlightDraw, order: Order): FlightRecord {
    const { inputs } = draw;
    resetSituation(course, draw);
    returnToNode(course, fall, branchNode(order));
    let ending = flyOn(course, order.time);
    if (ending === 'reached') {
      giveOrder(course);
      ending = flyOn(course, inputs.time_limit);
    }
    noteCue(order);
    fillRecord(record, course, inputs, ending);
    return record;
  }

  /** Without an order in time the flight is the fall. */
  function takeFall(draw: FlightDraw, order: Order): FlightRecord {
    resetSituation(course, draw);
    noteCue(order);
    record.outcome = fallRecord.outcome;
    record.cause = causeIndex(isSoft(record.outcome) ? 'none' : shownCause(course, draw.inputs));
    record.values.set(fallRecord.values);
    record.values[CUE_HEIGHT] = journal.cueHeight;
    return record;
  }

  function noteCue(order: Order): void {
    if (!(order.cueTime <= fall.endTime)) return;
    const k = Math.min(Math.floor(order.cueTime / GUST_STEP), fall.count - 1);
    journal.cueHeight = heightBetween(fall, k, order.cueTime / GUST_STEP - k);
  }

  return {
    fly(draw, heights, receive) {
      course.observer = null;
      fallAndOrder(draw, heights);
      for (let k = 0; k < heights.length; k += 1) receive(k, flyOrder(draw, orders[k]));
    },

    trace(draw, height): FlightTrace {
      let steps: TraceStep[] = [];
      course.observer = () => steps.push(traceStep(course));
      fallAndOrder(draw, [height]);
      const order = orders[0];
      if (order.inTime) steps = steps.filter(({ row }) => row[0] <= branchNode(order) * GUST_STEP);
      const kept = flyOrder(draw, order);
      course.observer = null;
      const rows = steps.map(({ row }) => row);
      const fired = order.inTime ? journal.firedTime : fall.firedTime;
      const fills = fired + (draw.inputs.parachute?.deployment_time ?? Number.NaN);
      const released = craft.released ? s.releaseTime : Number.NaN;
      const at = (name: Parameters<typeof columnIndex>[0]): number => kept.values[columnIndex(name)] as number;
      const events = traceEvents(rows, [
        ['ejected', 0],
        ['arms released', released],
        ['arms open', order.inTime ? s.openTime : fall.openTime],
        ['arms not waited for', journal.armsLeftTime],
        ['cue', order.cueTime],
        ['order received', at('order_time')],
        ['rotors running', at('running_time')],
        ['upright', at('upright_time')],
        ['descent arrested', at('arrest_time')],
        ['parachute fired', fired],
        ['parachute begins to fill', fills <= at('time') ? fills : Number.NaN],
        ['motors stopped', journal.stopTime],
        ['touchdown', at('time')],
      ]);
      const record = { ...kept, values: kept.values.slice() };
      return { record, events, phases: tracePhases(steps), columns: TRACE_COLUMNS, rows };
    },
  };
}
