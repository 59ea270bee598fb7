import { DisposalObstacle, Key, Origin, SPECIMEN_STATES } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';
import { acceptance } from '../arithmetic.js';
import { HIDDEN } from '../comparisons/blinds.js';
import { dispositionsOf } from '../dispositions/stored-dispositions.js';
import { nonconformitiesOf } from '../nonconformities/of-lot.js';
import { openFlagsOf } from '../safety-flags/flags-of.js';
import { fatesOf } from '../specimens/specimen-fate.js';

/** Whether the remnants of a specimen may be disposed of, and from when. */
export const KeepingOfSpecimen = z.strictObject({
  specimen: Key,
  lot: Key,
  origin: z.union([Origin, z.literal(HIDDEN)]),
  state: z.enum(SPECIMEN_STATES.states),
  /** The last day on which it must be there; left out where nobody has said one. */
  keptUntil: z.string().optional(),
  /** Whether that day was said of the specimen itself or of its lot. */
  saidOf: z.enum(['specimen', 'lot']).optional(),
  /** Legal holds in force on it. */
  holds: z.array(z.number().int()),
  /** Empty where it may be disposed of today. */
  obstacles: z.array(DisposalObstacle),
});
export type KeepingOfSpecimen = z.infer<typeof KeepingOfSpecimen>;

/** The same as somebody sees it from whom these are hidden. */
export function keepingSeen(hidden: ReadonlySet<string>, items: readonly KeepingOfSpecimen[]): KeepingOfSpecimen[] {
  return items.map((one) => (hidden.has(one.specimen) ? { ...one, origin: HIDDEN } : one));
}

/** The same for many specimens, in their order, on a day in the lab's zone. */
export async function keepingOf(
  reader: Reader,
  specimens: readonly tables.Specimen[],
  today: string,
): Promise<(KeepingOfSpecimen & { origin: Origin })[]> {
  const { disposalObstacles } = await acceptance();
  const ids = specimens.map(({ id }) => id);
  const lotIds = [...new Set(specimens.map(({ lotId }) => lotId))];
  const lots = new Map((await reader.find(tables.Lot, { id: In(lotIds) })).map((lot) => [lot.id, lot]));
  const around = new Map<string, Awaited<ReturnType<typeof aroundLot>>>();
  for (const lotId of lotIds) around.set(lotId, await aroundLot(reader, lotId));
  const ofLots = await reader.latestOf(tables.LotKeeping, lotIds);
  const own = await reader.latestOf(tables.SpecimenKeeping, ids);
  const contents = await reader.latestOf(tables.SpecimenVersion, ids);
  const fates = await fatesOf(reader, ids);
  return specimens.flatMap(({ id, key, lotId }) => {
    const lot = lots.get(lotId)?.key ?? '';
    const fate = fates.get(id);
    const origin = contents.get(id)?.content.origin;
    const stands = around.get(lotId);
    if (!fate || !origin || !stands) return [];
    const keptUntil = own.get(id)?.until ?? ofLots.get(lotId)?.remnantsUntil;
    const holds = fate.holds ?? [];
    return {
      specimen: key,
      lot,
      origin,
      state: fate.state,
      ...(keptUntil === undefined ? {} : { keptUntil, saidOf: own.has(id) ? ('specimen' as const) : ('lot' as const) }),
      holds,
      obstacles: disposalObstacles({ specimen: key, lot, holds, keepUntil: keptUntil, today, ...stands }),
    };
  });
}

async function aroundLot(reader: Reader, lotId: string) {
  const nonconformities = await nonconformitiesOf(reader, lotId);
  return {
    openNonconformities: nonconformities.flatMap(({ noun, version }) => (version.state === 'open' ? noun.number : [])),
    openSafetyFlags: await openFlagsOf(reader, lotId),
    decided: (await dispositionsOf(reader, lotId)).some(({ state }) => state === 'in force'),
  };
}
