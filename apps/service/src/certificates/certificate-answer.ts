import { CertificateState, Instant, Key, Paragraph } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { peopleBehind } from '../records/read-kind.js';

const At = z.strictObject({ by: Key, at: Instant });

export const CertificateAnswer = z.strictObject({
  number: z.number().int(),
  /** The number printed on it. */
  certificate: z.string(),
  lot: Key,
  disposition: z.number().int(),
  document: z.number().int(),
  state: CertificateState,
  issued: At,
  /** What became of it, the first first. */
  history: z.array(At.extend({ state: CertificateState, reason: Paragraph.optional() })),
  replacedBy: z.number().int().optional(),
  /** Who was sent it, as it stood then, or told what became of it. */
  sent: z.array(At.extend({ state: CertificateState, recipient: z.string(), way: z.string() })),
  /** Where anybody who has the paper can ask for its status. */
  statusPath: z.string(),
});
export type CertificateAnswer = z.infer<typeof CertificateAnswer>;

/** A certificate as it stands, with what became of it and who was told. */
export async function certificateAnswer(reader: Reader, one: tables.Certificate): Promise<CertificateAnswer> {
  const versions = await reader.history(tables.CertificateVersion, one.id);
  const sendings = await reader.find(tables.CertificateSending, { certificateId: one.id }, { id: 'asc' });
  const people = await peopleBehind(reader, [one, ...versions, ...sendings]);
  const at = ({ personId, at: when }: { personId: string; at: Date }) => ({
    by: people.get(personId) ?? '',
    at: when.toISOString(),
  });
  const last = versions.at(-1);
  const replacedBy = last?.replacedById ? await reader.one(tables.Certificate, last.replacedById) : undefined;
  return {
    number: one.number,
    certificate: certificateNumber(one),
    lot: (await reader.one(tables.Lot, one.lotId)).key,
    disposition: (await reader.one(tables.Disposition, one.dispositionId)).number,
    document: (await reader.one(tables.Document, one.documentId)).number,
    state: last?.state ?? 'in force',
    issued: at(one),
    history: versions.map(({ state, reason, ...row }) => ({
      ...at(row),
      state,
      ...(reason === null ? {} : { reason }),
    })),
    ...(replacedBy ? { replacedBy: replacedBy.number } : {}),
    sent: sendings.map(({ state, recipient, way, ...row }) => ({ ...at(row), state, recipient, way })),
    statusPath: statusPath(one),
  };
}

/** The number printed on a certificate. */
export function certificateNumber({ number }: Pick<tables.Certificate, 'number'>): string {
  return `CT-${number}`;
}

export function statusPath({ token }: Pick<tables.Certificate, 'token'>): string {
  return `/c/${token}`;
}
