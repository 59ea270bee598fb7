import { giversOf } from '../../content/given-by.js';
import { type LotReportContent, type ReportSignature } from '../../content/lot-report-content.js';
import { type Section, type SignatureLine } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import { testersOf } from './conduct.js';

/** What a reader might look for and does not find: said, not left to be noticed. */
export function notIncludedSection({ bundle, identity, affairs }: LotReportContent): Section {
  return {
    heading: 'What is not included?',
    blocks: [
      {
        block: 'facts',
        columns: 3,
        facts: [
          {
            label: 'Results from outside providers',
            value: giversOf(bundle.runs).includes('outside provider') ? 'marked ‡ above' : 'none',
          },
          ...(giversOf(bundle.runs).includes('customer')
            ? [{ label: 'Values given by the customer', value: 'marked † above' }]
            : []),
          { label: 'Photographs', value: 'none with this report' },
          {
            label: 'Opinions and interpretations',
            value: affairs?.opinions?.length ? 'each in its box above' : 'none',
          },
          {
            label: 'Nonconformities affecting the items',
            value: affairs?.nonconformities.length ? 'see the list above' : 'none recorded',
          },
          { label: 'Concessions', value: affairs?.concessions.length ? 'see the list above' : 'none recorded' },
          {
            label: 'Claims of accreditation or approval',
            value: 'none: this report claims no accreditation of the lab and no approval by a governing body',
          },
          {
            label: 'Decision about the lot',
            value: 'none: what becomes of the lot is decided and signed apart from this report',
          },
          {
            label: 'Status',
            value: `as printed on ${timeOf(identity.issuedAt, bundle.lab.zone)}; ask the lab whether a later revision replaces it`,
          },
        ],
      },
    ],
  };
}

/** Own words for what results may and may not be used for. */
export function reachSection({ bundle }: LotReportContent): Section {
  const asReceived = bundle.lot.sampling ? '' : ' They apply to the sample as received.';
  return {
    heading: 'How far do these results reach?',
    blocks: [
      {
        block: 'list',
        items: [
          `Results concern only the items tested, in the condition in which they were received and under the conditions stated.${asReceived}`,
          'Statistical bounds describe the population named with them, under the assumptions named with them.',
          'Survival is not proof of unlimited strength, and a failure is not by itself proof of a defect.',
          'This report is no licence and no advice to ride, to race, or to exceed a marked pressure; the limits of use are those of the maker.',
          'It is not an approval by a governing body or an accreditation body.',
          'The software computes; qualified people judge and decide.',
          'Tested parts are not used again: they are marked, and destroyed or kept.',
        ],
      },
    ],
  };
}

/** Who did, who looked, who stands behind it. */
export function signatureSection(content: LotReportContent): Section {
  const { bundle, identity } = content;
  const { tested, reviewed } = testersOf(content);
  return {
    heading: 'Who signs?',
    blocks: [
      {
        block: 'facts',
        columns: 2,
        together: true,
        facts: [
          { label: 'Tested by', value: tested },
          { label: 'Validity of the runs decided by', value: reviewed },
        ],
      },
      {
        block: 'signatures',
        signatures: (['prepared', 'reviewed', 'authorised'] as const).map((meaning) =>
          lineFor(meaning, identity.signatures, bundle.lab.zone),
        ),
      },
    ],
  };
}

function lineFor(
  meaning: ReportSignature['meaning'],
  signatures: readonly ReportSignature[],
  zone: string,
): SignatureLine {
  const title = { prepared: 'Prepared', reviewed: 'Reviewed', authorised: 'Authorised for release' }[meaning];
  const found = signatures.find((one) => one.meaning === meaning);
  if (!found) return { meaning: title, name: 'not signed', role: '', signed: '' };
  return { meaning: title, name: found.name, role: found.role, signed: `${timeOf(found.at, zone)} (${zone})` };
}
