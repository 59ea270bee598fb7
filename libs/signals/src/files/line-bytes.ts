import { hasControlCharacter, type ProblemCode } from '@breakbook/lab';
import type { Said } from './problem-list.js';

export type Fault = { code: ProblemCode; said: Said };

/** What is wrong with the bytes of a line, before anything is read from them; its text where nothing is. */
export function textOfLine(line: Uint8Array, options: { cut?: boolean } = {}): { text: string } | Fault {
  if (line.includes(0))
    return fault(
      'file.nul-byte',
      'a zero byte stands here; a file cut by a power failure often ends in them.',
      'Look for the whole record on the logger. A record that ends in zero bytes is kept unread, not repaired.',
    );
  if (line.includes(13))
    return fault(
      'csv.line-ending',
      'a carriage return stands alone; lines end with LF or CR LF.',
      'Export with line ends LF or CR LF and send the file again, or have a layout that says CR read the unread file.',
    );
  try {
    // A decoder of its own: one that threw in the middle of a stream would carry bytes into the next line.
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(line, {
      stream: options.cut ?? false,
    });
    return { text };
  } catch {
    return fault(
      'file.encoding',
      'these bytes are not UTF-8, and none is replaced.',
      'Export as UTF-8 and send the file again, or have a layout that names the encoding read the unread file.',
    );
  }
}

/** Control characters but TAB, where no number or name may hold them. */
export function controlFault(text: string): Fault | undefined {
  if (!hasControlCharacter(text)) return undefined;
  return {
    code: 'file.control-char',
    said: {
      sentence: 'a control character or line separator stands here.',
      found: text,
      action: 'Find out how it came into the record; export again without it.',
    },
  };
}

function fault(code: ProblemCode, sentence: string, action: string): Fault {
  return { code, said: { sentence, action } };
}
