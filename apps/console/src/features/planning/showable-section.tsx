import { isNotEvaluated, type Showable } from '@breakbook/lab';
import { Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';

/** The question the other way round: what can so many specimens prove? */
export function ShowableSection({ of: { asked, answers } }: { of: Showable }) {
  const { tell } = usePrint();
  return (
    <Section question={`What can ${asked.n} specimens prove?`} word="What n can show">
      <dl className="designs-said">
        {answers.map((one) => (
          <div key={one.question}>
            <dt>{one.question}</dt>
            <dd>
              {isNotEvaluated(one)
                ? tell(
                    `Not evaluated: ${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`,
                  )
                : tell(one.answer)}
            </dd>
          </div>
        ))}
      </dl>
    </Section>
  );
}
