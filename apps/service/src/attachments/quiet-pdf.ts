import { inflateSync } from 'node:zlib';
import { Refusal } from '@breakbook/lab';

/** What makes a PDF act, or carry something else in it. Source: ISO 32000-1, 12.6, 7.11.4, 12.7.8, 13. */
const ACTIVE =
  /\/(JavaScript|OpenAction|Launch|EmbeddedFiles?|RichMedia|SubmitForm|ImportData|GoToE|GoToR|Rendition|Encrypt)(?![A-Za-z])/;
/** Names so short that they stand by chance in packed bytes, so that they are looked for outside those alone. */
const SHORT = /\/(JS|AA|XFA|Movie|Sound)(?![A-Za-z])/;
/** A stream unpacks to no more than this, and all of them together to no more than that. */
const LONGEST_STREAM = 16 * 1024 * 1024;
const MOST_UNPACKED = 128 * 1024 * 1024;

/**
 * Is this a PDF that does nothing? Looks for the names of actions in the file and in its unpacked streams, where newer
 * files keep their objects. Undefined where the bytes begin otherwise; a PDF that acts, or that cannot be looked into, is
 * refused: what is evidence must not change with the program that shows it.
 */
export function quietPdfIn(bytes: Buffer): true | undefined {
  if (bytes.toString('latin1', 0, 5) !== '%PDF-') return undefined;
  const text = bytes.toString('latin1');
  const end = text.lastIndexOf('%%EOF');
  if (end < 0 || text.slice(end + 5).trim() !== '')
    throw new Refusal({
      code: 'file.truncated',
      detail: 'The PDF does not end where it says. Part of it is missing, or something else was added to it.',
      action: 'Send the file again as it was made.',
    });
  refuseActive(text, ACTIVE);
  refuseActive(text.replaceAll(/(?<!end)stream\r?\n.*?endstream/gs, ''), SHORT);
  let unpacked = 0;
  for (const [, dictionary = '', at] of streamsOf(text)) {
    if (!/\/(FlateDecode|Fl)\b/.test(dictionary)) {
      if (/\/ObjStm/.test(withoutEscapes(dictionary))) throw shut();
      continue;
    }
    const content = inflated(bytes.subarray(at));
    if (content === undefined && /\/ObjStm/.test(withoutEscapes(dictionary))) throw shut();
    unpacked += content?.length ?? 0;
    if (unpacked > MOST_UNPACKED) throw shut();
    if (content && /\/ObjStm/.test(withoutEscapes(dictionary)))
      for (const names of [ACTIVE, SHORT]) refuseActive(content.toString('latin1'), names);
  }
  return true;
}

/** Every stream with the dictionary before it and where its bytes begin. */
function* streamsOf(text: string): Generator<[whole: string, dictionary: string, at: number]> {
  for (const match of text.matchAll(/(?<!end)stream\r?\n/g)) {
    const begins = text.lastIndexOf(' obj', match.index);
    yield [match[0], text.slice(Math.max(begins, match.index - 4096), match.index), match.index + match[0].length];
  }
}

function inflated(bytes: Buffer): Buffer | undefined {
  try {
    return inflateSync(bytes, { maxOutputLength: LONGEST_STREAM });
  } catch {
    return undefined;
  }
}

function refuseActive(text: string, names: RegExp): void {
  const [, name] = names.exec(withoutEscapes(text)) ?? [];
  if (name === undefined) return;
  throw new Refusal({
    code: 'file.type-mismatch',
    detail: `The PDF holds /${name}: it acts by itself, is locked, or has other files in it.`,
    expected: 'a PDF that shows pages and does nothing',
    action: 'Print it to a new PDF and send that.',
  });
}

/** A name may have any of its letters as # and two digits. */
function withoutEscapes(text: string): string {
  return text.replaceAll(/#([0-9a-fA-F]{2})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));
}

function shut(): Refusal {
  return new Refusal({
    code: 'file.type-mismatch',
    detail: 'The PDF keeps its objects where they cannot be looked into, so it cannot be said that it does nothing.',
    action: 'Print it to a new PDF and send that.',
  });
}
