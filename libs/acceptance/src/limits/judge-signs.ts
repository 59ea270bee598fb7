import {
  type AttributeLimit,
  type Examination,
  isExternal,
  limitName,
  type Method,
  type NotEvaluated,
  notEvaluated,
  type Verdict,
} from '@breakbook/lab';
import { capital, listed, rangeInWords, ruleInWords } from '../words/index.js';

export interface SignsAndLimit {
  limit: AttributeLimit;
  method: Method;
  examination: Examination | undefined;
  specimen: string;
  /** Why no verdict is given, where the run does not count. */
  withheld?: NotEvaluated;
}

/**
 * Were none of the signs found that this limit forbids? An attribute has no uncertainty: beside the verdict stand the
 * way of looking and what it can find. Without a look at the specimen there is no verdict.
 *
 * Source: ISO/IEC 17025:2017, 7.8.6; that inspection method and detection capability stand in place of an uncertainty
 * is common practice, no source.
 */
export function judgeSigns(given: SignsAndLimit): Verdict {
  const { limit, specimen } = given;
  const found = signsFound(given);
  const open = Array.isArray(found) ? undefined : found.notEvaluated;
  const signs = Array.isArray(found) ? found : [];
  const outcome = open ? 'not evaluated' : signs.length === 0 ? 'conforms' : 'does not conform';
  const said = open ? `not known: ${open.because}` : signs.length === 0 ? 'none found' : `${listed(signs)} found`;
  return {
    limit: { limit: limit.limit, revision: limit.revision },
    characteristic: limit.characteristic,
    outcome,
    external: isExternal(limit),
    ...(open ? {} : { value: { kind: 'exact' as const, value: signs.length }, margin: 0 - signs.length }),
    unit: limit.unit,
    limitValue: { upper: 0 },
    acceptance: { upper: 0 },
    guardBand: 0,
    ...(open ? {} : { zone: signs.length === 0 ? ('inside the limit' as const) : ('outside the limit' as const) }),
    inspection: limit.inspection,
    sentence: `${limit.title} of specimen ${specimen}: ${said}. ${capital(rangeInWords(limit))} (${limitName(limit)}). Rule: ${ruleInWords(limit)}. ${capital(outcome)}.`,
    ...(open ?? {}),
    steps: [
      {
        question: 'Which signs were looked for, and how?',
        numbers: { signs: limit.signs.length },
        answer: `${capital(listed(limit.signs))}, ${limit.inspection.method}. This finds ${limit.inspection.detects.replace(/\.\s*$/, '')}.`,
        source: `${limit.source}, ${limit.edition}`,
      },
      {
        question: 'Which of them were found?',
        numbers: open ? {} : { found: signs.length },
        answer: `${capital(said)}.`,
      },
    ],
  };
}

/** Codes of the forbidden signs that the examination names. */
function signsFound({ limit, method, examination, withheld }: SignsAndLimit): string[] | NotEvaluated {
  if (withheld) return withheld;
  if (!examination)
    return notEvaluated(
      'no examination of the specimen is recorded',
      'a person examines the specimen and records what was found',
    );
  const unknown = examination.modes.find(({ code }) => !method.failureModes.some((mode) => mode.code === code));
  if (unknown)
    return notEvaluated(
      `the examination names failure mode ${unknown.code}, which ${method.method} rev. ${method.revision} does not know`,
      'the examination is corrected, or a revision of the method takes the mode in',
    );
  const found = limit.signs.filter((sign) => examination.modes.some(({ code }) => code === sign));
  if (found.length === 0 && examination.partSound === 'not examined')
    return notEvaluated('the specimen was not examined after the run', 'a person examines the specimen');
  return found;
}
