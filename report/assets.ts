/** Templates, styles and page scripts lie in `report/` of the package, whether this runs as source or compiled. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const compiled = basename(dirname(here)) === 'dist';
const home = compiled ? join(here, '..', '..', 'report') : here;

export interface Asset {
  readonly name: string;
  readonly text: string;
}

/** The files of one folder with one ending, by name. */
export function readAssets(folder: 'templates' | 'styles' | 'styles/card' | 'page', ending: string): readonly Asset[] {
  return readdirSync(join(home, folder))
    .filter((file) => file.endsWith(ending))
    .sort()
    .map((file) => ({
      name: basename(file, ending),
      text: readFileSync(join(home, folder, file), 'utf8'),
    }));
}
