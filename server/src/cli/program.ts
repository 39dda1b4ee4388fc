/** The arguments of the command line: what there is, and what is said when they are wrong. */
import { Command, CommanderError, Option, type OptionValues } from 'commander';
import { nearestName } from '../engine/rules/shared/nearest.js';
import { EXIT, type Io } from './io.js';

const PATHS = 'files or folders, - for standard input (default: the current folder)';
const IN = new Option(
  '--in <folder>',
  "also look names up in this folder; without it a single file's own folder counts",
);

/** Written out here and in reports.ts, plan.ts and language.ts: this module must not load the engine. A test compares them. */
export const CHECK_FORMATS = ['text', 'concise', 'json', 'github', 'sarif'] as const;
export const PRINT_FORMATS = ['html', 'pdf', 'ics', 'csv', 'json', 'md'] as const;
export const PRINT_DOCUMENTS = ['plan', 'card', 'floor', 'overview', 'review', 'years', 'roster'] as const;
export const PRINT_LANGUAGES = ['en', 'de', 'es'] as const;
const LANGUAGE = new Option('--language <language>', 'language of the documents')
  .choices(PRINT_LANGUAGES)
  .default('en');
export const REVIEW_FORMATS = ['text', 'json', 'html'] as const;
export const ROSTER_FORMATS = ['text', 'json'] as const;

export interface ProgramContext {
  readonly io: Io;
  readonly version: string;
  /** Loads the commands with the engine behind them. */
  readonly commands: () => Promise<typeof import('./commands.js')>;
  /** Becomes the language server. */
  readonly startServer: () => Promise<void>;
}

/** Runs the command line; returns the exit code. Never throws for what a person typed. */
export async function runProgram(args: readonly string[], context: ProgramContext): Promise<number> {
  const { io } = context;
  let exitCode: number = EXIT.clean;
  const program = build(context, (code) => {
    exitCode = code;
  });
  try {
    if (args.length === 0) {
      io.err(program.helpInformation());
      return EXIT.misuse;
    }
    await program.parseAsync([...args], { from: 'user' });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return EXIT.clean;
      io.err(`stave: ${argumentWords(error, program)}\n`);
      return EXIT.misuse;
    }
    // Bundles do not share their classes, so the name tells.
    if (error instanceof Error && error.name === 'Misuse') {
      io.err(`stave: ${error.message}\n`);
      return EXIT.misuse;
    }
    throw error;
  }
}

function build(
  { io, version, commands, startServer }: ProgramContext,
  done: (code: number) => void,
): Command {
  const program = new Command('stave')
    .description('Strength programs as plain text: checked, resolved to loads, printed.')
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: () => undefined,
      getOutHelpWidth: () => io.width,
    })
    .exitOverride();
  const command = (name: string, description: string) =>
    program.command(name).description(description).helpOption('-h, --help', 'print this help');

  command('check', 'show every finding; exit 1 when one is a warning or an error')
    .argument('[path...]', PATHS)
    .addOption(new Option('--format <format>', 'how to write them').choices(CHECK_FORMATS).default('text'))
    .option('--fix', 'take the safe repairs first, and write the files', false)
    .option('--diff', 'change nothing; show what the safe repairs would change and exit 1', false)
    .addOption(IN)
    .action(async (paths: string[], options) => {
      const { check } = await commands();
      const { format, fix, diff } = options;
      done(await check(paths, { format, fix, diff, in: options.in ?? null, version }, io));
    });

  command('loads', 'show what a client lifts, cell by cell')
    .argument('[path...]', PATHS)
    .requiredOption('--for <client>', 'the client')
    .option('--json', 'as JSON', false)
    .addOption(IN)
    .action(async (paths: string[], options) => {
      const { loads } = await commands();
      done(await loads(paths, { for: options.for, json: options.json, in: options.in ?? null }, io));
    });

  const printing = (name: string, description: string) =>
    command(name, description)
      .argument('[path...]', PATHS)
      .option('--for <client>', 'the client')
      .option('--all', 'every client', false)
      .addOption(
        new Option(
          '--document <document>',
          'plan; card: one day; floor: everyone at one place on one day; overview: the months at a glance; ' +
            'review: planned and done; years: all of her history; roster: everybody, what needs a decision',
        )
          .choices(PRINT_DOCUMENTS)
          .default('plan'),
      )
      .option('--to <formats>', `${PRINT_FORMATS.join(', ')} or several of them with commas`, 'html,pdf')
      .option('-o, --output <folder>', 'folder to write to; made where it is missing', '.')
      .option('--from <date>', 'first day to print')
      .option('--to-date <date>', 'last day to print')
      .option('--date <date>', 'the day of a card or floor sheet (default: the next one with sessions)')
      .addOption(new Option('--size <size>', 'size of the paper').choices(['a4', 'letter']).default('a4'))
      .option('--large', 'large print', false)
      .addOption(LANGUAGE)
      .addOption(IN);

  printing('plan', 'write the printed plan of a client, or another document').action(
    async (paths: string[], options) => {
      const to = printFormats(options.to);
      const { plan } = await commands();
      done(await plan(paths, { ...printOptions(options), to }, io));
    },
  );

  printing('watch', 'write documents, and again whenever a file changes').action(
    async (paths: string[], options) => {
      const to = printFormats(options.to);
      const { watch } = await commands();
      done(await watch(paths, { ...printOptions(options), to }, io));
    },
  );

  const FILES_TO = new Option('--to <formats>', 'write files: html, pdf or both with a comma');
  const OUTPUT = new Option('-o, --output <folder>', 'folder for the files').default('.');
  const SIZE = new Option('--size <size>', 'size of the paper').choices(['a4', 'letter']).default('a4');
  const TODAY = new Option(
    '--today <date>',
    'the day that counts as today (default: the date of this machine)',
  );

  command('review', 'show what a client did against her plan, and what the logs suggest')
    .argument('[path...]', PATHS)
    .requiredOption('--for <client>', 'the client')
    .addOption(new Option('--format <format>', 'how to write it').choices(REVIEW_FORMATS).default('text'))
    .addOption(FILES_TO)
    .addOption(OUTPUT)
    .addOption(SIZE)
    .option('--large', 'large print', false)
    .addOption(LANGUAGE)
    .addOption(TODAY)
    .addOption(IN)
    .action(async (paths: string[], options) => {
      const { review } = await commands();
      const { format, today } = options;
      done(
        await review(
          paths,
          {
            for: options.for,
            format,
            today: today ?? null,
            in: options.in ?? null,
            files: fileOptions(options),
          },
          io,
        ),
      );
    });

  command('roster', 'show one line a client: where she is, what is next, what needs a decision')
    .argument('[path...]', PATHS)
    .addOption(new Option('--format <format>', 'how to write it').choices(ROSTER_FORMATS).default('text'))
    .addOption(FILES_TO)
    .addOption(OUTPUT)
    .addOption(SIZE)
    .option('--large', 'large print', false)
    .addOption(LANGUAGE)
    .addOption(TODAY)
    .addOption(IN)
    .action(async (paths: string[], options) => {
      const { roster } = await commands();
      done(
        await roster(
          paths,
          {
            format: options.format,
            today: options.today ?? null,
            in: options.in ?? null,
            files: fileOptions(options),
          },
          io,
        ),
      );
    });

  const log = command('log', 'what was done').helpCommand(false);
  log
    .command('import')
    .description('take in logged sets from a CSV file: all of them, or none with the reasons')
    .helpOption('-h, --help', 'print this help')
    .argument('<table>', 'the CSV file; its columns are in the documentation')
    .requiredOption('--into <file>', 'the .stave file to write to; logs are added at its end')
    .option('--for <client>', 'the client, for a table without a client column')
    .option('--in <folder>', 'the folder with clients and movements (default: the current folder)')
    .addOption(TODAY)
    .action(async (table: string, options) => {
      const { logImport } = await commands();
      const { into, today } = options;
      done(
        await logImport(
          table,
          { into, for: options.for ?? null, today: today ?? null, in: options.in ?? null },
          io,
        ),
      );
    });

  command('share', 'write a folder with the plan of one client and nothing of anyone else')
    .argument('[path...]', PATHS)
    .requiredOption('--for <client>', 'the client')
    .requiredOption('-o, --output <folder>', 'an empty folder to write to; made where it is missing')
    .addOption(LANGUAGE)
    .addOption(IN)
    .action(async (paths: string[], options) => {
      const { share } = await commands();
      const { output, language } = options;
      done(await share(paths, { for: options.for, output, language, in: options.in ?? null }, io));
    });

  command('format', 'lay files out: columns under each other, nothing else changed')
    .argument('[path...]', PATHS)
    .option('--check', 'change nothing; name the files that would change and exit 1', false)
    .option('--diff', 'change nothing; show what would change and exit 1', false)
    .action(async (paths: string[], options) => {
      const { format } = await commands();
      done(await format(paths, { check: options.check, diff: options.diff }, io));
    });

  command('explain', 'say what a finding means, or why a load is what it is')
    .argument('[what]', 'code of a finding, or FILE:LINE:COLUMN of a cell; without it, all codes are listed')
    .option('--for <client>', 'whose load (default: the first who does the row)')
    .option('--date <date>', 'a day on which she does it (default: the first for which the cell stands)')
    .addOption(IN)
    .action(async (what: string | undefined, options) => {
      const { explain, explainCell, readPlace } = await commands();
      const place = what === undefined ? null : readPlace(what);
      const wish = { for: options.for ?? null, date: options.date ?? null, in: options.in ?? null };
      done(place ? await explainCell(place, wish, io) : explain(what ?? null, io));
    });

  command('init', 'lay out a folder to start from, with an invented client or your first one')
    .argument('<dir>', 'the folder; made where it is missing')
    .option('--client <alias>', 'the first client, with a program made for her; the rest is about her')
    .option('--born <year>', 'her year of birth')
    .option('--kit <name...>', 'what there is to lift: "Home corner", "Community studio", "Barbell room"')
    .option('--set <set...>', 'recent sets of hers, such as "back squat 40kg 8 r2"')
    .option('--signed-off <pattern...>', 'patterns seen done well, for working loads: squat, hinge, push …')
    .option('--on <days>', 'weekdays that she trains on', 'mon,thu')
    .action(async (folder: string, { client, born, kit, set, signedOff, on }) => {
      const { init } = await commands();
      const about = { client: client ?? null, born: born ?? null, kits: kit ?? [], sets: set ?? [] };
      done(await init(folder, { ...about, signedOff: signedOff ?? [], on }, io));
    });

  command('lsp', 'be the language server for an editor')
    .addOption(new Option('--stdio', 'talk over standard input and output').makeOptionMandatory())
    .action(startServer);
  return program;
}

/** Files to write where `--to` asks for them; null: to standard output. */
function fileOptions({ to, output, size, large, language }: OptionValues) {
  return to === undefined ? null : { to: printFormats(to), output, size, large, language };
}

/** The options of a printing command, with null for what was not given. */
function printOptions(options: OptionValues) {
  const { output, document, size, large, all, language, from, toDate, date } = options;
  const given = { from: from ?? null, toDate: toDate ?? null, date: date ?? null, in: options.in ?? null };
  return { for: options.for ?? null, output, document, size, large, all, language, ...given };
}

type PrintFormat = (typeof PRINT_FORMATS)[number];

function printFormats(text: string): readonly PrintFormat[] {
  const asked = text
    .split(',')
    .map((part) => part.trim().toLowerCase())
    .filter((part) => part !== '');
  const unknown = asked.find((part) => !PRINT_FORMATS.some((format) => format === part));
  if (unknown !== undefined || asked.length === 0) {
    const found = unknown === undefined ? 'nothing was named' : `"${unknown}" is none of them`;
    throw new CommanderError(EXIT.misuse, 'stave.to', `--to takes ${PRINT_FORMATS.join(' or ')}; ${found}.`);
  }
  return PRINT_FORMATS.filter((format) => asked.includes(format));
}

/** What is wrong with the arguments, in our words. */
function argumentWords(error: CommanderError, program: Command): string {
  const named = /'([^']*)'/.exec(error.message)?.[1] ?? '';
  // Options are named with their letter and their value: `-o, --output <folder>`.
  const option = /--[\w-]+/.exec(named)?.[0] ?? named;
  switch (error.code) {
    case 'stave.to':
      return error.message;
    case 'commander.unknownCommand':
      return `There is no command "${named}".${meant(named, commandNames(program))}`;
    case 'commander.unknownOption':
      return `There is no option "${named}" here.${meant(named, optionNames(program))}`;
    case 'commander.missingMandatoryOptionValue':
      return `${option} is missing. \`stave help\` shows how a command is written.`;
    case 'commander.optionMissingArgument':
      return `${option} needs a value after it.`;
    case 'commander.missingArgument':
      return `The ${named} is missing. \`stave help\` shows how a command is written.`;
    case 'commander.excessArguments':
      return 'There are more words than this command takes.';
    case 'commander.invalidArgument': {
      const value = /argument '([^']*)' is invalid/.exec(error.message)?.[1] ?? '';
      const choices = /choices are (.*?)\.?$/.exec(error.message)?.[1] ?? CHECK_FORMATS.join(', ');
      return `${option} cannot be "${value}". It can be ${choices}.`;
    }
    default:
      return 'The arguments do not fit. `stave help` shows how a command is written.';
  }
}

function meant(word: string, names: readonly string[]): string {
  const near = nearestName(
    word,
    names.map((key) => ({ key })),
  );
  return near
    ? ` Did you mean "${near.key}"?`
    : ` There ${names.length === 1 ? 'is' : 'are'}: ${names.join(', ')}.`;
}

function commandNames(program: Command): readonly string[] {
  return program.commands.map((command) => command.name());
}

function optionNames(program: Command): readonly string[] {
  const all = program.commands.flatMap((command) => command.options.map(({ long }) => long ?? ''));
  return [...new Set([...all, '--help', '--version'])].filter((name) => name !== '');
}
