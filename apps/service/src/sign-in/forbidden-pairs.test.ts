import { Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type Act, FORBIDDEN_PAIRS, isForbiddenPair, requireOther, TECHNICAL_SIGNATURES } from './forbidden-pairs.js';
import type { SignedInActor } from './signed-in.decorator.js';

const imke: SignedInActor = { labId: 'lab', personId: 'imke', person: 'imke', duties: ['record', 'review', 'decide'] };
const jorun: SignedInActor = { ...imke, personId: 'jorun', person: 'jorun' };

const ACTS: Act[] = [
  ...['record', 'review', 'decide', 'propose a limit', 'approve a limit', 'build', 'draw'],
  ...['change a calibration', 'request a concession', 'grant a concession', 'issue a document'],
  ...['write a nonconformity', 'close a nonconformity', 'countersign', 'authorise a retest'],
  ...[
    'write a safety flag',
    'close a safety flag',
    'give an opinion',
    'place a legal hold',
    'lift a legal hold',
    'ask for a disposal',
    'authorise a disposal',
    'declare a comparison',
    'approve a comparison',
    'lock conclusions',
  ],
] as Act[];

function refusal(ask: () => void): Refusal | undefined {
  try {
    ask();
    return undefined;
  } catch (error) {
    return error as Refusal;
  }
}

describe('forbidden pairs', () => {
  // ISO/IEC 17025:2017, 4.1 and 6.2.6 ask that impartiality is safeguarded; which acts exclude each other is the lab's
  // own rule, written out here a second time so that no pair is lost by an edit of the table.
  it('are eighteen', () => {
    expect(FORBIDDEN_PAIRS.map((pair) => [...pair].sort().join(' / ')).sort()).toEqual([
      'approve a comparison / declare a comparison',
      'approve a limit / propose a limit',
      'ask for a disposal / authorise a disposal',
      'authorise a retest / record',
      'build / draw',
      'change a calibration / review',
      'close a nonconformity / write a nonconformity',
      'close a safety flag / write a safety flag',
      'countersign / decide',
      'countersign / record',
      'countersign / review',
      'decide / record',
      'decide / review',
      'declare a comparison / lock conclusions',
      'grant a concession / request a concession',
      'lift a legal hold / place a legal hold',
      'lock conclusions / record',
      'record / review',
    ]);
  });

  it.each(FORBIDDEN_PAIRS.flatMap(([a, b]) => [[a, b] as const, [b, a] as const]))(
    'who did "%s" is refused "%s" on the same thing, and another person is not',
    (first, second) => {
      const done = [{ act: first, personId: 'imke', thing: 'run 88' }];
      expect(refusal(() => requireOther(imke, second, 'run 88', done))).toMatchObject({ code: 'duty.conflict' });
      expect(refusal(() => requireOther(jorun, second, 'run 88', done))).toBeUndefined();
    },
  );

  it('every other two acts may be one person’s', () => {
    for (const first of ACTS)
      for (const second of ACTS.filter((act) => !isForbiddenPair(first, act)))
        expect(
          refusal(() => requireOther(imke, second, 'it', [{ act: first, personId: 'imke', thing: 'it' }])),
        ).toBeUndefined();
  });

  it.each(ACTS)('whoever administers the lab: "%s" is refused exactly where it is a technical signature', (act) => {
    const administrator: SignedInActor = { ...imke, duties: ['administer', 'review'] };
    const answer = refusal(() => requireOther(administrator, act, 'run 88', []));
    expect(answer?.code).toBe(TECHNICAL_SIGNATURES.includes(act) ? 'duty.conflict' : undefined);
  });

  it('says what was done before, to what, and what to do', () => {
    const done = [
      { act: 'record' as const, personId: 'jorun', thing: 'run 87' },
      { act: 'record' as const, personId: 'imke', thing: 'run 88' },
    ];
    expect(refusal(() => requireOther(imke, 'decide', 'lot P-7', done))?.problems[0]).toEqual({
      code: 'duty.conflict',
      detail: 'You recorded run 88, so you cannot decide on lot P-7.',
      action: 'Have another person with the duty do it.',
    });
    expect(refusal(() => requireOther(imke, 'review', 'run 88', done))?.message).toBe(
      'You recorded run 88, so you cannot review it.',
    );
  });
});
