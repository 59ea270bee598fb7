import { giversOf } from '../../content/given-by.js';
import type { LotReportContent, ReportSignature } from '../../content/lot-report-content.js';
import type { Section, SignatureLine } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import { printingOf, type ReportSay } from '../../words/printing.js';
import { testersOf } from './conduct.js';

/** What a reader might look for and does not find: said, not left to be noticed. */
export function notIncludedSection(content: LotReportContent): Section {
  const { bundle, identity, affairs } = content;
  const { say } = printingOf(content);
  return {
    heading: say('What is not included?'),
    blocks: [
      {
        block: 'facts',
        columns: 3,
        facts: [
          {
            label: say('Results from outside providers'),
            value: giversOf(bundle.runs).includes('outside provider') ? say('marked ‡ above') : say('none'),
          },
          ...(giversOf(bundle.runs).includes('customer')
            ? [{ label: say('Values given by the customer'), value: say('marked † above') }]
            : []),
          { label: say('Photographs'), value: say('none with this report') },
          {
            label: say('Opinions and interpretations'),
            value: affairs?.opinions?.length ? say('each in its box above') : say('none'),
          },
          {
            label: say('Nonconformities affecting the items'),
            value: affairs?.nonconformities.length ? say('see the list above') : say('none recorded'),
          },
          {
            label: say('Concessions'),
            value: affairs?.concessions.length ? say('see the list above') : say('none recorded'),
          },
          {
            label: say('Claims of accreditation or approval'),
            value: say('none: this report claims no accreditation of the lab and no approval by a governing body'),
          },
          {
            label: say('Decision about the lot'),
            value: say('none: what becomes of the lot is decided and signed apart from this report'),
          },
          {
            label: say('Status'),
            value: say('as printed on {time}; ask the lab whether a later revision replaces it', {
              time: timeOf(identity.issuedAt, bundle.lab.zone),
            }),
          },
        ],
      },
    ],
  };
}

/** Own words for what results may and may not be used for. */
export function reachSection(content: LotReportContent): Section {
  const { say } = printingOf(content);
  const only = say(
    'Results concern only the items tested, in the condition in which they were received and under the conditions stated.',
  );
  const asReceived = content.bundle.lot.sampling ? '' : ` ${say('They apply to the sample as received.')}`;
  return {
    heading: say('How far do these results reach?'),
    blocks: [
      {
        block: 'list',
        items: [
          `${only}${asReceived}`,
          say('Statistical bounds describe the population named with them, under the assumptions named with them.'),
          say('Survival is not proof of unlimited strength, and a failure is not by itself proof of a defect.'),
          say(
            'This report is no licence and no advice to ride, to race, or to exceed a marked pressure; the limits of use are those of the maker.',
          ),
          say('It is not an approval by a governing body or an accreditation body.'),
          say('The software computes; qualified people judge and decide.'),
          say('Tested parts are not used again: they are marked, and destroyed or kept.'),
        ],
      },
    ],
  };
}

/** Who did, who looked, who stands behind it. */
export function signatureSection(content: LotReportContent): Section {
  const { bundle, identity } = content;
  const { say } = printingOf(content);
  const { tested, reviewed } = testersOf(content);
  return {
    heading: say('Who signs?'),
    blocks: [
      {
        block: 'facts',
        columns: 2,
        together: true,
        facts: [
          { label: say('Tested by'), value: tested },
          { label: say('Validity of the runs decided by'), value: reviewed },
        ],
      },
      {
        block: 'signatures',
        signatures: (['prepared', 'reviewed', 'authorised'] as const).map((meaning) =>
          lineFor(meaning, identity.signatures, bundle.lab.zone, say),
        ),
      },
    ],
  };
}

function lineFor(
  meaning: ReportSignature['meaning'],
  signatures: readonly ReportSignature[],
  zone: string,
  say: ReportSay,
): SignatureLine {
  const title = say(
    ({ prepared: 'Prepared', reviewed: 'Reviewed', authorised: 'Authorised for release' } as const)[meaning],
  );
  const found = signatures.find((one) => one.meaning === meaning);
  if (!found) return { meaning: title, name: say('not signed'), role: '', signed: '' };
  return { meaning: title, name: found.name, role: found.role, signed: `${timeOf(found.at, zone)} (${zone})` };
}
