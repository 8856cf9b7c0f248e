/** Templates, styles and page scripts lie in `report/` of the package, whether this runs as source, compiled or bundled. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface Asset {
  readonly name: string;
  readonly text: string;
}

/** The files under one folder of the report with one ending, at any depth, by name. Names must differ. */
export function readAssets(folder: '.' | 'page/styles' | 'page/script' | 'limits', ending: string): readonly Asset[] {
  const home = join(reportFolder(dirname(fileURLToPath(import.meta.url))), folder);
  return readdirSync(home, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith(ending))
    .sort()
    .map((file) => ({ name: basename(file, ending), text: readFileSync(join(home, file), 'utf8') }));
}

/** The nearest `report/` above this file that holds templates: compiled code lies beside none. */
function reportFolder(from: string): string {
  const report = join(from, 'report');
  if (existsSync(join(report, 'page', 'templates'))) return report;
  if (dirname(from) === from) throw new Error('The templates of the report are missing.');
  return reportFolder(dirname(from));
}
