/** The Chromium that comes as a development dependency is unpacked once, with its libraries and fonts beside it. */
import { existsSync, readFileSync } from 'node:fs';
import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export interface PackedBrowser {
  readonly executablePath: string;
  /** Its fonts, beside those of the system. */
  readonly fonts: Readonly<Record<string, string>>;
  /** What it needs where the system has no nss, nspr and expat. */
  readonly libraries: Readonly<Record<string, string>>;
}

export async function packedBrowser(): Promise<PackedBrowser> {
  const home = join(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium')), '..', '..');
  const { version } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8'));
  const folder = join(home, '..', '..', '.cache', `chromium-${version}`);
  if (!existsSync(folder)) await unpackTo(folder);
  return {
    executablePath: join(folder, 'chromium'),
    fonts: { FONTCONFIG_FILE: join(folder, 'fonts.conf') },
    libraries: { LD_LIBRARY_PATH: join(folder, 'al2023', 'lib') },
  };
}

/**
 * Under another name first, so that a folder that is there is whole. The package unpacks to the folder for temporary
 * files, and its libraries only where it takes itself to be in a cloud function.
 */
async function unpackTo(folder: string): Promise<void> {
  const part = `${folder}.${process.pid}.part`;
  await mkdir(part, { recursive: true });
  const names = ['TMPDIR', 'AWS_LAMBDA_JS_RUNTIME', 'LD_LIBRARY_PATH', 'FONTCONFIG_PATH', 'HOME'];
  const before = names.map((name) => [name, process.env[name]] as const);
  Object.assign(process.env, { TMPDIR: part, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x' });
  try {
    const { default: chromium } = await import('@sparticuz/chromium');
    await chromium.executablePath();
    await writeFile(join(part, 'fonts.conf'), fontsConfiguration(folder));
    await rename(part, folder);
  } catch (error) {
    await rm(part, { recursive: true, force: true });
    if (!existsSync(folder)) throw error;
  } finally {
    for (const [name, value] of before) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
  }
}

function fontsConfiguration(folder: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
  <dir>${join(folder, 'fonts')}</dir>
  <cachedir>${join(folder, 'fonts-cache')}</cachedir>
</fontconfig>
`;
}
