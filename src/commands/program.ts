import { Command, InvalidArgumentError, Option, type CommanderError } from 'commander';
import { typeAgain } from '../wording/called.ts';
import type { AskOptions } from './ask.ts';
import type { DrillOptions } from './drill.ts';
import { faceNames, type FaceName } from './face.ts';
import type { LookOverOptions } from './look-over/command.ts';
import type { ReplayOptions } from './replay.ts';
import { version } from './version.ts';

const exitCodes = `
Exit codes: 0 fine; 1 a problem was found; 2 the command line cannot be followed; 70 a fault in Dropwise; 130 interrupted.
Sessions are kept in DROPWISE_HOME, or where the system keeps a program's data. NO_COLOR switches colour off.`;

/**
 * The command line. Each command's file is loaded when that command is asked for. `exit` is told the exit code of the
 * command that ran.
 */
export function commandLine(exit: (code: number) => void): Command {
  const program = new Command('dropwise')
    .description('Guided troubleshooting for low-voltage alarm technicians.')
    .version(version)
    .showHelpAfterError(`To see what can be typed: ${typeAgain('--help')}`)
    .addHelpText('after', exitCodes)
    .exitOverride(named);
  const face = (): Option => new Option('--face <face>', 'how it is shown').choices(faceNames);

  const ascii = ['--ascii', 'draw with the characters that every terminal has'] as const;

  program
    .command('ask [words...]', { isDefault: true })
    .description('begin a session; words say what is wrong: dropwise keypad is dead')
    .option('--flow <id>', 'the symptom, by its id')
    .addOption(face())
    .option(...ascii)
    .addOption(
      new Option('--seat <seat>', 'who is served').choices(['board', 'phone', 'trainer']).default('board'),
    )
    .option('--site-file <file>', 'what is printed at this site, and the parts that it does not have')
    .option('--seed <n>', 'the number that the draws begin with', wholeNumber)
    .action(async (words: string[], options: AskOptions) =>
      exit(await (await import('./ask.ts')).askCommand(words, options)),
    );
  program
    .command('drill [flow]')
    .description('practise on an invented site; everybody who types the same number meets the same one')
    .addHelpText(
      'after',
      '\nWithout a flow, the number draws that too. Without --seed, a number is drawn and told.\nExample: dropwise drill low-supply --seed 7',
    )
    .option('--seed <n>', 'the number of the site', wholeNumber)
    .addOption(face())
    .option(...ascii)
    .action(async (flow: string | undefined, options: DrillOptions) =>
      exit(await (await import('./drill.ts')).drillCommand(flow, options)),
    );
  program
    .command('resume [id]')
    .description('go on with a session, the newest if none is named')
    .addOption(face())
    .option(...ascii)
    .action(async (id: string | undefined, options: { face?: FaceName; ascii?: boolean }) =>
      exit(await (await import('./resume.ts')).resumeCommand(id, options)),
    );
  program
    .command('sessions')
    .description('list the sessions on this machine: how old, how it ended, or what it waits for')
    .action(async () => exit(await (await import('./sessions.ts')).sessionsCommand()));
  program
    .command('replay <file>')
    .description('show a session again, by its file or id')
    .option('--step', 'wait for Enter between two turns')
    .option('--verify', 'only say whether it folds to the end it was written with')
    .action(async (file: string, options: ReplayOptions) =>
      exit(await (await import('./replay.ts')).replayCommand(file, options)),
    );
  program
    .command('find <words...>')
    .description('say which flows the words may mean')
    .option('--json', 'as one line of JSON')
    .action(async (words: string[], options: { json?: boolean }) =>
      exit(await (await import('./find.ts')).findCommand(words, options)),
    );
  program
    .command('lint [files...]')
    .description('examine the knowledge, or only the files named')
    .option('--prove', 'check every state of every flow too, and say what no check tells apart')
    .action(async (files: string[], options: { prove?: boolean }) => {
      const { lintCommand } = await import('./lint.ts');
      exit(await lintCommand(files, { write: (line) => console.log(line) }, options));
    });
  program
    .command('look-over')
    .description('print every kind of question and message once, to review the words')
    .option('--width <n>', 'columns, from 20 on', columns)
    .option(...ascii)
    .action(async (options: LookOverOptions) =>
      exit(await (await import('./look-over/command.ts')).lookOverCommand(options)),
    );
  program
    .command('describe')
    .description('say what a program must know to play the site')
    .option('--json', 'as one line of JSON')
    .action(async (options: { json?: boolean }) =>
      exit(await (await import('./describe.ts')).describeCommand(options)),
    );
  return program;
}

/** Commander takes the name of its error from its class, and the built program has no names of classes. */
function named(error: CommanderError): never {
  error.name = 'CommanderError';
  throw error;
}

function wholeNumber(text: string): number {
  if (!/^\d{1,10}$/.test(text)) throw new InvalidArgumentError('Type a whole number, such as 42.');
  return Number(text);
}

function columns(text: string): number {
  const count = wholeNumber(text);
  if (count < 20) throw new InvalidArgumentError('Type a number from 20 on.');
  return count;
}
