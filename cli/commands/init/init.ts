/** The command `init`: writes a scenario to fill in. */
import { stat } from 'node:fs/promises';
import { refused, together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFlag, givenOptional } from '../../arguments/command.js';
import { DECIDED_RISK, FORCE, HEIGHT } from '../../arguments/options.js';
import { parsePlannedHeight, parseRisk } from '../../arguments/values.js';
import { writeWhole } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

const STANDARD_FILE = 'payload.yaml';

export const init: Command = {
  name: 'init',
  argument: { name: 'file', doc: `Where to write it [standard: ${STANDARD_FILE}]` },
  summary: 'Writes a commented scenario to fill in',
  options: { height: HEIGHT, 'acceptable-risk': DECIDED_RISK, force: FORCE },
  examples: [['fallmargin init payload.yaml', 'then edit it and run: fallmargin check payload.yaml']],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const { file = STANDARD_FILE } = given;
  if (typeof file !== 'string' || file === '')
    return refused('init needs the name of a file: fallmargin init payload.yaml');
  if (!/\.ya?ml$/i.test(file)) return refused(`"${file}" should end in .yaml: fallmargin init ${file}.yaml`);
  const there = await stat(file).catch(() => null);
  if (there && !there.isFile()) return refused(`"${file}" is there and is not a file; choose another name.`);
  if (there && !givenFlag(given, 'force'))
    return refused(
      `"${file}" is there already and was left as it is; choose another name, or overwrite it with --force.`,
    );

  const decisions = together({
    height: givenOptional(given, 'height', parsePlannedHeight),
    risk: givenOptional(given, 'acceptable-risk', parseRisk),
  });
  if (decisions.status === 'refused') return decisions;
  const { height, risk } = decisions.value;

  const { starterScenario } = await import('../../../sim/scenario/starter.js');
  const written = await writeWhole(file, [
    starterScenario({
      ...(height === undefined ? {} : { 'plan.throttle_up_height': `${height} m` }),
      ...(risk === undefined ? {} : { 'criteria.ground_impact_risk': `${Number((100 * risk).toPrecision(6))} %` }),
    }),
  ]);
  if (written.status === 'refused') return written;
  const open = [
    ...(height === undefined ? ['the throttle-up height (plan.throttle_up_height)'] : []),
    ...(risk === undefined ? ['the acceptable risk (criteria.ground_impact_risk)'] : []),
  ];
  const left =
    open.length === 0
      ? ''
      : `Still to decide, by you; \`check\` reads the file without it, nothing flies it:\n${open.map((one) => `  ${one}\n`).join('')}`;
  print(`Written: ${file}\n${left}Every number in it is a guess: put in your own, then: fallmargin check ${file}`);
  return EXIT.done;
}
