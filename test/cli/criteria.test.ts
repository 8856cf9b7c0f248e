/** Every command judges by every criterion: a command that forgets the list says "within" of what breaks a limit. */
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { assess as assessCommand } from '../../cli/commands/assess/assess.js';
import { deliverAssessment } from '../../cli/commands/assess/deliver.js';
import { assessPage } from '../../cli/commands/assess/page.js';
import { assessSummary } from '../../cli/commands/assess/summary.js';
import { compare as compareCommand, compareExit } from '../../cli/commands/compare/compare.js';
import { compareSummary, compareVerdictLines } from '../../cli/commands/compare/summary.js';
import { limits as limitsCommand, limitsExit } from '../../cli/commands/limits/limits.js';
import { limitsSummary } from '../../cli/commands/limits/summary.js';
import { merge as mergeCommand } from '../../cli/commands/merge/merge.js';
import { runWords } from '../../cli/program.js';
import { renderComparison } from '../../report/compare/compare.js';
import { renderLimits } from '../../report/limits/limits.js';
import { assess } from '../../sim/assess/assess.js';
import type { AssessOptions } from '../../sim/assess/plan.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { compareDesigns } from '../../sim/compare/compare.js';
import type { CompareResult } from '../../sim/compare/result.js';
import { type Criterion, criteriaOf } from '../../sim/decision/criteria.js';
import { columnOf } from '../../sim/ensemble/columns.js';
import { createLogbook, type Logbook } from '../../sim/ensemble/logbook.js';
import { findLimits } from '../../sim/limits/limits.js';
import type { LimitsResult } from '../../sim/limits/result.js';
import { answered } from '../answers.js';
import { countsPlain, flyInParts } from '../assess/parts/fly-in-parts.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../ensemble/fake-maker.js';
import { BURDOCK, emptyFolder } from './command-line.js';

/** A criterion of the energy at touchdown, a column that is kept for no other one. Every flight has more than none. */
function energyOver(joules: number): Criterion {
  return {
    id: 'energy',
    name: 'touchdown with too much energy',
    limit: 0.05,
    needs: ['energy'],
    breaks: (flown, flight) => !(columnOf(flown, 'energy')[flight] <= joules),
    warning: { does: 'touch down too hard', did: 'touched down too hard', advice: 'Make it lighter.' },
  };
}

/** A scenario, the criteria by which its flights are judged, and which of them the flights break. */
interface Judged {
  readonly scenario: ReturnType<typeof burdock>;
  readonly criteria: readonly Criterion[];
  readonly broken: string;
}

/** Without keep-out circles, which so few flights do not show to be kept. */
const FREE = 'site.keep_out=[]';
const free = burdock(FREE);
const withMore = (criterion: Criterion): Judged => ({
  scenario: free,
  criteria: [...criteriaOf(free), criterion],
  broken: criterion.name,
});
const MET = withMore(energyOver(1e6));
const UNMET = withMore(energyOver(0));
const SMALL_CIRCLE = 'criteria.recovery_circle.radius=1 m';
const OUTSIDE: Judged = {
  scenario: burdock(FREE, SMALL_CIRCLE),
  criteria: criteriaOf(burdock(FREE, SMALL_CIRCLE)),
  broken: 'outside the recovery circle',
};
/** Every flight of the maker comes down a few metres from the landing point, with some joules. */
const PEOPLE = 'site.keep_out=[{ name: people, east: 0 m, north: 0 m, radius: 50 m, chance_inside: 1 % }]';
const PEOPLE_AT_THE_LANDING_POINT: Judged = {
  scenario: burdock(PEOPLE),
  criteria: criteriaOf(burdock(PEOPLE)),
  broken: 'inside the keep-out circle "people"',
};
const FRAIL = 'criteria.touchdown_energy={ most: 1 J, chance_over: 5 % }';
const TOO_HARD: Judged = {
  scenario: burdock(FREE, FRAIL),
  criteria: criteriaOf(burdock(FREE, FRAIL)),
  broken: 'touchdown with more than 1 J',
};
const BROKEN = [
  ['a criterion that nothing meets', UNMET],
  ['the second criterion alone', OUTSIDE],
  ['a keep-out circle of people on the landing point', PEOPLE_AT_THE_LANDING_POINT],
  ['the limit of the touchdown energy', TOO_HARD],
] as const;

/** 1 flight in 100 fails, from 150 m on: within the 5 % for ground impact with 1000 flights. */
const meansFor = ({ scenario, criteria }: Judged) => ({
  ...meansOf(scenario, fakeMaker((height) => (height < 150 ? 40 : 1)).maker),
  criteria,
});
const STANDARD: AssessOptions = { seed: '1', flights: 1000, heights: { kind: 'planned' }, overrides: [] };
const SEARCH: AssessOptions = { ...STANDARD, heights: { kind: 'standard' } };

async function assessed(judged: Judged, options: AssessOptions, logbook: Logbook = createLogbook()) {
  const means = meansFor(judged);
  const flyer = countsPlain(means.flyer);
  const study = await assess(judged.scenario, options, { ...means, flyer }, { logbook });
  return { result: answered(study), plain: flyer.plain() };
}

function silent(): () => string {
  let said = '';
  for (const name of ['stdout', 'stderr'] as const)
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      said += text;
      return true;
    });
  return () => said;
}

afterEach(() => {
  vi.restoreAllMocks();
});

function exitOf(result: AssessResult) {
  silent();
  return deliverAssessment(result, [], { json: false, quiet: true, repeat: '' });
}

const plain = (_style: string, text: string) => text;

describe.each(BROKEN)('a design that breaks %s', (_what, judged) => {
  const { scenario, criteria, broken } = judged;
  const named = expect.objectContaining({ name: broken, verdict: 'above' });

  it.each([
    ['the planned height alone', STANDARD],
    ['heights that were given', { ...STANDARD, heights: { kind: 'list', heights: [60, 200, 310] } }],
    ['a search for a height', SEARCH],
    ['the planned height, until it is narrow enough', { ...STANDARD, until: 0.01 }],
    ['the planned height, with an assurance demanded', { ...STANDARD, assurance: 0.1 }],
  ] as const)('is above the limits, with exit code 1, in an assessment of %s', async (_of, options) => {
    const { result } = await assessed(judged, options);
    expect([result.verdict, result.overall]).toEqual(['within', 'above']);
    expect(result.criteria).toHaveLength(criteria.length);
    expect(result.criteria).toContainEqual(named);
    expect(result.assurance?.met ?? false).toBe(false);
    expect(await exitOf(result)).toBe(1);
  });

  it('is told in the terminal and on the page, with a warning', async () => {
    const { result } = await assessed(judged, STANDARD);
    const { id, warning } = criteria.find(({ name }) => name === broken) as Criterion;
    expect(result.warnings.map(({ code }) => code)).toContain(warning?.code ?? id);
    const said = assessSummary(result, plain).join('\n');
    expect(said).toMatch(/^[▲△] ABOVE the limits/);
    expect(said.replace(/\s+/g, ' ')).toContain(`What decides is "${broken}"`);
    const page = (await assessPage(result)).replace(/&quot;|[\u201c\u201d]/g, '"').replaceAll('\u00a0', ' ');
    for (const words of [broken, warning?.does ?? '']) {
      expect(said.replace(/\s+/g, ' ')).toContain(words);
      expect(page).toContain(words);
    }
    expect(page).toContain(`breaks a limit: ${broken}.`);
  });

  it('has no height that a search shows', async () => {
    const { heightDecision, aim } = (await assessed(judged, SEARCH)).result;
    expect(heightDecision).toMatchObject({ status: 'none serves', latest: null, aim: null });
    expect(heightDecision?.explored.every(({ criteria: found }) => found.length === criteria.length)).toBe(true);
    expect(heightDecision?.least.criteria).toContainEqual(named);
    expect(aim).toBeNull();
  });

  it.each([
    ['the planned height', STANDARD],
    ['a search', SEARCH],
  ] as const)('is so too where parts of %s are merged, without a flight flown again', async (_of, options) => {
    const undivided = await assessed(judged, options);
    const parts = await flyInParts(scenario, options, 2, () => meansFor(judged));
    const merged = await assessed(judged, options, parts);
    expect([...resultJson(merged.result)].join('')).toBe([...resultJson(undivided.result)].join(''));
    expect(merged.plain).toBe(0);
    expect(merged.result.overall).toBe('above');
    expect(await exitOf(merged.result)).toBe(1);
  });

  it.each(['A', 'B', 'A and for B'])('has no height in a comparison, as %s', async (which) => {
    const sound = { scenario: free, criteria: criteriaOf(free), broken: '' };
    const design = (name: string) => {
      const one = which.includes(name) ? judged : sound;
      return { scenario: one.scenario, overrides: [], flyer: meansFor(one).flyer, criteria: one.criteria };
    };
    const options = { seed: '1', flights: 2000, matters: 0.005, aims: true };
    const compared = await compareDesigns(design('A'), design('B'), options);
    const result = answered(compared);
    const [ofA, ofB] = [result.a, result.b].map(({ heights }) => heights);
    for (const [name, decision] of [
      ['A', ofA],
      ['B', ofB],
    ] as const) {
      const serves = !which.includes(name);
      expect([name, decision?.latest !== null]).toEqual([name, serves]);
      if (!serves) expect(decision?.least.criteria).toContainEqual(named);
    }
    expect([result.a.overall, result.b.overall]).toEqual(
      ['A', 'B'].map((name) => (which.includes(name) ? 'above' : 'within')),
    );
    expect(compareExit(result)).toBe(which.includes('B') ? 1 : 0);
    const page = (await renderComparison(result)).replace(/&quot;|[\u201c\u201d]/g, '"').replaceAll('\u00a0', ' ');
    for (const name of ['A', 'B']) {
      const kept = which.includes(name) ? `is above a limit: ${broken}` : 'keeps every limit';
      for (const lines of [compareVerdictLines(result, plain).join(' '), page])
        expect(lines.replace(/\s+/g, ' ')).toContain(`${name} ${kept}.`);
    }
    expect(result.comparisons[2].status).toBe('not compared');
    expect(compareSummary(result, plain).join(' ')).toMatch(
      new RegExp(`every\\s+limit\\s+of\\s+${which.replace('for', 'of').replaceAll(' ', '\\s+')}\\s`),
    );
  });

  it('has "do not fly" in every cell of the day card, with the reason, and exit code 1', async () => {
    const options = {
      seed: '1',
      flights: 1000,
      overrides: [],
      rows: 'wind.speed=2 m/s,4 m/s',
      columns: 'pad.wait=10 min',
      heights: { kind: 'standard' } as const,
    };
    const found = await findLimits(scenario, options, { flyerFor: () => meansFor(judged).flyer, criteria });
    const result = answered(found);
    expect(result.criteria).toEqual(criteria.map(({ name, limit }) => ({ name, limit })));
    expect(result.cells.map(({ status }) => status)).toEqual(['do not fly', 'do not fly']);
    expect(result.cells[0].closest?.criteria).toContainEqual(named);
    expect(limitsExit(result)).toBe(1);
    expect(limitsSummary(result, plain).join(' ').replace(/\s+/g, ' ')).toMatch(
      new RegExp(`no height keeps: [^.]*${broken} \\(above the limit\\)`),
    );
    const inside = broken.replace(/^.* circle "(.*)"$/, 'inside \u201c$1\u201d');
    expect(await renderLimits(result)).toContain(inside);
  });
});

describe('a criterion that judges by a column of its own', () => {
  it('has the column wherever flights are judged, and changes nothing where it is met', async () => {
    const { result } = await assessed(MET, SEARCH);
    const { result: without } = await assessed({ ...MET, criteria: criteriaOf(MET.scenario) }, SEARCH);
    expect(result.overall).toBe('within');
    expect(result.heightDecision?.latest).toBe(150);
    expect(result.aim).toEqual(without.aim);
    expect(result.heightDecision?.window).toEqual(without.heightDecision?.window);
    expect(await exitOf(result)).toBe(0);
  });

  it('has it in parts of a study, of the fresh flights too', async () => {
    const parts = await flyInParts(MET.scenario, SEARCH, 3, () => meansFor(MET));
    const { result, plain: again } = await assessed(MET, SEARCH, parts);
    expect([result.heightDecision?.latest, again]).toEqual([150, 0]);
  });

  it('has it in the fresh flights of a comparison', async () => {
    const { scenario, criteria } = MET;
    const design = () => ({ scenario, overrides: [], flyer: meansFor(MET).flyer, criteria });
    const compared = await compareDesigns(design(), design(), {
      seed: '1',
      flights: 2000,
      matters: 0.005,
      aims: true,
    });
    expect(compared).toMatchObject({
      value: { a: { heights: { latest: 150 } }, comparisons: [{}, {}, { status: 'compared' }] },
    });
  });
});

/** Nearly every flight of the demo comes down within a kilometre. So lax a limit that 60 flights could show it. */
const CROWD = 'site.keep_out=[{ name: crowd, east: 0 m, north: 0 m, radius: 5 km, chance_inside: 10 % }]';

describe.each([
  ['a recovery circle that no flight meets', [FREE, SMALL_CIRCLE]],
  ['a keep-out circle of people on the landing point', [CROWD]],
])('the commands as they are called, on %s', (_what, changes) => {
  const set = changes.flatMap((change) => ['--set', change]);
  /** So lax that 20 flights show ground impact to be within it. */
  const risky = ['--acceptable-risk', '90 %'];
  const quick = ['--seed', '1', '--threads', '1'];
  const commands = [assessCommand, mergeCommand, compareCommand, limitsCommand];

  async function run(...words: readonly string[]) {
    const heard = silent();
    const code = await runWords(commands, words);
    vi.restoreAllMocks();
    return { code, said: heard() };
  }

  /** Standard output is one result; around it stands what was said of the progress. */
  const resultIn = <R>(said: string) => JSON.parse(said.slice(said.indexOf('{'), said.lastIndexOf('}') + 1)) as R;

  it('assess exits with 1', async () => {
    const words = [...set, ...risky, ...quick, '--heights', 'planned', '--flights', '20', '--json'];
    const { code, said } = await run('assess', BURDOCK, ...words);
    expect(code).toBe(1);
    expect(resultIn<AssessResult>(said)).toMatchObject({ verdict: 'within', overall: 'above' });
  });

  it('merge exits with 1', async () => {
    const out = join(emptyFolder(), 'half');
    const words = [...set, ...risky, ...quick, '--heights', 'planned', '--flights', '20', '--out', out];
    for (const part of ['1/2', '2/2']) expect((await run('assess', BURDOCK, ...words, '--part', part)).code).toBe(0);
    const merged = await run('merge', `${out}-1-of-2.part`, `${out}-2-of-2.part`, '--threads', '1', '--json');
    expect(merged.code).toBe(1);
    expect(resultIn<AssessResult>(merged.said).overall).toBe('above');
  });

  it('limits exits with 1', async () => {
    const cells = ['--rows', 'wind.speed=2 m/s', '--columns', 'pad.wait=10 min', '--heights', '250'];
    const { code, said } = await run(
      ...['limits', BURDOCK, ...set, ...risky, ...quick, ...cells, '--flights', '60', '--json'],
    );
    expect(resultIn<LimitsResult>(said).cells).toMatchObject([{ status: 'do not fly' }]);
    expect(code).toBe(1);
  });

  it('compare shows no height for either design', async () => {
    const sets = [...set, '--set', 'criteria.ground_impact_risk=90 %'];
    const { code, said } = await run('compare', BURDOCK, BURDOCK, ...sets, ...quick, '--flights', '20', '--json');
    const { a, b } = resultIn<CompareResult>(said);
    expect([a.overall, b.overall, code]).toEqual(['above', 'above', 1]);
    for (const { heights } of [a, b]) expect(heights?.latest).toBeNull();
  });
});
