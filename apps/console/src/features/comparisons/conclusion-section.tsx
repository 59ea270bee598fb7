import { useState } from 'react';
import type { ComparisonRecord, ComparisonResultRecord, Conclusion } from '../../client/answers.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { TextArea } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { ProblemsBeside } from '../../parts/problems-beside.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { Level } from './level.js';

interface ConclusionSectionProps {
  of: ComparisonRecord;
  result: ComparisonResultRecord | undefined;
  zone: string;
}

/** Are the conclusions locked, by whom? Asked of whoever may lock them, over exactly what is shown above. */
export function ConclusionSection({ of, result, zone }: ConclusionSectionProps) {
  const { duties } = useMe();
  const { conclusions, state } = of;
  const last = conclusions.at(-1);
  const may = result !== undefined && duties.includes('decide') && (state === 'approved' || state === 'concluded');
  if (conclusions.length === 0 && result === undefined) return null;
  return (
    <Section
      question="Are the conclusions locked?"
      word="Signature"
      aside="A signature covers the whole result, by its digest: what is signed is what was shown. Whoever declared, tested or examined anything of it does not sign."
    >
      {conclusions.length === 0 && (
        <p>
          Not yet: nothing is concluded before somebody with the duty to decide has signed
          {of.content.blind && ', and until then which item is which is hidden from whoever is blinded'}.
        </p>
      )}
      <ol className="history">
        {conclusions.toReversed().map((one) => (
          <Signed key={one.conclusion} of={one} zone={zone} />
        ))}
      </ol>
      {may && <Why of={of} result={result} />}
      {may &&
        whyNot(of, result) === undefined &&
        (last ? (
          <Fold word="Conclude anew, in the place of what is locked">
            <LockForm key={result.number} of={of} result={result} replaces={last} />
          </Fold>
        ) : (
          <LockForm key={result.number} of={of} result={result} />
        ))}
    </Section>
  );
}

function Signed({ of, zone }: { of: Conclusion; zone: string }) {
  const { conclusion, result, level, signature, note, replaces, reason, inForce } = of;
  return (
    <li>
      <time dateTime={signature.at}>{moment(signature.at, zone)}</time>
      <div>
        <p>
          Conclusion {conclusion}: <Level of={level} />, {inForce ? 'in force' : 'its place was taken'}. Signed by{' '}
          <bdi>{signature.name}</bdi>, <bdi>{signature.role}</bdi>.
        </p>
        <p>
          “<bdi>{signature.meaning}</bdi>” Result {result}, SHA-256 <code>{signature.shown}</code>
        </p>
        {note !== undefined && (
          <p>
            Note: <bdi>{note}</bdi>
          </p>
        )}
        {replaces !== undefined && (
          <p>
            In the place of conclusion {replaces}: <bdi>{reason}</bdi>
          </p>
        )}
      </div>
    </li>
  );
}

function Why(given: { of: ComparisonRecord; result: ComparisonResultRecord }) {
  const why = whyNot(given.of, given.result);
  return why === undefined ? null : <p>{why}</p>;
}

/** Why nobody can sign what is shown, where that is so. */
function whyNot({ inForce }: ComparisonRecord, { number, revision, changedSince }: ComparisonResultRecord) {
  if (changedSince.length > 0)
    return `It cannot be signed: since result ${number} there changed ${changedSince.join(', ')}. Work it out again first.`;
  if (revision !== inForce)
    return `It cannot be signed: result ${number} is of rev. ${revision}, and rev. ${inForce} is in force. Work it out again first.`;
  return undefined;
}

interface LockFormProps {
  of: ComparisonRecord;
  result: ComparisonResultRecord;
  replaces?: Conclusion;
}

function LockForm({ of: { comparison }, result: { number, sha256, revision }, replaces }: LockFormProps) {
  const [note, setNote] = useState('');
  const [reason, setReason] = useState('');
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/conclusions', {
        path: { comparison },
        body: {
          result: number,
          shown: sha256,
          ...(note.trim() === '' ? {} : { note: note.trim() }),
          ...(replaces ? { replaces: replaces.conclusion, reason: reason.trim() } : {}),
        },
      }),
    renews: ['comparisons', 'specimen', 'references'],
  });
  return (
    <ProblemsBeside error={sent.error}>
      <AgainForm sent={sent} button="Lock these conclusions" whole={replaces === undefined || reason.trim() !== ''}>
        <p>
          You sign: “I answer for the conclusions of comparison {comparison} rev. {revision}, as result {number} has
          them.” After this they can only be followed by other conclusions, which name them and say why; both stay.
        </p>
        <TextArea
          label="Note beside them"
          at="/note"
          hint="Left empty: none. Say what was seen or measured; who made an item, and what it is called for that, is not for a lab to say."
          rows={2}
          value={note}
          onChange={({ target }) => setNote(target.value)}
        />
        {replaces && (
          <TextArea
            label={`Why they take the place of conclusion ${replaces.conclusion}`}
            at="/reason"
            rows={2}
            value={reason}
            onChange={({ target }) => setReason(target.value)}
          />
        )}
      </AgainForm>
    </ProblemsBeside>
  );
}
