import { X509Certificate } from 'node:crypto';
import { z } from 'zod';

const At = z.iso.datetime({ precision: 3 });

/** One pair of keys that a lab signs documents with, public halves, and from when to when they were used. */
export const SigningKeys = z.strictObject({
  number: z.int().min(1),
  /** Of the key that signs files: its certificate first, then what it was issued by; PEM. */
  certificates: z.array(z.string().min(1)).min(1),
  /** Of the key that signs data: Ed25519, named by its thumbprint (RFC 7638). */
  data: z.strictObject({
    kty: z.literal('OKP'),
    crv: z.literal('Ed25519'),
    x: z.string().min(1),
    kid: z.string().min(1),
  }),
  from: At,
  /** Signed with until then: a later pair took its place. */
  until: At.optional(),
  /** Not to be trusted any more, whatever it signed and when. */
  revoked: z.strictObject({ at: At, because: z.string().min(1) }).optional(),
});
export type SigningKeys = z.infer<typeof SigningKeys>;

/** The public keys of a lab, as the service publishes them and `breakbook verify` is given them. */
export const KeyList = z.strictObject({
  form: z.literal(1),
  lab: z.strictObject({ id: z.string().min(1), name: z.string().min(1) }),
  keys: z.array(SigningKeys),
  /** Keys that sign checkpoints of the lab's ledger, each as one line (signed-note form). */
  ledger: z.array(z.string().min(1)),
});
export type KeyList = z.infer<typeof KeyList>;

/** The pair whose certificate this is; undefined for a stranger's. */
export function keysOfCertificate({ keys }: KeyList, certificate: X509Certificate): SigningKeys | undefined {
  return keys.find(({ certificates: [own = ''] }) => new X509Certificate(own).raw.equals(certificate.raw));
}

/** Why a pair of keys could not have signed at this instant, or may not be believed; undefined where it could. */
export function whyNotGood({ number, from, until, revoked }: SigningKeys, at: string): string | undefined {
  if (revoked) return `key ${number} was revoked on ${revoked.at}: ${revoked.because}`;
  if (at < from) return `key ${number} signs from ${from} on, and the document is of ${at}`;
  if (until !== undefined && at > until) return `key ${number} signed until ${until}, and the document is of ${at}`;
  return undefined;
}
