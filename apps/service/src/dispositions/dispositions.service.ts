import {
  DISPOSITION_STATES,
  Disposition,
  DispositionOutcome,
  DispositionSheet,
  mayMove,
  Paragraph,
  Refusal,
} from '@breakbook/lab';
import { type RawStore, Reader, Records, type Rows, tables } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { z } from 'zod';
import { RAW_STORE } from '../records/raw-store.token.js';
import { type Done, requireOther } from '../sign-in/forbidden-pairs.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { dispositionSheet, type SheetShown } from './disposition-sheet.js';
import { doneToRuns } from './done-to-lot.js';
import { answersOf, dispositionsOf } from './stored-dispositions.js';

const Shown = z.string().regex(/^[0-9a-f]{64}$/);

/** The sheet as it is to be shown, and the digest that a signature names. */
export const SheetAnswer = z.strictObject({ sheet: DispositionSheet, sha256: Shown });
export type SheetAnswer = z.infer<typeof SheetAnswer>;

/** A decision about a lot, signed by whoever sends it. */
export const NewDisposition = z.strictObject({
  outcome: DispositionOutcome,
  reason: Paragraph,
  /** Digest of the sheet that was shown. */
  shown: Shown,
  /** The disposition it replaces, where there is one. */
  replaces: z.number().int().min(1).optional(),
});
export type NewDisposition = z.infer<typeof NewDisposition>;

export const SecondSignature = z.strictObject({ shown: Shown });
export type SecondSignature = z.infer<typeof SecondSignature>;

/** A disposition with what each of its signers was shown. */
export const DispositionAnswer = Disposition.extend({ sheets: z.array(DispositionSheet) });
export type DispositionAnswer = z.infer<typeof DispositionAnswer>;

/** Dispositions: a lot accepted, accepted on concession or not accepted, signed over exactly what was shown. */
@Injectable()
export class DispositionsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
  ) {}

  /** One snapshot for all of it, so that what is shown never stood half before a change and half after. */
  sheet(labId: string, lotKey: string): Promise<SheetAnswer> {
    return this.records.read(labId).manager.transaction('REPEATABLE READ', async (manager) => {
      const { sheet, sha256 } = await dispositionSheet(new Reader(manager, labId), this.store, lotKey, new Date());
      return { sheet, sha256 };
    });
  }

  async ofLot(labId: string, lotKey: string): Promise<{ items: Disposition[] }> {
    const reader = this.records.read(labId);
    return { items: await dispositionsOf(reader, (await reader.named(tables.Lot, lotKey)).id) };
  }

  async one(labId: string, number: number): Promise<DispositionAnswer> {
    const reader = this.records.read(labId);
    const noun = await numbered(reader, number);
    const [answer] = await answersOf(reader, [noun]);
    if (!answer) throw new Error(`Disposition ${number} was found and has no answer.`);
    const signed = await reader.find(tables.DispositionSignature, { dispositionId: noun.id }, { position: 'asc' });
    return { ...answer, sheets: signed.map(({ content }) => content) };
  }

  /** Decides about a lot. Of any number who decide at once one does; the others hear what was decided. */
  decide(by: SignedInActor, lotKey: string, body: NewDisposition): Promise<DispositionAnswer> {
    return this.#signed(by, 'lot disposed of', body.reason, async (rows) => {
      const lot = await rows.named(tables.Lot, lotKey);
      const before = (await rows.find(tables.Disposition, { lotId: lot.id }, { number: 'asc' })).at(-1);
      await requireReplaces(rows, before, body.replaces, lotKey);
      const shown = await dispositionSheet(rows, this.store, lotKey, rows.at);
      requireOther(by, 'decide', `lot ${lotKey}`, await doneToRuns(rows, shown.runs));
      const deciders = requireSignable(shown, body.shown, body.outcome);
      const { id } = await rows.add(tables.Disposition, {
        lotId: lot.id,
        evaluationId: shown.evaluationId ?? '',
        outcome: body.outcome,
        deciders,
        reason: body.reason,
        replacesId: before?.id ?? null,
      });
      await sign(rows, { id, position: 1, shown, meaning: meaningOf(1, lotKey, body.outcome) });
      return rows.one(tables.Disposition, id);
    });
  }

  /** Signs what another has decided, where the decision needs two. */
  countersign(by: SignedInActor, number: number, body: SecondSignature): Promise<DispositionAnswer> {
    return this.#signed(by, 'disposition countersigned', undefined, async (rows) => {
      const noun = await numbered(rows, number);
      const lot = await rows.one(tables.Lot, noun.lotId);
      const [answer] = await answersOf(rows, [noun]);
      if (!answer) throw new Error(`Disposition ${number} was found and has no answer.`);
      if (!mayMove(DISPOSITION_STATES, 'countersign', answer.state))
        throw new Refusal({
          code: 'state.conflict',
          detail: `Disposition ${number} is ${answer.state}; it waits for no signature.`,
          action: 'Look at the lot as it stands.',
        });
      const shown = await dispositionSheet(rows, this.store, lot.key, rows.at);
      const signed = await rows.find(tables.DispositionSignature, { dispositionId: noun.id });
      const thing = `disposition ${number}`;
      requireOther(by, 'countersign', thing, [
        ...(await doneToRuns(rows, shown.runs)),
        ...signed.map(({ personId }): Done => ({ act: 'decide', personId, thing })),
      ]);
      requireSignable(shown, body.shown, noun.outcome);
      await sign(rows, { id: noun.id, position: 2, shown, meaning: meaningOf(2, lot.key, noun.outcome) });
      return noun;
    });
  }

  /** Nothing else of the lab changes between what is looked at here and the end of the change. */
  async #signed(
    by: SignedInActor,
    action: string,
    reason: string | undefined,
    work: (rows: Rows) => Promise<tables.Disposition>,
  ): Promise<DispositionAnswer> {
    const { number } = await this.records.change(by, action, reason, async (rows) => {
      await rows.lockLedger();
      return work(rows);
    });
    return this.one(by.labId, number);
  }
}

async function requireReplaces(
  reader: Reader,
  before: tables.Disposition | undefined,
  replaces: number | undefined,
  lot: string,
): Promise<void> {
  if (before?.number === replaces) return;
  if (before === undefined)
    throw new Refusal({
      code: 'body.not-found',
      pointer: '/replaces',
      found: `${replaces}`,
      detail: `/replaces: nothing was decided about lot ${lot} yet. Leave it out.`,
    });
  const [answer] = await answersOf(reader, [before]);
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/replaces',
    detail: `Lot ${lot} was ${before.outcome} by disposition ${before.number} already, which ${answer?.state === 'in force' ? 'is in force' : answer?.state}.`,
    action: `Look at it. Where it is to be decided anew, name it in "replaces", with the reason.`,
  });
}

/** How many must sign; refused where another sheet was shown, something is missing, or this outcome cannot be given. */
function requireSignable({ sheet, sha256 }: SheetShown, shown: string, outcome: DispositionOutcome): number {
  if (shown !== sha256)
    throw new Refusal({
      code: 'version.stale',
      pointer: '/shown',
      detail: `Lot ${sheet.lot} is not as it was when it was shown: something was recorded, opened, closed or signed since.`,
      action: 'Read the sheet again as it is now, and sign that, if you still would.',
    });
  if (sheet.missing.length > 0)
    throw new Refusal(
      sheet.missing.map(({ what, action }) => ({ code: 'state.conflict' as const, detail: what, action })),
    );
  const offered = sheet.outcomes.find((one) => one.outcome === outcome);
  if (offered?.possible) return offered.deciders;
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/outcome',
    found: outcome,
    detail: `Lot ${sheet.lot} cannot be ${outcome}: ${offered?.because ?? 'it was never evaluated'}.`,
    action: `It can be ${sheet.outcomes
      .filter(({ possible }) => possible)
      .map((one) => one.outcome)
      .join(' or ')}.`,
  });
}

async function sign(
  rows: Rows,
  given: { id: string; position: 1 | 2; shown: SheetShown; meaning: string },
): Promise<void> {
  const { name, role } = (await rows.latest(tables.PersonVersion, rows.by.personId)).content;
  await rows.add(tables.DispositionSignature, {
    dispositionId: given.id,
    position: given.position,
    name,
    role,
    meaning: given.meaning,
    shown: given.shown.sha256,
    content: given.shown.sheet,
  });
}

function meaningOf(position: 1 | 2, lot: string, outcome: DispositionOutcome): string {
  return `I answer${position === 2 ? ', as second decider,' : ''} for the decision that lot ${lot} is ${outcome}.`;
}

async function numbered(reader: Reader, number: number): Promise<tables.Disposition> {
  return (await reader.maybe(tables.Disposition, { number })) ?? reader.one(tables.Disposition, `${number}`);
}
