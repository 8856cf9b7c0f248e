/** The page of a comparison holds its sections in their order, each with its words, tables and figures. */
import type { ComparedDesign, CompareResult } from '../../sim/compare/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { type Table, table } from '../kit/table.js';
import { bothChanged, changesSentence } from '../kit/words/changes.js';
import { quoted, scenarioFile } from '../kit/words/command.js';
import { countText, flightsText, plainText } from '../kit/words/numbers.js';
import { renderPage, reportAssets } from '../page/html.js';
import { causesSection } from './causes.js';
import { differencesSection } from './differences.js';
import { speedsSection } from './speeds.js';
import { verdictSection } from './verdict.js';

const TITLES = {
  verdict: 'The verdict',
  three: 'Three comparisons',
  causes: 'What B saves, what it breaks',
  speeds: 'How fast each touches down',
  inputs: 'In what they differ',
  method: 'Method, cautions, how to do it again',
} as const;

type SectionName = keyof typeof TITLES;

export async function renderComparison(result: CompareResult): Promise<string> {
  const view = await compareView(result, drawChart);
  const [a, b] = view.designs;
  const assets = reportAssets(
    `A: ${a.title} - B: ${b.title}`,
    `seed ${view.seed} - A ${a.shortHash} - B ${b.shortHash}`,
  );
  return renderPage('compare', view, assets);
}

export async function compareView(result: CompareResult, draw: Draw) {
  const { a, b, versions } = result;
  const names = Object.keys(TITLES) as SectionName[];
  const headings = names.map((name, index) => ({ number: index + 1, id: name, title: TITLES[name] }));
  const design = (letter: string, { scenario }: ComparedDesign) => ({
    letter,
    title: scenario.title,
    about: scenario.about,
    shortHash: scenario.hash.slice(0, 12),
  });
  return {
    pageTitle: `A ${a.scenario.title.slice(0, 24)} · B ${b.scenario.title.slice(0, 24)} · seed ${result.seed.slice(0, 12)}`,
    designs: [design('A', a), design('B', b)],
    changed: changesSentence(bothChanged(a, b)),
    invented: a.scenario.invented || b.scenario.invented,
    partial: result.partial
      ? `The study was interrupted. All figures speak of the ${flightsText(result.flights)} of each design that were flown.`
      : null,
    seed: result.seed,
    program: `fallmargin ${versions.program}`,
    headings,
    heading: Object.fromEntries(headings.map((heading) => [heading.id, heading])),
    verdict: verdictSection(result),
    differences: await differencesSection(result, draw),
    causes: await causesSection(result, draw),
    speeds: await speedsSection(result, draw),
    inputs: inputsSection(result),
    method: methodSection(result),
  };
}

function inputsSection({ differences }: CompareResult): {
  readonly nothing: string | null;
  readonly inputs: Table | null;
} {
  if (differences.length === 0)
    return { nothing: 'The two scenarios say the same in everything that flies or judges a flight.', inputs: null };
  const text = (written: string | null) => written ?? 'left out';
  return {
    nothing: null,
    inputs: table(
      'Every entry in which the two scenarios differ, as written in each; all others are the same and so are their draws.',
      ['Entry', 'A', 'B'],
      differences.map(({ path, a, b }) => [path, text(a), text(b)]),
    ),
  };
}

function methodSection(result: CompareResult) {
  const { a, b, versions, matters, flights, seed } = result;
  const row = (term: string, value: string) => ({ term, value });
  return {
    earlier: result.source === 'earlier results',
    matters: plainText(100 * matters),
    command: reproducingCommand(result),
    versions: [
      row('A, hash of the scenario (SHA-256)', a.scenario.hash),
      row('B, hash of the scenario (SHA-256)', b.scenario.hash),
      row('Seed', seed),
      row('Pairs at the planned heights', countText(flights)),
      row('Difference that matters', `${plainText(100 * matters)} flights in 100`),
      row('Program', `fallmargin ${versions.program}`),
      row('Result schema, draw scheme', `${versions.resultSchema}, ${versions.drawScheme}`),
      row('Node', versions.node),
    ],
  };
}

/** The command that repeats this study, for the reader's own copies of the scenario files. */
function reproducingCommand({ a, b, flights, seed, matters, comparisons }: CompareResult): string {
  const [fileA, fileB] = [scenarioFile(a.scenario), scenarioFile(b.scenario)];
  const sets = (letter: string, { overrides }: ComparedDesign) =>
    overrides.map((override) => `--set-${letter} ${quoted(override)}`);
  const plannedOnly = a.heights === null && b.heights === null && comparisons[2].status !== 'compared';
  return [
    'fallmargin compare',
    fileA,
    fileA === fileB && a.scenario.hash !== b.scenario.hash && b.overrides.length === 0 ? `other-${fileB}` : fileB,
    `--flights ${flights}`,
    `--seed ${quoted(seed)}`,
    ...(matters === 0.005 ? [] : [`--matters ${quoted(`${plainText(100 * matters)} %`)}`]),
    ...sets('a', a),
    ...sets('b', b),
    ...(plannedOnly ? ['--planned-only'] : []),
  ].join(' ');
}
