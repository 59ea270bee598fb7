import { Command } from 'commander';
import type { CompareOptions } from './commands/compare.js';
import type { JudgeOptions } from './commands/judge.js';
import type { OldResultsOptions } from './commands/old-results.js';
import type { PlanOptions } from './commands/plan.js';
import type { SheetsOptions } from './commands/sheets.js';
import type { VerifyOptions } from './commands/verify.js';

/**
 * Does what these words ask for, and answers the status that the command ends with. Each command loads what it needs when
 * it is called: help is there at once, and no calculation waits for fonts.
 */
export async function breakbook(words: readonly string[]): Promise<number> {
  let status = 0;
  try {
    await commands(async (work) => {
      status = await ended(work);
    }).parseAsync(words, { from: 'user' });
  } catch (error) {
    // Commander has printed its help or what was wrong with the words of the call.
    const asked = error instanceof Error && 'exitCode' in error && error.exitCode === 0;
    if (!asked) status = (await import('@breakbook/lab')).EXIT.badInput;
  }
  return status;
}

/** Every way a command can end, as one of the agreed statuses. */
async function ended(work: () => Promise<number>): Promise<number> {
  try {
    return await work();
  } catch (error) {
    const { EXIT, Refusal } = await import('@breakbook/lab');
    if (error instanceof Refusal) {
      const { printRefusal } = await import('./refusals.js');
      console.error(printRefusal(error));
      return EXIT.badInput;
    }
    console.error('This is our fault, not your input:', error);
    return EXIT.ourFault;
  }
}

function commands(end: (work: () => Promise<number>) => Promise<void>): Command {
  const program = new Command('breakbook')
    // Else Commander would end the process, with 1 for words it does not know. Commands take it over as they are made.
    .exitOverride()
    .description('Judges lots of broken wheels and rims from their raw files, and computes what they prove.')
    .addHelpText(
      'after',
      '\nEnds with 0 done, meets, consistent or identical, 1 does not meet, not consistent or differs, 2 bad input, 3 undecided, inconclusive or not evaluated, 4 refused by the service, 5 service or database away, 70 our fault.',
    );

  program
    .command('judge')
    .description('read, judge and evaluate a lot folder; writes the report and the result')
    .argument('<folder>', 'a lot folder, as docs/formats.md describes it')
    .option('--out <folder>', 'where the PDF and the result JSON go', 'out')
    .option('--paper <size>', 'A4 or Letter', 'A4')
    .option('--language <code>', 'of the report: en or de', 'en')
    .option('--units <list>', 'in which the report prints what is kept in others, such as bar,F,in; else as kept')
    .option('--what-if-plan <file>', 'judge it as if under this plan (JSON): a what-if, and no report')
    .option(
      '--what-if-limit <key=value>',
      'judge it as if this limit had another value, in its unit; may be given again',
      (one: string, all: string[] = []) => [...all, one],
    )
    .action((folder: string, options: JudgeOptions) =>
      end(async () => {
        const { judgeCommand } = await import('./commands/judge.js');
        return judgeCommand(folder, options);
      }),
    );

  program
    .command('compare')
    .description(
      'how well items agree with a reference, or lots with lots, as was declared before testing; never what an item is',
    )
    .argument('<folder>', 'a comparison folder, as docs/formats.md describes it, or one of several comparisons in it')
    .option('--json', 'everything that was worked out, as JSON')
    .option('--report <file>', 'write the comparison report there, as an unsigned draft (PDF)')
    .option('--paper <size>', 'of the report: A4 or Letter', 'A4')
    .option('--language <code>', 'of the report: en or de', 'en')
    .option('--units <list>', 'in which the report prints what is kept in others, such as bar,F,in; else as kept')
    .action((place: string, options: CompareOptions) =>
      end(async () => {
        const { compareCommand } = await import('./commands/compare.js');
        return compareCommand(place, options);
      }),
    );

  program
    .command('sheets')
    .description(
      'a sheet for each run of a lot folder, a record for each specimen, and labels, as unsigned drafts (PDF)',
    )
    .argument('<folder>', 'a lot folder, as docs/formats.md describes it')
    .option('--out <folder>', 'where they go, in a folder of the lot', 'out')
    .option(
      '--kind <kind>',
      'run-sheet, specimen-record or label-sheet; may be given again. All of them where it is left out',
      (one: string, all: string[] = []) => [...all, one],
    )
    .option('--paper <size>', 'A4 or Letter; labels lie on that of their grid', 'A4')
    .option('--language <code>', 'en or de', 'en')
    .option('--units <list>', 'in which they print what is kept in others, such as bar,F,in; else as kept')
    .option('--grid <name>', 'on which sheet of labels', 'A4, 24 of 70 × 37 mm')
    .option('--code <form>', 'on each label: "data matrix" or qr', 'data matrix')
    .option('--json', 'which files were written, with their digests, as JSON')
    .action((folder: string, options: SheetsOptions) =>
      end(async () => {
        const { sheetsCommand } = await import('./commands/sheets.js');
        return sheetsCommand(folder, options);
      }),
    );

  program
    .command('recompute')
    .description(
      'read and judge every run of a lot folder again, or of every lot folder in a folder, and say what differs from what was kept; or work every number of a signed document out again',
    )
    .argument('<place>', 'a lot folder, as docs/formats.md describes it, a folder of them, or a signed document (PDF)')
    .option(
      '--against <path>',
      'the kept result, or the folder of kept results of many lots; else out/<lot>/result.json',
    )
    .option('--files <folder>', 'of a document: a folder with the raw files of its runs, to be read again')
    .option('--json', 'of a document: what was found as JSON')
    .action((folder: string, options: { against?: string; files?: string; json?: boolean }) =>
      end(async () => {
        if (folder.toLowerCase().endsWith('.pdf')) {
          const { recomputeDocumentCommand } = await import('./commands/recompute-document.js');
          return recomputeDocumentCommand(folder, options);
        }
        const { recomputeFolder } = await import('./commands/recompute-lots.js');
        return recomputeFolder(folder, options);
      }),
    );

  program
    .command('layout')
    .description('what a logger’s file says of how it is written, and a layout to fill in')
    .argument('<file>', 'a file of the rig, as its logger writes it')
    .option('--with <layout>', 'read the whole file by this layout (JSON) and say what stands in its columns')
    .option('--json', 'the layout alone, or what was read, as JSON')
    .action((file: string, options: { json?: boolean; with?: string }) =>
      end(async () => {
        const { layoutCommand } = await import('./commands/layout.js');
        return layoutCommand(file, options);
      }),
    );

  program
    .command('staircase')
    .description('the wheels of a lot folder that were struck once: energy and whether each broke, for compute')
    .argument('<folder>', 'a lot folder, as docs/formats.md describes it')
    .requiredOption('--step <joules>', 'between the energies of the series')
    .action((folder: string, options: { step: string }) =>
      end(async () => {
        const { staircaseCommand } = await import('./commands/staircase.js');
        return staircaseCommand(folder, options);
      }),
    );

  program
    .command('ledger')
    .description('is everything a lab recorded as it was written?')
    .command('check')
    .description('rebuilds the ledger from its entries, rows and bytes, and names the first thing that does not fit')
    .option('--data <folder>', 'the data folder; else BREAKBOOK_DATA, DATABASE_URL or ~/.breakbook')
    .option('--checkpoint <file...>', 'signed checkpoints that were kept where the lab cannot reach them')
    .option('--key <key>', 'the public key that stood beside them')
    .action((options: { data?: string; checkpoint?: string[]; key?: string }) =>
      end(async () => {
        const { ledgerCheckCommand } = await import('./commands/ledger-check.js');
        return ledgerCheckCommand(options);
      }),
    );

  program
    .command('check')
    .description('is a package of a lot as it was handed out? Checks every file, proof and signature, offline')
    .argument('<package>', 'the zip, or the folder it was unpacked to')
    .option('--key <key>', 'the public key of the lab’s ledger, from elsewhere than the package')
    .action((at: string, options: { key?: string }) =>
      end(async () => {
        const { checkCommand } = await import('./commands/check.js');
        return checkCommand(at, options);
      }),
    );

  program
    .command('verify')
    .description('is a document as the lab signed it? Signature, data, ledger and checkpoint, offline')
    .argument('<document...>', 'PDFs that a lab handed out')
    .option('--keys <place>', 'the public keys of the lab: a file, or the address of its service')
    .option('--save-keys <file>', 'where keys that were fetched are kept for the next time')
    .option('--checkpoint <file>', 'a signed checkpoint that was kept where the lab cannot reach it')
    .option('--proof <file>', 'the proof that the entry of the document is under it, as the service answers it')
    .option('--json', 'what was found as JSON')
    .action((documents: string[], options: VerifyOptions) =>
      end(async () => {
        const { verifyCommand } = await import('./commands/verify.js');
        return verifyCommand(documents, options);
      }),
    );

  program
    .command('old-results')
    .description('a table of results of earlier days: what would be stored, then sent to the service')
    .argument('<table>', 'a CSV table, as docs/formats.md describes it')
    .option('--dry-run', 'show what would be stored, and send nothing')
    .option('--note <text>', 'where the table comes from')
    .option('--person <name>', 'in whose name it is sent; the passphrase is read from standard input')
    .option('--code <digits>', 'what that person’s code generator shows, where they have one')
    .option('--lab <lab>', 'which lab, where the service has several')
    .option('--service <address>', 'where the service is', 'http://127.0.0.1:8080')
    .action((file: string, options: OldResultsOptions) =>
      end(async () => {
        const { oldResultsCommand } = await import('./commands/old-results.js');
        return oldResultsCommand(file, options);
      }),
    );

  program
    .command('plan')
    .description('before anything is broken: what each test would need and risk, or what n specimens can show')
    .argument('[file]', 'the whole question as JSON, as docs/planning.md describes it; with --template, what fills it')
    .option('--n <specimens>', 'the other way round: what can so many specimens show?')
    .option('--limit <number>', 'strength must be at least this')
    .option('--unit <code>', 'unit of the limit and of the mean, such as kPa')
    .option('--coverage <fraction>', 'share of the population that must hold the limit', '0.9')
    .option('--confidence <fraction>', 'how surely', '0.95')
    .option('--lot-size <units>', 'the claim is about one lot of so many; else about the process')
    .option('--mean <number>', 'mean strength expected')
    .option('--cv <fraction>', 'standard deviation over mean expected')
    .option('--power <fraction>', 'chance with which a good lot is to pass; else 0.8')
    .option('--good <fraction>', 'share of a good lot below the limit; else what mean and scatter come to')
    .option('--bad <fraction>', 'share of a bad lot below the limit; else what the claim denies')
    .option('--stages <numbers>', 'specimens each stage adds; else 5,5')
    .option('--distribution <name>', 'normal, lognormal or weibull, for the stages; else weibull')
    .option('--load-ratio <number>', 'load of the test over the limit, for a demonstration above it')
    .option('--shape <number>', 'lowest plausible Weibull shape, for a load above the limit')
    .option('--shape-source <text>', 'where that shape comes from')
    .option('--per-specimen <number>', 'what a specimen costs')
    .option('--currency <text>', 'in which money')
    .option('--rig-hours <number>', 'rig hours of a run')
    .option('--template <name>', 'the draft of a plan: burst, "brake heat" or impact')
    .option(
      '--risks <plan>',
      'what a plan risks: a lot folder, or its plan.json with methods.json and limits.json beside it',
    )
    .option('--json', 'everything, curves included, as JSON')
    .action((file: string | undefined, options: PlanOptions) =>
      end(async () => {
        const { planCommand } = await import('./commands/plan.js');
        return planCommand(file, options);
      }),
    );

  program
    .command('compute')
    .description('one JSON object in, one out; or one per line. Without an argument it reads standard input')
    .argument('[request]', 'such as \'{"method":"zero-failure-size","reliability":0.9,"confidence":0.95}\'')
    .option('--list', 'every method with its inputs, units, assumptions and source')
    .option('--schema', 'the JSON Schema of all inputs')
    .action((request: string | undefined, options: { list?: boolean; schema?: boolean }) =>
      end(async () => {
        const { computeCommand } = await import('./commands/compute.js');
        return computeCommand(request, options);
      }),
    );

  return program;
}
