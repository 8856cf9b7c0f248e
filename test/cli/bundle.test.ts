import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const FOLDER = 'dist/program';
const NOTICES = readFileSync(join(FOLDER, 'NOTICES'), 'utf8');
const SOURCES = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.js'))
  .map((file) => readFileSync(join(FOLDER, file), 'utf8'));

const TOOLS: readonly string[] = ['node', 'playwright-core', 'ts-json-schema-generator'];

/** The bundler heads most modules with their file; what the sources import stands beside it. */
const PACKAGES = new Set([
  ...SOURCES.flatMap((text) =>
    [...text.matchAll(/^\/\/ node_modules\/((?:@[^/]+\/)?[^/\n]+)/gm)].map(([, name]) => name),
  ),
  ...importedPackages(),
]);

/** Packages whose values (not types alone) the sources import; the tools of scripts are no part of the program. */
function importedPackages(): readonly string[] {
  const files = ['cli', 'sim', 'report'].flatMap((wing) =>
    readdirSync(wing, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => readFileSync(join(wing, file), 'utf8')),
  );
  const imports = files.flatMap((text) => [...text.matchAll(/^import (?!type\b)[^;']*from '((?:@\w+\/)?[\w-]+)/gm)]);
  return [...new Set(imports.map(([, name]) => name))].filter(
    (name) => !TOOLS.includes(name) && !builtinModules.includes(name),
  );
}

describe('the bundled program', () => {
  it('names every package that is inside, with version and licence, over the text of the licence', () => {
    expect(PACKAGES.size).toBeGreaterThan(100);
    const parts = NOTICES.split(`\n${'-'.repeat(80)}\n`);
    const missing = [...PACKAGES].filter((name) => {
      const { version, license } = JSON.parse(readFileSync(join('node_modules', name, 'package.json'), 'utf8'));
      const part = parts.find((text) => text.includes(`\n${name} ${version} (${license})\n`));
      return !/Permission|Redistribution|Apache License/.test(part ?? '');
    });
    expect(missing).toEqual([]);
  });

  it('loads nothing but its own files and what Node brings, so that the package depends on no other', () => {
    const loaded = SOURCES.flatMap((text) => [
      ...text.matchAll(/^(?:import|export)\b[^'"\n]*?["']([^'"\n]+)["'];?$/gm),
      ...text.matchAll(/\bimport\("([^"\n]+)"\)/g),
    ]).map(([, name]) => name);
    expect(loaded.length).toBeGreaterThan(100);
    const others = loaded.filter((name) => !/^(\.\/|node:)/.test(name) && !builtinModules.includes(name));
    // A canvas is asked for by a chart library and done without where there is none.
    expect([...new Set(others)].filter((name) => name !== 'canvas')).toEqual([]);
    expect(JSON.parse(readFileSync('package.json', 'utf8')).dependencies).toBeUndefined();
  });
});
