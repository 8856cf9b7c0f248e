/** Runs a command line: reads it with yargs, runs the command, and turns what happens into an exit code. */
import yargs, { type Argv, type FallbackCompletionFunction } from 'yargs';
import { refused } from '../sim/basics/answer.js';
import { PROGRAM_VERSION } from '../sim/basics/versions.js';
import { argumentsOf, type Command, type Given } from './arguments/command.js';
import { explained, helpAsOption, leftoverWords, wrongWord } from './arguments/usage.js';
import { EXIT, EXIT_CODES_HELP, type ExitCode, refuse } from './terminal/exit-codes.js';
import { WIDTH } from './terminal/layout.js';
import { complain, forgiveClosedPipe, print } from './terminal/streams.js';

/** What `fallmargin` alone prints: what to do first. */
const FIRST_STEPS = `fallmargin estimates how likely a can-sized payload that falls, unfolds its rotor
arms and lands under thrust does not land softly, and at what height it must
throttle up. It estimates; it does not clear a flight.

Start here:
  fallmargin init payload.yaml        write a scenario to fill in
  fallmargin init --example burdock   or the demo, to try the commands with
  fallmargin inputs drag              what an input means, how it is measured
  fallmargin check payload.yaml       does it fly at all? by hand calculation
  fallmargin assess payload.yaml      fly thousands of descents, write the report
  fallmargin trace payload.yaml --flight 17     look at one of them
  fallmargin compare payload.yaml other.yaml    which of two designs is safer
  fallmargin limits payload.yaml      the page for the day: height by wind and wait

  fallmargin --help                   every command; <command> --help its options
`;

export async function runProgram(commands: readonly Command[], words: readonly string[]): Promise<void> {
  forgiveClosedPipe();
  process.on('uncaughtException', (error) => {
    complain(bugReport(error));
    process.exit(EXIT.bug);
  });
  try {
    process.exitCode = await runWords(commands, words);
  } catch (error) {
    process.exitCode = EXIT.bug;
    complain(bugReport(error));
  }
}

/** The exit code of a command line; a bug throws. */
export async function runWords(commands: readonly Command[], given: readonly string[]): Promise<ExitCode> {
  const words = helpAsOption(given);
  const about = words === given ? undefined : given[1];
  if (about !== undefined && !commands.some(({ name }) => name === about))
    return refuse(explained('', commands, given.slice(1)));
  if (words.length === 0) {
    print(FIRST_STEPS);
    return EXIT.done;
  }
  const wrong = wrongWord(commands, words);
  if (wrong !== null) return refuse(wrong);

  let exit: ExitCode = EXIT.done;
  let problem: string | null = null;
  const parser = createParser(words, (message) => {
    problem = explained(message, commands, words);
  });
  for (const command of commands) {
    addCommand(parser, command, async (given) => {
      const leftover = leftoverWords(given, command);
      const end = leftover === null ? await command.run(given) : refused(leftover);
      exit = typeof end === 'number' ? end : refuse(...end.messages);
    });
  }
  try {
    await parser.parseAsync();
  } catch (error) {
    if (words[0] === COMPLETING) return EXIT.done;
    if (problem === null) throw error;
    return refuse(problem);
  }
  return exit;
}

/** What a shell's completion script asks with; half a command line is no mistake. */
const COMPLETING = '--get-yargs-completions';

/** Options whose value begins with the path of an input. */
const TAKES_A_PATH = ['--set', '--set-a', '--set-b', '--rows', '--columns'];

/** Completes the paths of inputs after --set and its like; all else as yargs does. */
function completer(words: readonly string[]): FallbackCompletionFunction {
  return (current, _given, completeOtherwise, done) => {
    if (!TAKES_A_PATH.includes(words.at(-2) ?? '')) return completeOtherwise();
    import('../sim/scenario/input-guide.js').then(({ settablePaths }) =>
      done(settablePaths().filter((path) => path.startsWith(current))),
    );
  };
}

/** @param onProblem hears what is wrong with the words; yargs is then left by throwing, or it would run the command */
function createParser(words: readonly string[], onProblem: (message: string) => void): Argv {
  return yargs([...words])
    .scriptName('fallmargin')
    .parserConfiguration({
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'greedy-arrays': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'short-option-groups': false,
    })
    .locale('en')
    .usage('How sure is the landing? Simulates thousands of descents of a can-sized payload.\n\n$0 <command>')
    .version(PROGRAM_VERSION)
    .alias('v', 'version')
    .help()
    .alias('h', 'help')
    .completion('completion', 'Prints a completion script for bash or zsh', completer(words))
    .demandCommand(1, 'Name a command.')
    .strict()
    .recommendCommands()
    .exitProcess(false)
    .showHelpOnFail(false)
    .wrap(WIDTH)
    .epilogue(EXIT_CODES_HELP)
    .fail((message, error) => {
      if (message) onProblem(message);
      throw error ?? new Error(message);
    });
}

function addCommand(parser: Argv, command: Command, run: (given: Given) => Promise<void>): void {
  const { name, summary, options, examples } = command;
  const words = argumentsOf(command);
  parser.command(
    [name, ...words.map((argument) => `[${argument.name}${argument.many ? '..' : ''}]`)].join(' '),
    summary,
    (one) => {
      for (const argument of words) one.positional(argument.name, { type: 'string', describe: argument.doc });
      const form = [name, ...words.map((argument) => `<${argument.name}>${argument.many ? '...' : ''}`)].join(' ');
      one.usage(`${summary}\n\n$0 ${form} [options]`).options({ ...options });
      return one.epilogue(`${examplesHelp(examples)}\n\n${EXIT_CODES_HELP}`);
    },
    run,
  );
}

/** Each example on a line of its own, to be copied whole. */
function examplesHelp(examples: Command['examples']): string {
  return ['Examples:', ...examples.map(([words, what]) => `  ${words}\n      ${what}`)].join('\n');
}

/** The report of a bug: a single sentence, and the place in the code only for a reader who asks. */
function bugReport(error: unknown): string {
  const what = error instanceof Error ? error.message : String(error);
  if (process.env.FALLMARGIN_DEBUG === '1' && error instanceof Error) return `This is a bug: ${error.stack ?? what}`;
  return (
    `This is a bug in fallmargin ${PROGRAM_VERSION}: ${what}\n` +
    'Please report it with this command and the scenario file; FALLMARGIN_DEBUG=1 shows where it happened.'
  );
}
