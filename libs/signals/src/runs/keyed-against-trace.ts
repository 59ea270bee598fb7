import { type Characteristic, isNotEvaluated, type Method, type Run } from '@breakbook/lab';
import { printSignificant, unitSymbol } from '@breakbook/units';
import type { Finding } from '../checks/finding.js';
import { keyedValue } from './keyed.js';

/** A keyed value may be read off a coarse gauge. Common practice, no source. */
const AGREES_WITHIN = 0.02;

/** Where a person keyed what the trace gives as well, the trace stands; do the two agree? */
export function keyedAgainstTrace(method: Method, run: Run, characteristics: readonly Characteristic[]): Finding[] {
  return characteristics.flatMap(({ characteristic, source, value, unit }) => {
    const wanted = method.characteristics.find((one) => one.characteristic === characteristic);
    if (!wanted || source !== 'trace' || isNotEvaluated(value) || value.kind === 'between') return [];
    const keyed = keyedValue(wanted, run);
    if (isNotEvaluated(keyed)) return [];
    const agrees = Math.abs(keyed - value.value) <= AGREES_WITHIN * Math.abs(value.value);
    return [
      {
        check: {
          check: 'keyed value',
          question: `Does the keyed ${wanted.title.toLowerCase()} agree with the trace?`,
          outcome: agrees ? ('pass' as const) : ('flag' as const),
          finding: `${printSignificant(keyed, 4)} ${unitSymbol(unit)} was keyed and the trace gives ${printSignificant(value.value, 4)} ${unitSymbol(unit)}; the trace stands.`,
          ...(agrees ? {} : { action: 'Find out which of the two is wrong: gauge, keying, unit or file.' }),
        },
      },
    ];
  });
}
