import type { DisposalObstacle } from '@breakbook/lab';
import { listed } from '../words/index.js';

/** A specimen and what stands around it, as far as it bears on doing away with its remnants. */
export interface CaseOfDisposal {
  specimen: string;
  lot: string;
  /** Numbers of the legal holds in force on it. */
  holds: readonly number[];
  /** The last day on which it must be there; undefined where nobody has said one. */
  keepUntil: string | undefined;
  /** Days as YYYY-MM-DD in the lab's zone, so that they compare as text. */
  today: string;
  openNonconformities: readonly number[];
  openSafetyFlags: readonly number[];
  /** Is a disposition of its lot in force? */
  decided: boolean;
}

/**
 * What keeps the remnants of a specimen from being disposed of today? Empty where nothing does. Only a keep-until can be
 * passed over, by an exception that is authorised with its reason; nothing passes over a legal hold.
 */
export function disposalObstacles(given: CaseOfDisposal): DisposalObstacle[] {
  const { specimen, lot, holds, keepUntil, today, openNonconformities, openSafetyFlags, decided } = given;
  const open = (numbers: readonly number[], one: string, several: string) =>
    `${numbers.length === 1 ? one : several} ${listed(numbers.map(String))} of lot ${lot} ${numbers.length === 1 ? 'is' : 'are'} open.`;
  return [
    ...(holds.length > 0
      ? [
          {
            kind: 'legal hold' as const,
            what: `Specimen ${specimen} is on legal hold ${listed(holds.map(String))}.`,
            action: 'Keep it as it is until counsel releases it and the hold is lifted.',
          },
        ]
      : []),
    ...(keepUntil === undefined
      ? [
          {
            kind: 'keep-until' as const,
            what: `Nobody has said until when specimen ${specimen} is kept.`,
            action: `Say it for lot ${lot} or for the specimen, or ask for an exception, with its reason.`,
          },
        ]
      : today <= keepUntil
        ? [
            {
              kind: 'keep-until' as const,
              what: `Specimen ${specimen} is kept until ${keepUntil}.`,
              action: 'Wait until that day is past, or ask for an exception, with its reason.',
            },
          ]
        : []),
    ...(openNonconformities.length > 0
      ? [
          {
            kind: 'nonconformity' as const,
            what: open(openNonconformities, 'Nonconformity', 'Nonconformities'),
            action: 'Have each closed by somebody who wrote nothing of it.',
          },
        ]
      : []),
    ...(openSafetyFlags.length > 0
      ? [
          {
            kind: 'safety flag' as const,
            what: open(openSafetyFlags, 'Safety flag', 'Safety flags'),
            action: 'Keep it until the flag is closed by another person than whoever wrote in it.',
          },
        ]
      : []),
    ...(decided
      ? []
      : [
          {
            kind: 'undecided' as const,
            what: `No disposition of lot ${lot} is in force.`,
            action: 'Have the lot decided about first.',
          },
        ]),
  ];
}
