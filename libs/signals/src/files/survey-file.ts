import type { Layout, MethodChannel, Problem } from '@breakbook/lab';
import type { FileBounds } from './file-bounds.js';
import { type Column, expectationOf } from './header.js';
import { metadataNeeded } from './metadata.js';
import { readPieces } from './read-pieces.js';
import type { OnBlock } from './rows.js';
import { inSeconds } from './time-stamps.js';
import type { Pieces } from './unpacked-pieces.js';

/** What stands in one column of a file, in the unit of its header, by the sign and scale of the file. */
export interface SurveyedColumn {
  column: number;
  name: string;
  unit: string;
  /** The channel that the layout gives it; none for the time and for what the file keeps for itself. */
  channel?: string;
  /** Rows with a reading. */
  readings: number;
  /** Not there where no row has a reading. */
  smallest?: number;
  largest?: number;
}

/** A run file read from end to end by a layout, without a number of it being held. */
export interface FileSurvey {
  bytes: number;
  sha256: string;
  rows: number;
  columns: SurveyedColumn[];
  flags: Problem[];
}

/**
 * What does a layout read from this file? Every row is read and checked as for a run, in the same memory however long the
 * file is. Without the channels of a method, units are held against their codes alone. Throws a `Refusal`.
 */
export async function surveyFile(
  name: string,
  pieces: Pieces,
  layout: Layout,
  options: {
    channels?: readonly MethodChannel[];
    bounds?: Partial<FileBounds>;
    /** Takes the rows too, as numbers in the units of the file. */
    onBlock?: OnBlock;
    onProgress?: (bytes: number) => void;
  } = {},
): Promise<FileSurvey> {
  const { channels = [], onBlock, ...others } = options;
  let extremes: Extremes[] | undefined;
  const read = await readPieces(name, pieces, expectationOf(layout, channels), {
    ...others,
    requiredMetadata: metadataNeeded(layout),
    onBlock: (block) => {
      extremes ??= block.map(() => new Extremes());
      for (const [index, values] of block.entries()) extremes[index]?.take(values);
      onBlock?.(block);
    },
  });
  const { bytes, sha256, rows, flags } = read;
  const extremesOf = ({ column, carries }: Column) => {
    const found = extremes?.[column - 1]?.found() ?? { readings: 0 };
    const { smallest, largest } = found;
    if (!('time' in carries) || smallest === undefined || largest === undefined) return found;
    // Times increase, so that the smallest is the first.
    const [begins, ends] = inSeconds(Float64Array.of(smallest, largest), layout.time);
    return { ...found, smallest: begins, largest: ends };
  };
  return {
    bytes,
    sha256,
    rows,
    flags,
    columns: read.columns.map((one) => {
      const { column, name: written, unit } = one;
      const channel = layout.columns.find((named) => named.column.normalize('NFC') === written)?.channel;
      return {
        column,
        name: written,
        unit,
        ...(channel === undefined ? {} : { channel }),
        ...extremesOf(one),
      };
    }),
  };
}

/** The smallest and the largest of many numbers that come in blocks; a row without a reading is none. */
class Extremes {
  private readings = 0;
  private smallest = Number.POSITIVE_INFINITY;
  private largest = Number.NEGATIVE_INFINITY;

  take(values: Float64Array): void {
    for (const value of values) {
      if (Number.isNaN(value)) continue;
      this.readings++;
      if (value < this.smallest) this.smallest = value;
      if (value > this.largest) this.largest = value;
    }
  }

  found(): Pick<SurveyedColumn, 'readings' | 'smallest' | 'largest'> {
    const { readings, smallest, largest } = this;
    return readings === 0 ? { readings } : { readings, smallest, largest };
  }
}
