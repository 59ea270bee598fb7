import { isNotEvaluated, type LineResult } from '@breakbook/lab';
import { usePrint } from '../../parts/units/reader.js';

/** Stages with what each look said, values far from the others, and what the runs still to be made would come to. */
export function BesideCriteria({ line: { stages = [], outliers = [], forecast } }: { line: LineResult }) {
  const { tell } = usePrint();
  return (
    <>
      <Told head="Stages declared before the test" says={sentencesIn(stages)} />
      <Told head="Values far from the others" says={sentencesIn(outliers)} />
      {forecast !== undefined && (
        <Told
          head="Forecast, which decides nothing"
          says={
            isNotEvaluated(forecast)
              ? [`Not evaluated: ${forecast.notEvaluated.because}.`, `Possible if ${forecast.notEvaluated.possibleIf}.`]
              : [
                  forecast.sentence,
                  `Standard error ${forecast.error.toFixed(3)}, from ${forecast.replicates} simulated lots, seed ${forecast.seed}.`,
                  ...forecast.assumptions.map((one) => `Assumed: ${tell(one)}.`),
                ]
          }
        />
      )}
    </>
  );
}

function Told({ head, says }: { head: string; says: readonly string[] }) {
  const { tell } = usePrint();
  if (says.length === 0) return null;
  return (
    <>
      <h3>{head}</h3>
      <ul className="notes">
        {says.map((one) => (
          <li key={one}>{tell(one)}</li>
        ))}
      </ul>
    </>
  );
}

/** Evaluations of before they were worded have none. */
function sentencesIn(found: readonly { sentence?: string | undefined }[]): string[] {
  return found.flatMap(({ sentence }) => sentence ?? []);
}
