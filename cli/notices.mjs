/** The notices that the licences of the bundled packages ask for, of exactly the packages that are in the bundle. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Adds the file NOTICES to a bundle. A package whose licence text cannot be found stops the build. */
export function notices() {
  return {
    name: 'notices',
    generateBundle(_options, bundle) {
      const modules = Object.values(bundle).flatMap((one) => (one.type === 'chunk' ? one.moduleIds : []));
      const folders = new Set(modules.flatMap(packageFolder));
      this.emitFile({ type: 'asset', fileName: 'NOTICES', source: noticesOf([...folders].sort()) });
    },
  };
}

/** The folder of the package that a module comes from; none for the program's own. */
function packageFolder(module) {
  return /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(module) ?? [];
}

/** Packages with the same text stand together over it: many differ in nothing else. */
function noticesOf(folders) {
  const titlesByText = new Map();
  for (const folder of folders) {
    const { name, version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const text = licenceText(folder, { name, license, author });
    titlesByText.set(text, [...(titlesByText.get(text) ?? []), `${name} ${version} (${license})`]);
  }
  const parts = [...titlesByText].map(([text, titles]) => `${titles.join('\n')}\n\n${text}`);
  return `${['This program holds code of the packages named here, under the licences that follow.', ...parts].join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}

/** What the package says itself; where it names the MIT licence and its author alone, the text of that licence with the author's name. */
function licenceText(folder, { name, license, author }) {
  const files = readdirSync(folder).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
  if (files.length > 0) return files.map((file) => readFileSync(join(folder, file), 'utf8').trim()).join('\n\n');
  const holder = (author?.name ?? author)?.replace(/ <.*/, '');
  if (license !== 'MIT' || holder === undefined) throw new Error(`${name} has no licence text to be found.`);
  return readFileSync('LICENSE', 'utf8')
    .trim()
    .replace(/^Copyright .*$/m, `Copyright (c) ${holder}`);
}
