/** Writes the JSON Schema of each result beside its type; run from the top folder as `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { resultSchemas } from './result-schemas.js';

for (const [file, text] of resultSchemas()) writeFileSync(file, text);
