import { isAllowed, LOT_STATES, type LotState, Refusal, requireMove } from '@breakbook/lab';
import { type Reader, type Rows, tables } from '@breakbook/records';

/** Is this lot closed to further specimens and runs? */
export async function isClosed(reader: Reader, lotId: string): Promise<boolean> {
  return (await reader.latestOf(tables.LotClosing, [lotId])).get(lotId)?.closed ?? false;
}

async function stateOf(reader: Reader, lot: tables.Lot): Promise<LotState> {
  return (await isClosed(reader, lot.id)) ? 'closed' : 'open';
}

type TakenByLot = keyof typeof LOT_STATES.allows;

/** Refuses what the lot does not take as it stands. */
export async function refuseClosed(reader: Reader, lot: tables.Lot, act: TakenByLot, pointer?: string): Promise<void> {
  if (isAllowed(LOT_STATES, act, await stateOf(reader, lot))) return;
  throw new Refusal({
    code: 'state.conflict',
    ...(pointer === undefined ? {} : { pointer }),
    detail: `Lot ${lot.key} is closed: it takes no further specimen and no further run.`,
    action: `Check the lot, or have lot ${lot.key} opened again, with the reason.`,
  });
}

/** The same in a change, which then keeps the lot as it is until it ends. */
export async function requireOpen(rows: Rows, lot: tables.Lot, act: TakenByLot, pointer?: string): Promise<void> {
  await rows.lock(tables.LotClosing, lot.id);
  await refuseClosed(rows, lot, act, pointer);
}

/** Closes a lot, or opens it again; the change says why. */
export async function setClosed(rows: Rows, lotKey: string, closed: boolean): Promise<tables.LotClosing> {
  const lot = await rows.named(tables.Lot, lotKey);
  await rows.lock(tables.LotClosing, lot.id);
  requireMove(LOT_STATES, closed ? 'close' : 'open again', await stateOf(rows, lot), `lot ${lotKey}`);
  return rows.addVersion(tables.LotClosing, lot.id, { closed });
}
