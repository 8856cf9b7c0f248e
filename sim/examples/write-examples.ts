/** Writes the example data beside the demo scenario. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readScenario } from '../scenario/file/read.js';
import { exampleFiles } from './examples.js';

const read = readScenario('configs/burdock.yaml');
if (read.status !== 'ok') throw new Error('the demo scenario has problems');
for (const { name, text } of exampleFiles(read.value)) writeFileSync(join('configs', name), text);
