import { hasControlCharacter, type Layout } from '@breakbook/lab';
import { folded } from './nearest-name.js';
import type { ProblemList } from './problem-list.js';

export interface MetadataEntry {
  key: string;
  /** Letter by letter as written, without blanks at either end. */
  value: string;
  line: number;
}

/** What must stand above the header of every file that carries metadata. */
const ALWAYS_NEEDED = ['specimen', 'rig', 'started'];

/** The metadata that files of this layout must have. */
export function metadataNeeded({
  metadata,
  requiredMetadata,
}: Pick<Layout, 'metadata' | 'requiredMetadata'>): readonly string[] {
  return metadata === 'none' ? [] : [...ALWAYS_NEEDED, ...requiredMetadata];
}

const MOST_LINES = 100;
const LONGEST_KEY = 60;
const LONGEST_VALUE = 1000;

/** The `# key: value` lines of one file. */
export class Metadata {
  private readonly entries = new Map<string, MetadataEntry>();
  private lines = 0;

  get(key: string): MetadataEntry | undefined {
    return this.entries.get(folded(key));
  }

  /** `mark` is what a line of metadata begins with. */
  constructor(private readonly mark: string) {}

  /** Takes one line that begins with the mark. */
  take(text: string, line: number, problems: ProblemList): void {
    const { mark } = this;
    this.lines++;
    if (this.lines > MOST_LINES) {
      if (this.lines === MOST_LINES + 1)
        problems.add('meta.too-many', { line }, () => ({
          sentence: `more than ${MOST_LINES} metadata lines.`,
          expected: `at most ${MOST_LINES} lines that begin with ${mark}`,
          action: 'Leave out what the run does not need.',
        }));
      return;
    }

    const [, key = '', value = ''] = /^\s*([^:]*?)\s*:\s*(.*?)\s*$/s.exec(text.slice(mark.length)) ?? [];
    const fault = faultOf(text, mark, key, value);
    const before = this.entries.get(folded(key));
    if (fault)
      problems.add('meta.text-invalid', { line }, () => ({
        sentence: fault,
        found: text,
        expected: `${mark} key: value`,
        action: 'Correct this line and send the file again.',
      }));
    else if (before)
      problems.add('meta.duplicate', { line }, () => ({
        sentence: `"${key}" stands in line ${before.line} already, and neither is preferred.`,
        found: text,
        action: 'Leave one of the two lines.',
      }));
    else this.entries.set(folded(key), { key, value, line });
  }

  /** Every one of these must be there. */
  require(keys: readonly string[], problems: ProblemList): void {
    for (const key of keys)
      if (!this.get(key))
        problems.add('meta.missing', {}, () => ({
          sentence: `the metadata line "${this.mark} ${key}: ..." is missing.`,
          expected: `${this.mark} ${key}: value, before the header`,
          action: 'Add the line and send the file again.',
        }));
  }
}

function faultOf(text: string, mark: string, key: string, value: string): string | undefined {
  if (hasControlCharacter(text)) return 'a control character or line separator stands in this metadata line.';
  if (key === '') return `a line that begins with ${mark} is metadata, and this one has no key.`;
  if (value === '') return `"${key.slice(0, LONGEST_KEY)}" has no value.`;
  if (key.length > LONGEST_KEY) return `the key is longer than ${LONGEST_KEY} characters.`;
  if (value.length > LONGEST_VALUE) return `the value is longer than ${LONGEST_VALUE} characters.`;
  return undefined;
}
