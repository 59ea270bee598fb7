import type { MethodChannel } from '@breakbook/lab';

/** A channel as its file wrote it, before any correction: what looks at digits and noise looks here. */
export interface ChannelRecord {
  channel: string;
  kind: MethodChannel['kind'];
  unit: string;
  indicated: Float64Array;
  /** What sensor and amplifier can show, in the unit of the file; undefined where it is not known. */
  fullScale: number | undefined;
}

/** The stretch over which a channel follows what is done to the part; both ends are counted in. */
export interface Loaded {
  from: number;
  last: number;
}

/** What shares of a channel are taken of: its full scale, or its largest reading where that is not known. */
export function scaleOf({ fullScale, indicated }: ChannelRecord): number {
  if (fullScale !== undefined && fullScale !== 0) return Math.abs(fullScale);
  let largest = 0;
  for (const value of indicated) if (Math.abs(value) > largest) largest = Math.abs(value);
  return largest;
}
