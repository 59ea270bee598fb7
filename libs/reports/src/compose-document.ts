import { canonicalJson, parseCanonicalJson } from '@breakbook/evidence';
import { type LotReportContent } from './content/lot-report-content.js';
import { numberOf } from './documents/lot-test-report/head.js';
import { lotTestReport } from './documents/lot-test-report/index.js';
import { composeSheet } from './parts/compose.js';
import { PAPERS, type Paper } from './parts/paper.js';

/** Kinds of documents, each with the content it is made from. */
export interface DocumentContents {
  'lot test report': LotReportContent;
}

/**
 * The bytes of a document: tagged, with its fonts and its own data inside, written to PDF/A-3a and PDF/UA-1. The same
 * content on the same paper always gives the same bytes.
 */
export function composeDocument<Kind extends keyof DocumentContents>(
  kind: Kind,
  content: DocumentContents[Kind],
  options: { paper: Paper['name'] },
): Promise<Uint8Array> {
  if (kind !== content.document) throw new Error(`A ${kind} is not made from the content of a ${content.document}.`);
  // Made from what is attached, so that whoever has only the file can make it again, to the byte.
  const json = canonicalJson(content);
  const attached = parseCanonicalJson(json) as DocumentContents[Kind];
  const { identity, bundle, lot } = attached;
  return composeSheet(lotTestReport(attached), PAPERS[options.paper], {
    title: `Lot test report ${numberOf(identity)}`,
    creator: bundle.lab.name,
    issuedAt: new Date(identity.issuedAt),
    software: lot.software,
    attachment: {
      name: `${identity.number}-rev-${identity.revision}.json`,
      description: 'The content of this report as canonical JSON (RFC 8785)',
      json,
    },
  });
}
