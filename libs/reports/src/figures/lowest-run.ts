import { isNotEvaluated } from '@breakbook/lab';
import { isValid, type JudgedLine, type JudgedLot, resultOf, runsOf } from '../content/judged-lot.js';

/** The valid run with the lowest value of the line's characteristic; of equal ones the first recorded. */
export function lowestRunOf(judged: JudgedLot, line: JudgedLine): string | undefined {
  let lowest: { run: string; value: number } | undefined;
  for (const one of runsOf(judged, line).filter(isValid)) {
    const value = resultOf(one, line.line.characteristic)?.value;
    if (value === undefined || isNotEvaluated(value)) continue;
    const low = value.kind === 'between' ? value.lower : value.value;
    if (lowest === undefined || low < lowest.value) lowest = { run: one.run.run, value: low };
  }
  return lowest?.run;
}
