import type { CriterionResult } from '@breakbook/lab';
import { everySpecimen } from './every-specimen.js';
import { failuresAtMost } from './failures-at-most.js';
import { meanWithin } from './mean-within.js';
import type { Question } from './question.js';
import { responseEnergy } from './response-energy.js';
import { toleranceBound } from './tolerance-bound.js';
import { zeroFailures } from './zero-failures.js';

/** Each kind of criterion by the rule of its own. */
export function judgeCriterion(question: Question): CriterionResult {
  const { criterion } = question;
  switch (criterion.kind) {
    case 'every specimen':
      return everySpecimen({ ...question, criterion });
    case 'failures at most':
      return failuresAtMost({ ...question, criterion });
    case 'tolerance bound':
      return toleranceBound({ ...question, criterion });
    case 'zero failures':
      return zeroFailures({ ...question, criterion });
    case 'response energy':
      return responseEnergy({ ...question, criterion });
    case 'mean':
      return meanWithin({ ...question, criterion });
  }
}
