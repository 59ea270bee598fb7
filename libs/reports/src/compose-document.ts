import { canonicalJson, documentStem, parseCanonicalJson } from '@breakbook/evidence';
import type { LotReportContent } from './content/lot-report-content.js';
import type { CertificateContent } from './documents/certificate-of-test/content.js';
import type { ComparisonReportContent } from './documents/comparison-report/content.js';
import type { LabelSheetContent } from './documents/label-sheet/content.js';
import type { RunSheetContent } from './documents/run-sheet/content.js';
import type { SpecimenRecordContent } from './documents/specimen-record/content.js';
import { KINDS } from './kinds.js';
import type { SheetWords } from './parts/blocks.js';
import type { Attached } from './parts/open-document.js';
import { PAPERS, type Paper } from './parts/paper.js';
import { printingOf } from './words/printing.js';
import { sheetWords } from './words/sheet-words.js';

/** Kinds of documents, each with the content it is made from. */
export interface DocumentContents {
  'lot test report': LotReportContent;
  'run sheet': RunSheetContent;
  'specimen record': SpecimenRecordContent;
  'certificate of test': CertificateContent;
  'label sheet': LabelSheetContent;
  'comparison report': ComparisonReportContent;
}

/** What a document that is to be signed has attached beside its content. */
export interface Sealing {
  /** The signature of the content in canonical JSON (detached JWS). */
  jws: string;
  /** What shows that the content stands in the ledger, as `formatDocumentRecord` writes it. */
  record: string;
  /** Raw files of runs, where they go with it. */
  raw?: readonly { name: string; bytes: Uint8Array }[];
}

/** What is attached and signed of a content: its canonical JSON (RFC 8785). */
export function attachedJson(content: DocumentContents[keyof DocumentContents]): string {
  return canonicalJson(content);
}

/**
 * The bytes of a document: tagged, with its fonts and its own data inside, written to PDF/A-3a and PDF/UA-1. The same
 * content on the same paper always gives the same bytes. With a sealing it has a place for the lab's signature, which
 * `fillSignature` fills in. Labels lie on the paper of their grid.
 */
export function composeDocument<Kind extends keyof DocumentContents>(
  kind: Kind,
  content: DocumentContents[Kind],
  options: { paper?: Paper['name'] | undefined; sealing?: Sealing | undefined } = {},
): Promise<Uint8Array> {
  if (kind !== content.document) throw new Error(`A ${kind} is not made from the content of a ${content.document}.`);
  // Made from what is attached, so that whoever has only the file can make it again, to the byte.
  const json = attachedJson(content);
  const attached = parseCanonicalJson(json) as DocumentContents[Kind];
  const { compose, title, issuer, software } = KINDS[kind];
  const { identity, print } = attached;
  const printing = printingOf(attached);
  return compose(attached, PAPERS[options.paper ?? print?.paper ?? 'A4'], printing, {
    title: title(attached, printing),
    creator: issuer(attached),
    issuedAt: new Date(identity.issuedAt),
    software: software(attached),
    attached: filesOf(documentStem(identity), json, options.sealing, sheetWords(printing)),
    ...(options.sealing ? { signedBy: issuer(attached) } : {}),
  });
}

function filesOf(stem: string, json: string, sealing: Sealing | undefined, words: SheetWords): Attached[] {
  const text = (name: string, type: string, description: string, content: string): Attached => ({
    name,
    type,
    description,
    bytes: Buffer.from(content, 'utf8'),
    relationship: 'Data',
  });
  const own = text(`${stem}.json`, 'application/json', words.content, json);
  if (!sealing) return [own];
  return [
    own,
    text(`${stem}.jws`, 'application/jose', words.signature, sealing.jws),
    text(`${stem}-ledger.json`, 'application/json', words.record, sealing.record),
    ...(sealing.raw ?? []).map(
      ({ name, bytes }): Attached => ({
        name,
        type: 'application/octet-stream',
        description: words.raw,
        bytes,
        relationship: 'Source',
      }),
    ),
  ];
}
