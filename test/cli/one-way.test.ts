import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

/** Every relative import of every source file in a folder, as [file, imported file]. */
function importsFrom(folder: string): readonly (readonly [string, string])[] {
  return sources(folder).flatMap((file) => {
    const text = readFileSync(file, 'utf8');
    const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map(([, target]) => target);
    return targets.map((target) => [file, normalize(join(dirname(file), target))] as const);
  });
}

function sources(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join(folder, file));
}

describe('data flows one way', () => {
  const outside = (folder: string, allowed: RegExp) =>
    importsFrom(folder).filter(([, target]) => !allowed.test(target));

  it('the simulation knows neither the report nor the command line', () => {
    expect(importsFrom('sim').length).toBeGreaterThan(100);
    expect(outside('sim', /^sim\//)).toEqual([]);
  });

  it('the report knows only the result, the names it is made of, and how numbers are put in words', () => {
    const known =
      /^(report\/|sim\/result\/|sim\/flight\/record\.js|sim\/scenario\/scenario\.js|sim\/statistics\/words\.js)/;
    expect(importsFrom('report').length).toBeGreaterThan(10);
    expect(outside('report', known)).toEqual([]);
  });

  it('the command line may use both', () => {
    expect(outside('cli', /^(cli|sim|report)\//)).toEqual([]);
  });
});

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
      /vega|handlebars|stdlib|^yaml$|js-quantities|^report|sim\/(study|draws|model)|sim\/flight\/(?!record)/.test(name),
    );
    expect(loaded.size).toBeGreaterThan(15);
    expect(heavy).toEqual([]);
  });
});
