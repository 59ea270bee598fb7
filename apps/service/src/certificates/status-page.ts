import type { CertificateStatus } from './status.controller.js';

/** What each state means for whoever holds the paper. */
const MEANS: Record<CertificateStatus['state'], string> = {
  'in force': 'The lab stands by this certificate.',
  'on hold': 'The lab is looking into something and does not stand by this certificate for now.',
  superseded: 'Another certificate has taken its place; do not rely on this one.',
  withdrawn: 'The lab has taken this certificate back; do not rely on it.',
};

/** A page without scripts or pictures; undefined where there is no such certificate. */
export function statusPage(status: CertificateStatus | undefined): string {
  if (!status)
    return sheet(
      'No certificate of this code',
      '<h1>There is no certificate of this code</h1><p>Compare the address with the one printed on the paper, or ask the lab that is named there. A paper whose code leads nowhere is not shown to be genuine by anything on it.</p>',
    );
  const { certificate, lab, product, lot, issuedAt, sha256, state, since, reason, replacedBy, askedAt } = status;
  const rows: [string, string][] = [
    ['Certificate of test', certificate],
    ['Issued by', lab],
    ['Product', product],
    ['Lot', lot],
    ['Issued', issuedAt],
    [`${state[0]?.toUpperCase()}${state.slice(1)} since`, since],
    ...(reason === undefined ? [] : [['Reason', reason] as [string, string]]),
    ...(replacedBy === undefined ? [] : [['Superseded by', replacedBy] as [string, string]]),
    ['SHA-256 of the signed file', sha256],
    ['Asked', askedAt],
  ];
  return sheet(
    `${certificate}: ${state}`,
    `<h1>${text(certificate)}: ${state}</h1><p>${MEANS[state]}</p><dl>${rows
      .map(([label, value]) => `<dt>${text(label)}</dt><dd>${breakable(value)}</dd>`)
      .join(
        '',
      )}</dl><p>This page says how the certificate stands, and nothing else about the lot. Whether a paper or a file is the one that the lab signed is checked with <code>breakbook verify</code> or by asking the lab. Results concern only the items tested; a certificate is no licence to ride.</p>`,
  );
}

function sheet(title: string, body: string): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex"><title>${text(title)}</title></head><body><main>${body}</main></body></html>\n`;
}

/** A digest is one word of 64 letters, which no telephone is wide enough for; it may break after every eighth. */
function breakable(value: string): string {
  return /^[0-9a-f]{64}$/.test(value) ? (value.match(/.{8}/g) ?? []).join('<wbr>') : text(value);
}

function text(value: string): string {
  return value.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}
