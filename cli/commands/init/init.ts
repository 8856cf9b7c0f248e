/** The command `init`: writes a scenario to fill in. */
import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type Answer, ok, refused, together } from '../../../sim/basics/answer.js';
import { quoted } from '../../arguments/again.js';
import { type Command, type Given, givenFlag, givenOptional, givenText } from '../../arguments/command.js';
import { DECIDED_RISK, EXAMPLE, FORCE, HEIGHT } from '../../arguments/options.js';
import { parsePlannedHeight, parseRisk } from '../../arguments/values.js';
import { writeWhole } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

const STANDARD_FILE = 'payload.yaml';

export const init: Command = {
  name: 'init',
  argument: { name: 'file', doc: `Where to write it [standard: ${STANDARD_FILE}, or the name of the example]` },
  summary: 'Writes a commented scenario to fill in, or a copy of the demo',
  options: { example: EXAMPLE, height: HEIGHT, 'acceptable-risk': DECIDED_RISK, force: FORCE },
  examples: [
    ['fallmargin init payload.yaml', 'then edit it and run: fallmargin check payload.yaml'],
    ['fallmargin init --example burdock', 'writes burdock.yaml, the demo, to try every command with'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const example = givenText(given, 'example');
  if (example.status === 'refused') return example;
  return example.value === undefined ? writeStarter(given) : writeExample(given, example.value);
}

/** Where to write: a YAML file that is not there yet, unless it may be overwritten. */
async function targetOf(given: Given, standard: string): Promise<Answer<string>> {
  const { file = standard } = given;
  if (typeof file !== 'string' || file === '')
    return refused('init needs the name of a file: fallmargin init payload.yaml');
  if (!/\.ya?ml$/i.test(file)) return refused(`"${file}" should end in .yaml: fallmargin init ${file}.yaml`);
  const there = await stat(file).catch(() => null);
  if (there && !there.isFile()) return refused(`"${file}" is there and is not a file; choose another name.`);
  if (there && !givenFlag(given, 'force'))
    return refused(
      `"${file}" is there already and was left as it is; choose another name, or overwrite it with --force.`,
    );
  return ok(file);
}

/** A copy of a demo scenario; files that it extends are written beside it where they are not there yet. */
async function writeExample(given: Given, name: string): Promise<CommandEnd> {
  const needless = ['height', 'acceptable-risk'].find((option) => given[option] !== undefined);
  if (needless !== undefined)
    return refused(`--${needless} is for a scenario of your own; an example has its own, and --set changes it.`);
  const { exampleFiles } = await import('./example.js');
  const examples = exampleFiles(name);
  if (examples.status === 'refused') return examples;
  const [first, ...extended] = examples.value;
  const target = await targetOf(given, first.file);
  if (target.status === 'refused') return target;
  const beside = extended
    .map(({ file, text }) => ({ file: join(dirname(target.value), file), text }))
    .filter(({ file }) => !existsSync(file));
  for (const { file, text } of [{ file: target.value, text: first.text }, ...beside]) {
    const written = await writeWhole(file, [text]);
    if (written.status === 'refused') return written;
    print(`Written: ${file}`);
  }
  print(`Every number in it is invented; try: fallmargin check ${quoted(target.value)}`);
  return EXIT.done;
}

async function writeStarter(given: Given): Promise<CommandEnd> {
  const target = await targetOf(given, STANDARD_FILE);
  if (target.status === 'refused') return target;
  const file = target.value;

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
  print(
    `Written: ${file}\n${left}Every number in it is a guess: put in your own, then: fallmargin check ${quoted(file)}`,
  );
  return EXIT.done;
}
