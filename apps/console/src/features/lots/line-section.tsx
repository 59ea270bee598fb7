import type { LineResult } from '@breakbook/lab';
import type { LotAnswer } from '../../client/answers.js';
import { MarginStrip } from '../../parts/figures/lab-figures.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { BesideCriteria } from './beside-criteria.js';
import { CriterionItem } from './criterion-item.js';

/** Does the weakest likely specimen clear its limits? The margin strip of one plan line, then its criteria. */
export function LineSection({ answer, line }: { answer: LotAnswer; line: LineResult }) {
  const planned = answer.bundle.plan.lines.find((one) => one.line === line.line);
  const strip = answer.figures.find((one) => one.line === line.line)?.marginStrip ?? null;
  return (
    <Section
      question={`${line.line}. ${planned?.title ?? line.title}: does the weakest likely specimen clear its limits?`}
      word={`${line.line}. ${planned?.title ?? line.title}`}
      aside={
        <>
          <p>
            <Outcome word={line.outcome} />
          </p>
          <p>
            {line.counts.inClaim} of {line.planned} planned valid runs make the claim.
          </p>
        </>
      }
    >
      {strip === null ? (
        <p className="quiet">No run of this line gives a value yet, so nothing stands on a scale.</p>
      ) : (
        <MarginStrip of={strip} />
      )}
      <ol className="criteria">
        {line.criteria.map((criterion) => (
          <li key={criterion.criterion}>
            <CriterionItem criterion={criterion} />
          </li>
        ))}
      </ol>
      <BesideCriteria line={line} />
    </Section>
  );
}
