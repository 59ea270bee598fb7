import { type Check, type Examination, type ImpactMethod, isNotEvaluated } from '@breakbook/lab';
import type { Strike } from '../../features/impact-source.js';
import { impactEnergy } from '../../features/impact-speed.js';
import { inUnit } from '../../features/words.js';
import type { Finding } from '../finding.js';

/** Were the strikes of this run those of the method's series? */
export function series(strikes: readonly Strike[], method: ImpactMethod): Finding[] {
  const named = { check: 'series', question: 'Were the strikes those that the method asks for?' };
  switch (method.parameters.series) {
    case 'single strike':
      return [
        strikes.length === 1
          ? { check: { ...named, outcome: 'pass', finding: 'One strike.' } }
          : {
              check: {
                ...named,
                outcome: 'fail',
                finding: `The method makes one strike on a specimen, and this run has ${strikes.length}.`,
                action: 'Record it under a method for several strikes: the first may have weakened the part.',
              },
            },
      ];
    case 'rising energy': {
      const energies = strikes.flatMap((strike) => {
        const { value } = impactEnergy(strike, method);
        return isNotEvaluated(value) || value.kind === 'between' ? [] : [value.value];
      });
      const rising = energies.every((energy, index) => index === 0 || energy > (energies[index - 1] as number));
      const finding = `${energies.map(inUnit('J')).join(', ')}.`;
      if (energies.length === 0) return [];
      return [
        rising
          ? { check: { ...named, outcome: 'pass', finding } }
          : {
              check: {
                ...named,
                outcome: 'flag',
                finding: `The energy does not rise from strike to strike: ${finding}`,
                action: 'Check heights and gate times. A weaker strike after a stronger one shows nothing new.',
              },
            },
      ];
    }
    case 'several points': {
      const places = strikes.map(({ passage }) => passage?.place);
      const points = new Set(places.filter((place) => place !== undefined));
      const apart = strikes.length === 1 || points.size === strikes.length;
      return [
        apart
          ? {
              check: {
                ...named,
                outcome: 'pass',
                finding: `${strikes.length} strike${strikes.length === 1 ? '' : 's'}, each at its own point.`,
              },
            }
          : {
              check: {
                ...named,
                outcome: 'flag',
                finding: `${strikes.length} strikes at ${points.size} points named.`,
                action: 'Name the place of each strike; two at one point weaken it.',
              },
            },
      ];
    }
  }
}

/** Do the strikes and the examination tell the same story, and did the run end as it should? */
export function impactEnding(strikes: readonly Strike[], examination: Examination | undefined): Finding {
  const damaged = strikes.find(({ passage }) => passage?.found === 'damaged');
  const allWhole = strikes.every(({ passage }) => passage?.found === 'whole');
  const wentOn = damaged !== undefined && damaged !== strikes.at(-1);
  const found = damaged
    ? `The part was found damaged after strike ${damaged.number}${wentOn ? ' and struck again' : ''}`
    : allWhole
      ? 'The part was found whole after each strike'
      : 'It is not stated after each strike how the part was found';
  const says = examination
    ? `the examination says "${examination.endReason}", the part ${examination.partSound}`
    : 'no examination says how the run ended';
  const { outcome, action } = judged({ damaged: damaged !== undefined, allWhole, wentOn }, examination);
  return {
    check: {
      check: 'ending',
      question: 'Did the run end as it should, and do strikes and examination agree?',
      outcome,
      finding: `${found}; ${says}.`,
      ...(action === undefined ? {} : { action }),
    },
  };
}

function judged(
  { damaged, allWhole, wentOn }: { damaged: boolean; allWhole: boolean; wentOn: boolean },
  examination: Examination | undefined,
): { outcome: Check['outcome']; action?: string } {
  if (!examination) return { outcome: 'flag', action: 'Examine the specimen and record how the run ended.' };
  const { endReason, partSound } = examination;
  if (endReason === 'rig fault')
    return {
      outcome: 'fail',
      action: 'Decide whether the specimen can still be tested, and record what the rig did to it.',
    };
  if (endReason === 'stopped early')
    return {
      outcome: 'flag',
      action: 'Decide whether the run says anything of the specimen; it held at least what struck it.',
    };
  const saysBroken = endReason === 'something broke';
  if ((damaged && (!saysBroken || partSound === 'sound')) || (allWhole && (saysBroken || partSound === 'not sound')))
    return { outcome: 'flag', action: 'Look at the part again: strikes and examination say different things of it.' };
  if (wentOn) return { outcome: 'flag', action: 'Only the strikes up to the damage count; say why the run went on.' };
  return { outcome: 'pass' };
}
