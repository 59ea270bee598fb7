import type { CertificateRecord } from '../../client/answers.js';

/** Who was sent a certificate and has not been told how it stands now. */
export function notYetTold({ state, sent }: Pick<CertificateRecord, 'state' | 'sent'>): string[] {
  const last = new Map(sent.map(({ recipient, state: then }) => [recipient, then]));
  return [...last].filter(([, then]) => then !== state).map(([recipient]) => recipient);
}
