/** Made-up decisions of a study, with the shape of real ones: nothing here is computed from flights. */
import type { Decisions } from '../../../sim/assess/decisions.js';
import type { CriterionFigure, HeightFigure } from '../../../sim/decision/result.js';
import { proportion, verdictOf } from '../../../sim/statistics/proportion.js';
import { spread } from '../../../sim/statistics/quantile.js';

const LIMIT = 0.05;

function criterion(name: string, count: number): CriterionFigure {
  const risk = proportion(count, 8000);
  return { name, limit: LIMIT, risk, verdict: verdictOf(risk, LIMIT) };
}

function heightFigure(height: number, set: HeightFigure['set'], count: number): HeightFigure {
  const criteria = [criterion('ground impact', count), criterion('outside the recovery circle', 40)];
  return { height, set, flights: 8000, criteria, verdict: criteria[0].verdict, moreThan: null };
}

const COUNTS = Array.from({ length: 100 }, (_, world) => Math.round((world * world) / 1100));

/** Evenly spread from `from` to `to`, so that its quantiles are known. */
function evenly(from: number, to: number) {
  return spread(Float64Array.from({ length: 8000 }, (_, i) => from + ((to - from) * i) / 7999));
}

export const DECISIONS: Required<Decisions> = {
  heightDecision: {
    status: 'shown',
    latest: 220,
    candidate: 210,
    confirmed: [heightFigure(210, 'confirm', 380), heightFigure(220, 'confirm', 251)],
    explored: [heightFigure(160, 'explore', 695), heightFigure(220, 'explore', 240), heightFigure(250, 'explore', 209)],
    window: {
      from: 220,
      to: 320,
      shown: [220, 230, 250, 280, 320],
      isWhole: false,
      next: { height: 400, verdict: 'not shown' },
    },
    aim: { height: 280, figure: heightFigure(280, 'confirm', 180), about: { from: 240, to: 320 } },
    plan: {
      place: 'inside',
      toAim: { flights: 8000, estimate: 0.007, lower: 0.004, upper: 0.01, matters: 0.005, verdict: 'aim saves' },
    },
    least: heightFigure(250, 'explore', 209),
    flightsToSettle: null,
    step: 10,
    flights: 8000,
  },
  aim: {
    height: 280,
    set: 'confirm',
    risk: proportion(180, 8000),
    orderTime: evenly(18, 24),
    orderHeight: evenly(140, 230),
    cueHeight: evenly(200, 240),
    arrestHeight: evenly(60, 160),
  },
  worlds: {
    height: 250,
    limit: LIMIT,
    worlds: 100,
    flightsEach: 60,
    counts: COUNTS,
    mean: COUNTS.reduce((sum, count) => sum + count, 0) / 6000,
    status: 'spread',
    sd: 0.026,
    lower: 0.0112,
    median: 0.036,
    upper: 0.0931,
    law: { a: 2.2, b: 48 },
    shareWithin: { estimate: 0.68, lower: 0.55, upper: 0.79 },
  },
  drivers: {
    height: 250,
    flights: 8000,
    groups: [
      {
        cause: 'all',
        failures: 240,
        status: 'ranked',
        rows: [
          { path: 'pilot.reaction', distance: 0.41, pValue: 1e-12, flagged: true, crowds: 'high values' },
          { path: 'rotors.vortex_ring_depth', distance: 0.22, pValue: 3e-6, flagged: true, crowds: 'high values' },
          { path: 'can.mass', distance: 0.05, pValue: 0.61, flagged: false, crowds: 'both ends' },
        ],
      },
      { cause: 'arm shut', failures: 49, status: 'too few to rank', rows: [] },
    ],
  },
  help: {
    height: 250,
    flights: 8000,
    failed: 240,
    rows: [
      {
        path: 'pilot.reaction',
        heldAt: 'better end',
        quantile: 0.1,
        savedInHundred: 0.82,
        lower: 0.61,
        upper: 1.01,
        saved: 66,
        failedFlown: 240,
        broken: 0,
        softFlown: 800,
      },
      {
        path: 'rotors.vortex_ring_depth',
        heldAt: 'median',
        quantile: 0.5,
        savedInHundred: 0.21,
        lower: -0.18,
        upper: 0.42,
        saved: 20,
        failedFlown: 240,
        broken: 1,
        softFlown: 800,
      },
    ],
  },
  measureFirst: [
    {
      path: 'rotors.vortex_ring_depth',
      sd: 0.019,
      share: 0.55,
      sdAfter: 0.017,
      pValue: 0.001,
      shown: true,
      moreTrials: [],
    },
    {
      path: 'arms.stuck',
      sd: 0.004,
      share: 0.03,
      sdAfter: 0.025,
      pValue: 0.2,
      shown: false,
      moreTrials: [{ trials: 100, sdAfter: 0.0255 }],
    },
  ],
  tipping: {
    height: 220,
    limit: LIMIT,
    plain: proportion(251, 8000),
    flights: 16000,
    rows: [
      {
        path: 'rotors.vortex_ring_depth',
        side: 'high',
        status: 'turns',
        crossing: { quantile: 0.825, value: 0.348 },
        keeps: { quantile: 0.8, value: 0.34 },
        keepsToEnd: false,
        turned: { quantile: 0.85, value: 0.355 },
        riskAtEnd: { estimate: 0.081, lower: 0.064, upper: 0.102 },
        flights: 0,
      },
      {
        path: 'site.temperature',
        side: 'high',
        status: 'turns',
        crossing: { quantile: 0.97, value: 310.15 },
        keeps: { quantile: 0.9, value: 308.15 },
        keepsToEnd: false,
        turned: null,
        riskAtEnd: { estimate: 0.052, lower: 0.041, upper: 0.066 },
        flights: 0,
      },
      {
        path: 'rotors.thrust_factor',
        side: 'low',
        status: 'holds',
        crossing: null,
        keeps: { quantile: 0.01, value: 0.93 },
        keepsToEnd: true,
        turned: null,
        riskAtEnd: { estimate: 0.044, lower: 0.039, upper: 0.049 },
        flights: 0,
      },
    ],
  },
  pessimistic: {
    height: 220,
    limit: LIMIT,
    held: [
      { path: 'rotors.vortex_ring_depth', quantile: 0.75 },
      { path: 'rotors.thrust_factor', quantile: 0.25 },
    ],
    left: ['can.drag_factor'],
    risk: proportion(610, 8000),
    verdict: 'above',
  },
  assurance: {
    demanded: 0.9,
    worlds: {
      height: 250,
      limit: LIMIT,
      worlds: 100,
      flightsEach: 60,
      counts: COUNTS,
      mean: 0.03,
      status: 'spread',
      sd: 0.02,
      lower: 0.008,
      median: 0.028,
      upper: 0.071,
      law: { a: 2.2, b: 60 },
      shareWithin: { estimate: 0.82, lower: 0.71, upper: 0.9 },
    },
    met: false,
  },
  stopping: { asked: 0.005, reached: 0.0048, flights: 8000, reason: 'narrow enough' },
};
