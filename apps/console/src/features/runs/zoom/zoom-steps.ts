/** Part of a record, in seconds. */
export interface Span {
  from: number;
  to: number;
}

/** What can be done to the part that is shown, in the order of its buttons. */
export const ZOOM_STEPS = ['closer', 'wider', 'earlier', 'later', 'all of it'] as const;
export type ZoomStep = (typeof ZOOM_STEPS)[number];

/** Closer and wider by this factor about the middle; earlier and later by half of what is shown. */
const FACTOR = 4;

/** Which part is shown after a step; never more than the record, and never beside it. */
export function stepped(step: ZoomStep, { from, to }: Span, record: Span): Span {
  const [middle, width] = [(from + to) / 2, to - from];
  switch (step) {
    case 'closer':
      return { from: middle - width / FACTOR / 2, to: middle + width / FACTOR / 2 };
    case 'wider':
      return kept({ from: middle - (FACTOR * width) / 2, to: middle + (FACTOR * width) / 2 }, record);
    case 'earlier':
      return kept({ from: from - width / 2, to: to - width / 2 }, record);
    case 'later':
      return kept({ from: from + width / 2, to: to + width / 2 }, record);
    case 'all of it':
      return record;
  }
}

/** So much of the record about one moment. */
export function about(moment: number, width: number, record: Span): Span {
  return kept({ from: moment - width / 2, to: moment + width / 2 }, record);
}

/** The same width moved into the record; all of the record where it is wider. */
function kept({ from, to }: Span, record: Span): Span {
  const width = to - from;
  if (width >= record.to - record.from) return record;
  if (from < record.from) return { from: record.from, to: record.from + width };
  return to > record.to ? { from: record.to - width, to: record.to } : { from, to };
}
