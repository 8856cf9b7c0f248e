import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

/**
 * The rooms of the house from the ground floor up. A file may import from its own room and from rooms that stand before it
 * in this list, types included.
 */
const ROOMS = [
  'sim/basics',
  'sim/statistics',
  'sim/distributions',
  'sim/scenario/definition',
  'sim/scenario',
  'sim/draws',
  'sim/model',
  'sim/flight',
  'sim/ensemble',
  'sim/decision',
  'sim/trace',
  'sim/check',
  'sim/assess',
  'sim/compare',
  'sim/limits',
  'sim/fit',
  'sim/reconstruct',
  'sim/learn',
  'sim/schemas',
  'sim/examples',
  'report/kit',
  'report/page',
  'report/assess',
  'report/compare',
  'report/limits',
  'report/trace',
  'report/fit',
  'report/reconstruct',
  'report/learn',
  'cli/terminal',
  'cli/arguments',
  'cli/outputs',
  'cli/commands/inputs',
  'cli/commands/check',
  'cli/commands/assess',
  'cli/commands/compare',
  'cli/commands/limits',
  'cli/commands/trace',
  'cli/commands/fit',
  'cli/commands/reconstruct',
  'cli/commands/learn',
  'cli/commands/merge',
  'cli/commands/report',
  'cli/commands/init',
  'cli',
];

interface Arrow {
  readonly from: string;
  readonly to: string;
}

const FILES = ['sim', 'report', 'cli'].flatMap((wing) =>
  readdirSync(wing, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join(wing, file)),
);

const ARROWS: readonly Arrow[] = FILES.flatMap((from) => {
  const text = readFileSync(from, 'utf8');
  const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map(([, target]) => target);
  return targets.map((target) => ({ from, to: normalize(join(dirname(from), target)).replace(/\.js$/, '.ts') }));
});

/** Index of the innermost room that holds a file; -1 for none. */
function roomOf(file: string): number {
  const inside = ROOMS.filter((room) => file.startsWith(`${room}/`));
  return inside.length === 0 ? -1 : ROOMS.indexOf(inside.reduce((a, b) => (b.length > a.length ? b : a)));
}

describe('the house', () => {
  it('has every source file in a room of the list, and no room without a file', () => {
    expect(FILES.filter((file) => roomOf(file) === -1)).toEqual([]);
    const used = new Set(FILES.map(roomOf));
    expect(ROOMS.filter((_, index) => !used.has(index))).toEqual([]);
  });

  it('has imports that go down the list only', () => {
    expect(ARROWS.length).toBeGreaterThan(1000);
    const upward = ARROWS.filter(({ from, to }) => roomOf(to) > roomOf(from));
    expect(upward.map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
  });

  it('has no two files that import each other, directly or through others', () => {
    expect(circles()).toEqual([]);
  });

  it('lets the report know results, scenarios, their names and the words for numbers, and nothing that flies or decides', () => {
    const views =
      /^sim\/(basics|statistics)\/|^sim\/[a-z]+\/(record|scenario|distribution|result|decisions)\.ts$|^sim\/scenario\/(lookup|meaning|definition\/paths)\.ts$/;
    const known = ARROWS.filter(({ from, to }) => from.startsWith('report/') && to.startsWith('sim/'));
    expect(known.length).toBeGreaterThan(10);
    expect([...new Set(known.filter(({ to }) => !views.test(to)).map(({ to }) => to))]).toEqual([]);
  });
});

/** Every circle of imports between files, each named once by its files in order. */
function circles(): readonly string[] {
  const targets = new Map(FILES.map((file) => [file, ARROWS.filter(({ from }) => from === file).map(({ to }) => to)]));
  const done = new Set<string>();
  const found: string[] = [];
  const visit = (file: string, path: readonly string[]): void => {
    const seen = path.indexOf(file);
    if (seen !== -1) found.push([...path.slice(seen), file].join(' -> '));
    if (seen !== -1 || done.has(file)) return;
    for (const target of targets.get(file) ?? []) visit(target, [...path, file]);
    done.add(file);
  };
  for (const file of FILES) visit(file, []);
  return found;
}

describe('the command line starts quickly', () => {
  it('because what every command loads imports neither the flights nor the report', () => {
    const loaded = new Set<string>();
    const load = (file: string) => {
      if (loaded.has(file)) return;
      loaded.add(file);
      const text = readFileSync(file.replace(/\.js$/, '.ts'), 'utf8');
      const statics = [...text.matchAll(/^(?:import|export)\s(?!type\s)[^;]*?from\s+'([^']+)'/gms)].map(
        ([, target]) => target,
      );
      for (const target of statics) {
        if (target.startsWith('.')) load(normalize(join(dirname(file), target)));
        else loaded.add(target);
      }
    };
    load('cli/main.js');
    const heavy = [...loaded].filter((name) =>
      /vega|handlebars|stdlib|^yaml$|js-quantities|^report|sim\/(draws|distributions|model|ensemble|decision|check|assess|compare|limits|fit|reconstruct|learn)\/|sim\/flight\/(?!record)/.test(
        name,
      ),
    );
    expect(loaded.size).toBeGreaterThan(15);
    expect(heavy).toEqual([]);
  });
});
