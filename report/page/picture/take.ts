/** This program takes the picture of a report's first screen: node take.js REPORT.html PICTURE.png */
import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { startBrowser } from './browser.js';

const SIZE = { width: 1200, height: 960 };

const [report, picture] = process.argv.slice(2);
if (report === undefined || picture === undefined) {
  process.stderr.write('Which report, and where to put its picture: node take.js REPORT.html PICTURE.png\n');
  process.exitCode = 2;
} else {
  const started = await startBrowser();
  if (started.status === 'none') {
    process.stderr.write(`No browser started.\n${started.tried.join('\n')}\n`);
    process.exitCode = 1;
  } else {
    const page = await started.browser.newPage({ viewport: SIZE, colorScheme: 'light' });
    await page.goto(pathToFileURL(resolve(report)).href);
    const image = await page.screenshot();
    await writeFile(picture, image);
    await started.browser.close();
    process.stdout.write(`${picture}: ${SIZE.width} x ${SIZE.height}, ${Math.round(image.length / 1000)} kB\n`);
  }
}
