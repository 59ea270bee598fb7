/**
 * Reads one run file as a stream and prints what it took, as JSON: rows, what came of the last column (the proof that
 * every row was read), seconds of processor time, which a busy machine does not lengthen and the loading of the program
 * does not count in, and the most memory the process ever had. A process of its own for each reading, so that no reading
 * inherits the memory of the one before.
 *
 *   node tests/bench/read-file.mjs <file> rows|library|survey
 */
import fs from 'node:fs';

const [, , file, reader] = process.argv;
const PIECE = 2 ** 20;

function* piecesOf(name) {
  const handle = fs.openSync(name);
  try {
    for (;;) {
      const piece = Buffer.allocUnsafe(PIECE);
      const length = fs.readSync(handle, piece);
      if (length === 0) return;
      yield piece.subarray(0, length);
    }
  } finally {
    fs.closeSync(handle);
  }
}

/** Our reader: every row checked, lines counted, times compared. */
async function rows() {
  const { Layout1Reader } = await import('../../libs/signals/dist/files/layout-1.js');
  const { expectationOf } = await import('../../libs/signals/dist/files/header.js');
  begin();
  let sum = 0;
  const expectation = expectationOf({ time: { column: 'time', kind: 'time' }, columns: [] }, []);
  const bounds = { bytes: Number.MAX_SAFE_INTEGER, rows: Number.MAX_SAFE_INTEGER };
  const read = new Layout1Reader('bench.csv', expectation, {
    requiredMetadata: [],
    bounds,
    onBlock: (columns) => {
      for (const value of columns.at(-1)) sum += value;
    },
  });
  for (const piece of piecesOf(file)) read.take(piece);
  return { rows: read.end().rows, sum };
}

/** The library: the same file from its header on, each row as typed values, as its own manual streams a file. */
async function library() {
  const { inferSchema, initParser } = await import('udsv');
  begin();
  const decoder = new TextDecoder();
  let [parser, count, sum] = [undefined, 0, 0];
  const take = (row) => {
    count++;
    sum += row.at(-1);
  };
  for (const piece of piecesOf(file)) {
    const text = decoder.decode(piece, { stream: true });
    parser ??= initParser(inferSchema(text));
    parser.chunk(text, parser.typedArrs, take);
  }
  parser.end();
  return { rows: count, sum };
}

/** All of our reading of a file of any length, packed or not: digest, unpacking, every row checked, columns surveyed. */
async function survey() {
  const { surveyFile } = await import('../../libs/signals/dist/files/survey-file.js');
  begin();
  const layout = {
    layout: 'bench',
    revision: 1,
    rig: 'bench',
    form: 'layout 1',
    text: { gzipUpTo: 2 ** 31 },
    time: { column: 'time', kind: 'time' },
    columns: [],
    requiredMetadata: [],
    metadata: 'none',
  };
  const found = await surveyFile('bench.csv', fs.createReadStream(file, { highWaterMark: PIECE }), layout);
  return { rows: found.rows, largest: found.columns.at(-1).largest };
}

let start;
const begin = () => {
  start = process.cpuUsage();
};
const found = await { rows, library, survey }[reader]();
const { user, system } = process.cpuUsage(start);
const seconds = (user + system) / 1e6;
console.log(JSON.stringify({ ...found, seconds, bytes: mostMemory() }));

/** Bytes. Where the system tells it of the program alone: the other figure counts what the caller had when it began. */
function mostMemory() {
  const status = '/proc/self/status';
  const told = fs.existsSync(status) && /^VmHWM:\s+(\d+) kB$/m.exec(fs.readFileSync(status, 'utf8'));
  return 1024 * (told ? Number(told[1]) : process.resourceUsage().maxRSS);
}
