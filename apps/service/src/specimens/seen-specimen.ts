import { Origin, Specimen } from '@breakbook/lab';
import { z } from 'zod';
import { HIDDEN } from '../comparisons/blinds.js';

/** A specimen as it is shown: to whoever examines it blind its origin is not told, before conclusions are locked. */
export const SeenSpecimen = z.strictObject({
  ...Specimen.shape,
  origin: z.union([Origin, z.literal(HIDDEN)]),
});
export type SeenSpecimen = z.infer<typeof SeenSpecimen>;

/** What is said of specimens as somebody sees it from whom these are hidden: nothing that tells which is which. */
export function seenBy<T extends { content: Specimen }>(
  hidden: ReadonlySet<string>,
  kept: readonly T[],
): (Omit<T, 'content'> & { content: SeenSpecimen })[] {
  return kept.map((one) => ({ ...one, content: hidden.has(one.content.specimen) ? veiled(one.content) : one.content }));
}

function veiled({ build, serial: _serial, noSerialReason: _reason, ...specimen }: Specimen): SeenSpecimen {
  return {
    ...specimen,
    serial: HIDDEN,
    origin: HIDDEN,
    condition: HIDDEN,
    ...(build === undefined ? {} : { build: {} }),
  };
}
