/**
 * How long a report takes to lay out: against the same marks drawn by the PDF library alone, and as the lot grows. Each size
 * has a process of its own, so that its memory is its own.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { composeDocument } from '@breakbook/reports';
import PDFDocument from 'pdfkit';
import { inventedContent } from '../../libs/reports/dist/fixtures/invented-lot.js';

const TIMES = 7;
/** So many specimens make a report of some ten pages. */
const TEN_PAGES = 6;

const self = fileURLToPath(import.meta.url);
if (process.argv[1] === self) console.log(JSON.stringify(await measured(Number(process.argv[2]))));

/** Prints both tables; `sizes` are how many specimens a lot has. */
export async function benchDocuments(sizes) {
  console.log('\n| a report of a lot of | pages | ms | reports a second | ms a page | kB | most memory, MB |');
  console.log('| --- | --- | --- | --- | --- | --- | --- |');
  for (const size of sizes) {
    const { stdout, stderr, status } = spawnSync(process.execPath, [self, String(size)], { encoding: 'utf8' });
    if (status !== 0) throw new Error(stderr);
    const { pages, ms, bytes, memory } = JSON.parse(stdout);
    console.log(
      `| ${size} | ${pages} | ${ms.toFixed(0)} | ${(1000 / ms).toFixed(1)} | ${(ms / pages).toFixed(1)} | ${(bytes / 1000).toFixed(0)} | ${memory.toFixed(0)} |`,
    );
  }

  const content = inventedContent({ specimens: TEN_PAGES });
  const calls = [];
  await recorded(calls, () => composeDocument('lot test report', content));
  const [whole, bare] = [[], []];
  for (let time = 0; time <= TIMES; time++) {
    whole.push(await timed(() => composeDocument('lot test report', content)));
    bare.push(await timed(() => drawnAgain(calls)));
  }
  const [ours, library] = [whole, bare].map((all) => median(all.slice(1)));
  const pages = calls.filter(([name]) => name === 'addPage').length;
  console.log(
    `\nA report of ${pages} pages with tags, bookmarks and attached data takes ${ours.toFixed(0)} ms; its ${calls.length} drawing calls alone, in the same run, ${library.toFixed(0)} ms: ${(ours / library).toFixed(2)} times.`,
  );
}

async function measured(specimens) {
  const content = inventedContent({ specimens });
  const warm = specimens < 100 ? await composeDocument('lot test report', content) : undefined;
  const began = performance.now();
  const bytes = await composeDocument('lot test report', content);
  const ms = performance.now() - began;
  if (warm && Buffer.compare(warm, bytes) !== 0) throw new Error('The same content gave other bytes.');
  const pages =
    Buffer.from(bytes)
      .toString('latin1')
      .match(/\/Type \/Page\b/g)?.length ?? 0;
  return { pages, ms, bytes: bytes.length, memory: process.resourceUsage().maxRSS / 1024 };
}

/** Calls that draw nothing: tags, measuring, and what surrounds the pages. */
const NO_MARK =
  /^(struct|addStructure|mark|endMarked|createStruct|getStruct|init|end|file|appendXML|outline|ref|widthOf|heightOf|current|on|once|emit|pipe|push|read|_|addNamed|goTo|bufferedPageRange|flush|getMarkings)/i;

/** Runs `work` and keeps what is asked of the library's document, in order; what it asks of itself is left out. */
async function recorded(calls, work) {
  const { prototype } = PDFDocument;
  const names = Object.getOwnPropertyNames(prototype).filter(
    (name) => name !== 'constructor' && typeof Object.getOwnPropertyDescriptor(prototype, name).value === 'function',
  );
  const kept = names.map((name) => [name, prototype[name]]);
  let depth = 0;
  for (const [name, original] of kept)
    prototype[name] = function (...given) {
      // Pieces of pages are drawn while their tag is added.
      if (name === 'addStructure') return original.apply(this, given);
      if (depth === 0 && !NO_MARK.test(name)) calls.push([name, given]);
      depth++;
      try {
        return original.apply(this, given);
      } finally {
        depth--;
      }
    };
  try {
    await work();
  } finally {
    for (const [name, original] of kept) prototype[name] = original;
  }
}

function drawnAgain(calls) {
  const [, font] = calls.find(([name]) => name === 'font');
  const document = new PDFDocument({ autoFirstPage: false, bufferPages: true, margin: 0, font: font[0] });
  const ended = new Promise((resolve, reject) => {
    const pieces = [];
    document.on('data', (piece) => pieces.push(piece));
    document.on('end', () => resolve(Buffer.concat(pieces)));
    document.on('error', reject);
  });
  for (const [name, given] of calls) document[name](...given);
  document.end();
  return ended;
}

async function timed(work) {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

function median(values) {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}
