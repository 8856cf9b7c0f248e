/** Writes the JSON Schema of scenario files beside the scenarios; run from the top folder as `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { schemaText } from './schema.js';

writeFileSync('configs/scenario.schema.json', schemaText());
