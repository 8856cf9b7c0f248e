import { describe, expect, it } from 'vitest';
import { type Part, type PartFile, problemsOfParts, studyDifferences } from '../../../sim/assess/parts/part.js';
import type { AssessOptions } from '../../../sim/assess/plan.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import { burdock } from '../../ensemble/burdock.js';

const versions = presentVersions();
const scenario = burdock();
const options: AssessOptions = { seed: '1', flights: 300, heights: { kind: 'standard' }, overrides: [] };

function file(number: number, changes: Partial<Part> = {}, path = `${number}.part`): PartFile {
  return { path, part: { versions, scenario, options, part: { number, of: 12 }, whole: true, name: 'b', ...changes } };
}

const all = Array.from({ length: 12 }, (_, index) => file(index + 1));
const withOne = (number: number, changes: Partial<Part>) => all.with(number - 1, file(number, changes));

describe('the parts of one study', () => {
  it('have no problem, in any order', () => {
    expect(problemsOfParts(all.toReversed(), versions)).toEqual([]);
  });

  it.each([
    [
      'missing',
      all.filter((_, index) => ![1, 4, 5, 6, 8, 9].includes(index)),
      'Parts 2, 5 to 7, 9, 10 of 12 are missing.',
    ],
    ['missing, one', all.slice(0, 11), 'Part 12 of 12 is missing.'],
    ['doubled', [...all, file(3, {}, 'again.part')], 'Part 3/12 is there twice: 3.part and again.part.'],
    [
      'of another seed',
      withOne(1, { options: { ...options, seed: '2' } }),
      '1.part is of another study than 2.part: seed "2", not "1".',
    ],
    [
      'of other options',
      withOne(2, {
        options: { ...options, flights: 400, heights: { kind: 'list', heights: [60] }, assurance: 0.9, date: 'May' },
      }),
      '2.part is of another study than 1.part: flights 400, not 300; heights 60 m, not searched for; --assurance 90 %, not none; date "May", not none.',
    ],
    [
      'of another scenario',
      withOne(4, { scenario: burdock('can.mass=590 g') }),
      /^4\.part is of another study than 1\.part: can\.mass 590 g, not .*588 g/,
    ],
    [
      'of a scenario with other notes',
      withOne(4, { scenario: { ...scenario, about: 'something else' } }),
      '4.part is of another study than 1.part: other notes, sources or units in the scenario.',
    ],
    [
      'of another Node',
      withOne(5, { versions: { ...versions, node: '99.0.0' } }),
      `5.part is of another study than 1.part: Node 99.0.0, not ${versions.node}.`,
    ],
    [
      'of another version',
      withOne(5, { versions: { ...versions, program: '9.0.0' } }),
      `5.part is of another study than 1.part: fallmargin 9.0.0, not ${versions.program}.`,
    ],
    [
      'of another division',
      withOne(6, { part: { number: 6, of: 13 } }),
      '6.part is of another study than 1.part: divided into 13, not 12.',
    ],
    [
      'not whole',
      withOne(7, { whole: false }),
      /^7\.part is part 7\/12, but not flown .* --part 7\/12 --resume 7\.part/,
    ],
    ['of no division', withOne(8, { part: null, whole: false }), /^8\.part is an unfinished study/],
  ] as const)('are refused where one is %s', (_what, files, message) => {
    const problems = problemsOfParts(files, versions);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toEqual(typeof message === 'string' ? message : expect.stringMatching(message));
  });

  it('are refused all together by another program', () => {
    const [problem] = problemsOfParts(all, { ...versions, node: '99.0.0' });
    expect(problem).toContain(`another program than the one that flew the parts: Node 99.0.0, not ${versions.node}`);
  });
});

describe('two studies', () => {
  it('do not differ by what changes no byte', () => {
    const read = JSON.parse(JSON.stringify({ versions, scenario, options }));
    expect(studyDifferences(read, { versions, scenario, options })).toEqual([]);
    const until = { ...options, until: 0.01 };
    expect(
      studyDifferences(
        { versions, scenario, options: until },
        { versions, scenario, options: { ...until, flights: 5 } },
      ),
    ).toEqual([]);
  });
});
