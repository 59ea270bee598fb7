import type { CertificateState, Disposition, PrintChoice } from '@breakbook/lab';
import type { ReportAffairs } from '../../content/affairs.js';
import type { DocumentIdentity } from '../../content/identity.js';
import type { JudgedLot } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';

/** What a certificate of test says, as data: results and runs of the lot test report it rests on, and what was decided. */
export interface CertificateContent extends JudgedLot {
  document: 'certificate of test';
  form: 1;
  identity: DocumentIdentity;
  readings: LotReportContent['readings'];
  refused: LotReportContent['refused'];
  attempts?: NonNullable<LotReportContent['attempts']>;
  /** As it stood when the certificate was made. */
  affairs: ReportAffairs;
  disposition: Disposition;
  /** The lot test report it rests on. */
  report: { number: string; revision: number };
  /** Of the certificate, as printed. */
  state: CertificateState;
  /** Where anybody can ask for its status, as it goes into a code. */
  statusUrl?: string;
  /** How it is printed; in English and in the units kept where nothing is said. */
  print?: PrintChoice;
}

/** The content of a certificate, from the report it rests on and the disposition of the lot. */
export function certificateContent({
  report,
  disposition,
  document,
  affairs = report.affairs ?? { nonconformities: [], concessions: [], retests: [] },
  state = 'in force',
  statusUrl,
  print = report.print,
}: {
  report: LotReportContent;
  disposition: Disposition;
  document: DocumentIdentity;
  affairs?: ReportAffairs | undefined;
  state?: CertificateState;
  statusUrl?: string | undefined;
  print?: PrintChoice | undefined;
}): CertificateContent {
  const { bundle, lot, judgements, readings, refused, attempts, identity } = report;
  if (disposition.lot !== bundle.lot.lot)
    throw new Error(`Disposition ${disposition.number} is of lot ${disposition.lot}, the report of ${bundle.lot.lot}.`);
  if (disposition.state !== 'in force')
    throw new Error(
      `Disposition ${disposition.number} of lot ${disposition.lot} is not in force: ${disposition.state}.`,
    );
  return {
    document: 'certificate of test',
    form: 1,
    identity: document,
    bundle,
    lot,
    judgements,
    readings,
    refused,
    ...(attempts ? { attempts } : {}),
    affairs,
    disposition,
    report: { number: identity.number, revision: identity.revision },
    state,
    ...(statusUrl === undefined ? {} : { statusUrl }),
    ...(print ? { print } : {}),
  };
}
