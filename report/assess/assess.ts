/** The report holds the sections of one result in their order, each with its words, tables and figures. */
import type { AssessResult } from '../../sim/assess/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { changesSentence } from '../kit/words/changes.js';
import { flightsText } from '../kit/words/numbers.js';
import { renderPage, reportAssets } from '../page/html.js';
import { causesSection } from './causes.js';
import { courseSection } from './course.js';
import { glossarySection } from './glossary.js';
import { heightPoints, heightsSection } from './heights.js';
import { helpSection } from './help.js';
import { hundredSection } from './hundred.js';
import { inputsSection } from './inputs.js';
import { marginsSection } from './margins.js';
import { methodSection } from './method.js';
import { placeSection } from './place.js';
import { speedsSection } from './speeds.js';
import { verdictSection } from './verdict.js';
import { worldsSection } from './worlds.js';

/** Number, anchor and title of a section; sections that a result cannot fill are left out and the rest close up. */
export interface Heading {
  readonly number: number;
  readonly id: string;
  readonly title: string;
}

const TITLES = {
  verdict: 'The verdict',
  heights: 'Risk against throttle-up height',
  hundred: 'Out of 100 flights',
  speeds: 'How fast it touches down',
  worlds: 'What nobody has measured',
  causes: 'What goes wrong',
  help: 'What would help, what to measure first',
  course: 'Height and speed over time',
  place: 'Where it comes down',
  margins: 'Battery and time margins',
  inputs: 'Every input',
  method: 'Method, limits, cautions',
  glossary: 'Glossary',
} as const;

type SectionName = keyof typeof TITLES;

export interface ReportOptions {
  /** When the result was made, in the user's own words, instead of the words that the result may carry. */
  readonly date?: string;
}

export async function renderReport(result: AssessResult, options: ReportOptions = {}): Promise<string> {
  const view = await reportView(result, drawChart, options);
  const made = view.made === null ? '' : `${view.made} - `;
  const assets = reportAssets(view.title, `${made}seed ${view.seed} - scenario ${view.shortHash} - ${view.program}`);
  return renderPage('assess', view, assets);
}

export async function reportView(result: AssessResult, draw: Draw, options: ReportOptions = {}) {
  const points = heightPoints(result);
  const shown = points.some((point) => point.height === result.plannedHeight) ? result.plannedHeight : points[0].height;
  const sections = {
    verdict: await verdictSection(result, draw),
    heights: await heightsSection(result, draw),
    hundred: hundredSection(points, shown),
    speeds: await speedsSection(result, points, shown, draw),
    worlds: await worldsSection(result, draw),
    causes: await causesSection(result, draw),
    help: await helpSection(result, draw),
    course: await courseSection(result, draw),
    place: await placeSection(result, draw),
    margins: await marginsSection(result, draw),
    inputs: inputsSection(result),
    method: await methodSection(result, draw),
    glossary: glossarySection(result),
  };
  const present = (Object.keys(TITLES) as SectionName[]).filter((name) => sections[name] !== null);
  const headings = present.map((name, index): Heading => ({ number: index + 1, id: name, title: TITLES[name] }));
  const { scenario } = result;
  const made = (options.date ?? result.date ?? '').trim();
  return {
    title: scenario.title,
    pageTitle: `${shortened(scenario.title, 30)} · seed ${shortened(result.seed, 12)} · ${scenario.hash.slice(0, 12)}`,
    about: scenario.about,
    changed: changesSentence(scenario.changed),
    invented: scenario.invented,
    partial: result.partial
      ? `This study was interrupted. The figures at the planned height speak of the ${flightsText(result.risk.flights)} flown there; what was to come after may be missing or rest on fewer flights.`
      : null,
    seed: result.seed,
    made: made === '' ? null : shortened(made, 60),
    shortHash: scenario.hash.slice(0, 12),
    program: `fallmargin ${result.versions.program}`,
    headings,
    heading: Object.fromEntries(headings.map((heading) => [heading.id, heading])),
    ...sections,
  };
}

function shortened(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 1)}\u2026` : text;
}
