import type { ImpactMethod } from '@breakbook/lab';
import { STRIKER_FORCE, type Strike } from '../../features/impact-source.js';
import type { Finding } from '../finding.js';
import { gaps, samplingRate } from '../sampling.js';
import {
  deflectionAgrees,
  displacementInTime,
  energyInBand,
  guideEfficiency,
  momentumBalance,
} from './energy-checks.js';
import { baseline, forceRange, noStrike, singleStrike } from './force-checks.js';

/** A logger at a steady rate leaves out no sample. */
export const GAP = { periods: 1.5 } as const;

/** Everything that says whether one strike is fit to be judged, in the order a reviewer would ask. */
export function strikeChecks(strike: Strike, method: ImpactMethod): Finding[] {
  return [
    energyInBand(strike, method),
    ...guideEfficiency(strike, method),
    ...recordChecks(strike, method),
    ...momentumBalance(strike, method),
    ...deflectionAgrees(strike, method),
    ...displacementInTime(strike, method),
  ];
}

function recordChecks({ features, number }: Strike, method: ImpactMethod): Finding[] {
  const { parameters, channels } = method;
  if (!features) {
    const wanted = channels.some(({ channel, required }) => channel === STRIKER_FORCE && required);
    return wanted ? [withoutRecord(number)] : [];
  }
  const { record, contact } = features;
  const about = [samplingRate(record.steps, channels), gaps(record.steps, GAP, STRIKER_FORCE)];
  if (!contact) return [...about, noStrike(features)];
  return [
    ...about,
    baseline(features, contact, parameters),
    ...forceRange(features, contact, parameters),
    singleStrike(features, contact, parameters),
  ];
}

function withoutRecord(number: number): Finding {
  return {
    check: {
      check: 'record',
      question: 'Is the strike recorded?',
      outcome: 'fail',
      finding: `Strike ${number} has no force record, and the method asks for one.`,
      action: 'Send the file of that strike, or state why there is none.',
    },
  };
}
