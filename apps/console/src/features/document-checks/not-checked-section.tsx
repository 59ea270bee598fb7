import type { DocumentCheck } from '../../client/answers.js';
import { Section } from '../../parts/sheet/sheet.js';

/** What this page leaves open, each with its reason. */
export function NotCheckedSection({ found }: { found: DocumentCheck }) {
  return (
    <Section
      question="What is not checked here, and why?"
      word="Not checked"
      aside="A check by the lab's own service rests on that service. Whoever does not want to rest on it uses the commands."
    >
      <ul className="notes">
        {notChecked(found).map((one) => (
          <li key={one}>{one}</li>
        ))}
        <li>
          Whether this service tells the truth. <code>breakbook verify</code> and <code>breakbook recompute</code>{' '}
          answer the same questions from the file alone, with the public keys that you were given elsewhere.
        </li>
      </ul>
    </Section>
  );
}

function notChecked({ verdict, document, recomputed, certificate, kept }: DocumentCheck): string[] {
  if (!document)
    return [
      verdict === 'not-recognised'
        ? 'Anything beyond the first question: the file has no signature of a lab, so there is nothing to lay beside it.'
        : 'Its numbers, and how it stands: that is asked only of what this lab signed and nobody altered since.',
    ];
  return [
    'When it was signed: nothing within a file shows that. The evidence is the checkpoint of the ledger, and by whom it was kept since, outside the lab.',
    'Whether that checkpoint is the one that somebody keeps elsewhere: only its keeper can lay them side by side.',
    ...(recomputed
      ? []
      : [
          `Its numbers: this ${document.kind} does not hold what they come from. They are worked out again from the lot test report that it rests on.`,
        ]),
    ...(recomputed?.filesRead === false
      ? ['What the sensors showed: the raw files are not all at hand, so the readings were taken as they stand.']
      : []),
    ...(document.kind === 'certificate of test' && !certificate
      ? ['How the certificate stands: this very file is not one that the lab keeps.']
      : []),
    ...(kept === undefined && document.kind !== 'certificate of test'
      ? ['Whether the lab still keeps this very file: it has none with this digest.']
      : []),
    'Whether a print on paper says the same: a paper has no signature, so it is laid beside the file by eye.',
  ];
}
