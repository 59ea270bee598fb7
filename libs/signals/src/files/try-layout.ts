import { type Layout, type MethodChannel, type Problem, Refusal } from '@breakbook/lab';
import type { FileBounds } from './file-bounds.js';
import { type FileSurvey, surveyFile } from './survey-file.js';
import { inSeconds } from './time-stamps.js';
import type { Pieces } from './unpacked-pieces.js';

/** What a layout would make of a file: all of it read, or all that stands against it. */
export type LayoutTrial =
  | (FileSurvey & {
      read: true;
      /**
       * The first rows as they would be read, column by column: stamps and sample numbers in seconds, all else in the unit
       * of its column and channels by their scale; null without a reading.
       */
      first: (number | null)[][];
    })
  | { read: false; problems: Problem[]; problemCount: number };

const FIRST_ROWS = 12;

/**
 * What would this layout read from this file? Nothing is thrown for what is wrong with the file: it is the answer, with
 * line and column. Units are held against the kinds of the channels given.
 */
export async function tryLayout(
  name: string,
  pieces: Pieces,
  layout: Layout,
  options: { channels?: readonly MethodChannel[]; bounds?: Partial<FileBounds> } = {},
): Promise<LayoutTrial> {
  let start: Float64Array[] | undefined;
  try {
    const survey = await surveyFile(name, pieces, layout, {
      ...options,
      onBlock: (block) => {
        start ??= block.map((values) => values.slice(0, FIRST_ROWS));
      },
    });
    const columns = survey.columns.map(({ column, name: written, channel }) => {
      const values = start?.[column - 1] ?? new Float64Array(0);
      if (written === layout.time.column.normalize('NFC')) return inSeconds(values, layout.time);
      const scale = layout.columns.find((one) => one.channel === channel)?.scale ?? 1;
      return values.map((value) => scale * value);
    });
    return { ...survey, read: true, first: columns.map((values) => Array.from(values, readingOf)) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { read: false, problems: error.problems, problemCount: error.problemCount };
  }
}

function readingOf(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
