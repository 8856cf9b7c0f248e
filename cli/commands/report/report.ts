/** The command `report`: renders the page of a saved result again; nothing is flown. */

import { prefixed, together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFile, givenText } from '../../arguments/command.js';
import { FORCE, OUT_HTML } from '../../arguments/options.js';
import { baseOf } from '../../arguments/scenario.js';
import { planNewFiles } from '../../outputs/deliver.js';
import { readText, writeWhole } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

export const report: Command = {
  name: 'report',
  argument: { name: 'result', doc: 'Result file that assess, compare or limits wrote (JSON)' },
  summary: 'Renders the HTML report again from a saved result',
  options: { out: OUT_HTML, force: FORCE },
  examples: [['fallmargin report burdock.json --out again', 'writes again.html']],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    file: givenFile(given, 'report', 'result', 'burdock.json'),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { file, out } = request.value;
  const text = await readText(file);
  if (text.status === 'refused') return text;
  const { renderedPage } = await import('./rendered.js');
  const page = prefixed(`${file}: `, await renderedPage(text.value));
  if (page.status === 'refused') return page;
  const outputs = await planNewFiles(given, out, baseOf(file), ['.html']);
  if (outputs.status === 'refused') return outputs;

  const written = await writeWhole(outputs.value[0], [page.value]);
  if (written.status === 'refused') return written;
  print(`Written: ${written.value}`);
  return EXIT.done;
}
