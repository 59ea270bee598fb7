import { type StageResult } from '@breakbook/lab';
import { counted } from './counted.js';
import { boundInWords } from './numbers.js';
import { percent } from './percent.js';

/** What one look of a declared schedule said: how far it was made, and each criterion at it. */
export function stageSentence(found: Omit<StageResult, 'sentence'>, of: number, unit: string): string {
  const { stage, planned, inClaim, complete, criteria } = found;
  const made = `Stage ${stage} of ${of}: ${inClaim} of ${counted(planned, 'specimen')} in the claim`;
  if (!complete) return `${made}; it is not complete, so nothing is looked at yet.`;
  const said = criteria.map(({ criterion, outcome, bound, perStageConfidence, failures }) => {
    const numbers = [
      ...(bound === undefined ? [] : [`bound ${boundInWords(bound, unit)}`]),
      ...(perStageConfidence === undefined
        ? []
        : [`at ${percent(Number(perStageConfidence.toFixed(4)))} confidence at this look`]),
      ...(failures === undefined ? [] : [counted(failures, 'failure')]),
    ];
    return `${criterion} is ${outcome}${numbers.length > 0 ? ` (${numbers.join(' ')})` : ''}`;
  });
  return `${made}; ${said.join('; ')}.`;
}
