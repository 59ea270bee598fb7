import { useQuery } from '@tanstack/react-query';
import type { SheetToSign } from '../../client/answers.js';
import { labQuery } from '../../client/queries.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';

/** What was decided so far, by whom, and over what. */
export function SignedSection({ sheet, sha256 }: { sheet: SheetToSign['sheet']; sha256: string }) {
  const { data: lab } = useQuery(labQuery);
  return (
    <Section question="Who has signed what?" word="Signatures">
      {sheet.dispositions.length === 0 && <p>Nothing was decided about this lot yet.</p>}
      <ol className="history">
        {sheet.dispositions.flatMap(({ number, outcome, state, reason, signatures }) =>
          signatures.map(({ person, name, role, at, meaning, shown }) => (
            <li key={`${number} ${person}`}>
              <time dateTime={at}>{moment(at, lab?.zone ?? 'UTC')}</time>
              <p>
                Disposition {number}, {outcome}, {state}. <bdi>{name}</bdi> (<bdi>{role}</bdi>): “{meaning}” Reason:{' '}
                <bdi>{reason}</bdi>
                <span className="quiet small under">
                  over what was shown, SHA-256 <code className="digest">{shown}</code>
                </span>
              </p>
            </li>
          )),
        )}
      </ol>
      <p className="quiet small">
        This sheet as it is shown now: SHA-256 <code className="digest">{sha256}</code>
      </p>
    </Section>
  );
}
