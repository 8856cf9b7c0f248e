/** What a reader should know before believing the result: a typed list, each with what to do about it. */
import { quantileOf, shareWithinBounds } from '../draws/quantile.js';
import type { Criterion, HeightPoint, Proportion, Verdict, Warning } from '../result/result.js';
import type { FlightInputs } from '../scenario/definition.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';
import { flightsForBound } from '../statistics/proportion.js';
import { flightsInHundred, proportionText } from '../statistics/words.js';
import { isGuess } from './hand-guesses.js';

export interface Findings {
  readonly scenario: Scenario;
  readonly inputs: FlightInputs;
  readonly flights: number;
  readonly partial: boolean;
  readonly risk: Proportion;
  readonly verdict: Verdict;
  readonly flightsToSettle: number | null;
  readonly numerical: number;
  readonly curve: readonly HeightPoint[];
  readonly criteria: readonly Criterion[];
  readonly keepOut: readonly { readonly name: string; readonly inside: Proportion }[];
}

/** A bound that cuts off more than this share changes the distribution that the file seems to say. */
const CLIPPED = 0.03;

type Check = (findings: Findings) => readonly Warning[];

export function warningsOf(findings: Findings): readonly Warning[] {
  return CHECKS.flatMap((check) => check(findings));
}

const partial: Check = ({ partial: interrupted, flights }) =>
  interrupted
    ? [
        warn(
          'partial',
          `The study was interrupted: all figures speak of the ${flights} flights flown.`,
          'Run it to the end before you decide anything.',
        ),
      ]
    : [];

const invented: Check = ({ scenario }) =>
  scenario.invented
    ? [
        warn(
          'invented',
          'The numbers of this scenario are invented for demonstration.',
          'Write your own scenario (fallmargin init); nothing here speaks of a real payload.',
        ),
      ]
    : [];

const tooFewFlights: Check = ({ flights, inputs }) => {
  const limit = inputs.criteria.ground_impact_risk;
  const least = flightsForBound(0, limit);
  if (least === null || flights >= least) return [];
  return [
    warn(
      'too few flights',
      `${flights} flights cannot show a risk of ${percent(limit)}, even if none fails.`,
      `Fly at least ${least} flights (--flights); ten times as many give a useful figure.`,
    ),
  ];
};

const wideInterval: Check = ({ verdict, flightsToSettle, flights }) => {
  if (verdict !== 'not shown') return [];
  const advice =
    flightsToSettle === null
      ? 'The risk is too near the limit to be told apart; change the plan rather than the number of flights.'
      : `About ${flightsToSettle} flights would settle it if the risk is as estimated (--flights ${roundedUp(flightsToSettle)}). Flying on until the answer pleases is no evidence: choose the number once.`;
  return [warn('wide interval', `The interval of ${flights} flights reaches across the limit.`, advice)];
};

const guesses: Check = ({ scenario }) => {
  const decided = (input: ResolvedInput) => input.source === 'decided' || input.source === 'standard';
  const inputs = scenario.inputs.filter((input) => !decided(input));
  const guessed = inputs.filter((input) => isGuess(input) || input.source === 'not said');
  if (guessed.length * 2 <= inputs.length) return [];
  return [
    warn(
      'guesses',
      `${guessed.length} of ${inputs.length} inputs are guesses, not measured or of no stated source.`,
      'A low figure from guesses is worth little: `fallmargin check` ranks what to measure first.',
    ),
  ];
};

const clippedBounds: Check = ({ scenario }) =>
  scenario.inputs.flatMap(({ path, value, written }) => {
    const cut = value.form === 'uncertain' ? 1 - shareWithinBounds(value) : 0;
    return cut > CLIPPED
      ? [
          warn(
            'clipped',
            `The bounds of ${path} (${written}) cut off ${percent(cut)} of its distribution.`,
            'Choose a distribution that fits inside its bounds, or wider bounds.',
          ),
        ]
      : [];
  });

const numericalFailures: Check = ({ numerical, flights }) =>
  numerical > 0
    ? [
        warn(
          'numerical',
          `${numerical} of ${flights} flights at the planned height diverged numerically and count as not soft.`,
          'Look at one with `fallmargin trace`; an input far outside the ordinary is the usual reason.',
        ),
      ]
    : [];

const edgeOfGrid: Check = ({ curve, inputs }) => {
  const planned = inputs.plan.throttle_up_height;
  if (curve.length < 2) return [];
  const [lowest, highest] = [curve[0].height, curve[curve.length - 1].height];
  if (planned !== lowest && planned !== highest) return [];
  return [
    warn(
      'edge of the grid',
      `The planned height of ${planned} m is the ${planned === lowest ? 'lowest' : 'highest'} of the heights flown.`,
      'Fly heights on both sides of it (--heights), so that the curve shows whether to go up or down.',
    ),
  ];
};

const windOverCode: Check = ({ scenario, inputs }) => {
  const wind = scenario.inputs.find(({ path }) => path === 'wind.speed');
  const ceiling = inputs.site.launch_wind_limit;
  const strong = wind ? quantileOf(wind.value, 0.95) : 0;
  if (strong <= ceiling) return [];
  return [
    warn(
      'wind over the launch code',
      `In 5 flights of 100 the wind is above ${strong.toFixed(1)} m/s, over the launch code's ${ceiling.toFixed(1)} m/s.`,
      'No rocket is launched in that wind: cut wind.speed with "at most" at the ceiling.',
    ),
  ];
};

const footprint: Check = ({ criteria, keepOut }) => {
  const circle = criteria.find(({ name }) => name !== 'ground impact');
  const crossing =
    circle && circle.verdict !== 'within'
      ? [
          warn(
            'outside the circle',
            `${sentence(flightsInHundred(circle.risk.estimate))} ${circle.risk.estimate === 0 ? 'came' : 'come'} down outside the recovery circle (${proportionText(circle.risk)}; limit ${percent(circle.limit)}).`,
            'Move the landing point or the circle, plan a lower wind, or fly more flights where it is only not shown.',
          ),
        ]
      : [];
  const inside = keepOut
    .filter(({ inside: hits }) => hits.count > 0)
    .map(({ name, inside: hits }) =>
      warn(
        'keep-out',
        `${hits.count} of ${hits.flights} flights come down inside the keep-out circle "${name}".`,
        'Move the people or the landing point, and show the range safety officer this figure.',
      ),
    );
  return [...crossing, ...inside];
};

const noGuard: Check = ({ scenario }) =>
  scenario.leftOut.includes('stabiliser.arming_guard')
    ? [
        warn(
          'no arming guard',
          'The motors may start at any rate and tilt: there is no arming guard.',
          "Have a way to stop the motors at once, in a named person's hand.",
        ),
      ]
    : [];

const CHECKS: readonly Check[] = [
  partial,
  invented,
  tooFewFlights,
  wideInterval,
  numericalFailures,
  edgeOfGrid,
  footprint,
  windOverCode,
  clippedBounds,
  guesses,
  noGuard,
];

function warn(code: string, text: string, advice: string): Warning {
  return { code, text, advice };
}

/** Two digits say how large; more would pretend to know. */
function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

function sentence(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}

/** Two leading digits, upwards. */
function roundedUp(value: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / unit) * unit;
}
