import type {
  CertificateState,
  CriterionOutcome,
  DispositionOutcome,
  LotOutcome,
  VerdictOutcome,
} from '@breakbook/lab';
import type { Ink, Mark, Place } from '../scene.js';
import { diamondCorners } from './diamond.js';

export type Outcome = VerdictOutcome | CriterionOutcome | LotOutcome | DispositionOutcome | CertificateState;

type Form = 'disc' | 'disc with a gap' | 'ring with a bar' | 'square on its corner' | 'ring';

const SIGNS: Record<Outcome, { form: Form; ink: Ink }> = {
  conforms: { form: 'disc', ink: 'good' },
  met: { form: 'disc', ink: 'good' },
  'meets the plan': { form: 'disc', ink: 'good' },
  accepted: { form: 'disc', ink: 'good' },
  'in force': { form: 'disc', ink: 'good' },
  'conforms conditionally': { form: 'disc with a gap', ink: 'caution' },
  'accepted on concession': { form: 'disc with a gap', ink: 'caution' },
  'does not conform conditionally': { form: 'ring with a bar', ink: 'caution' },
  'on hold': { form: 'ring with a bar', ink: 'caution' },
  'does not conform': { form: 'square on its corner', ink: 'bad' },
  'not met': { form: 'square on its corner', ink: 'bad' },
  'does not meet the plan': { form: 'square on its corner', ink: 'bad' },
  'not accepted': { form: 'square on its corner', ink: 'bad' },
  withdrawn: { form: 'square on its corner', ink: 'bad' },
  undecided: { form: 'ring', ink: 'open' },
  'not yet decidable': { form: 'ring', ink: 'open' },
  'not evaluated': { form: 'ring', ink: 'open' },
  superseded: { form: 'ring', ink: 'open' },
};

/** The ink in which the word beside the sign is written. */
export function outcomeInk(outcome: Outcome): Ink {
  return SIGNS[outcome].ink;
}

/** The sign that stands beside an outcome's word; its form alone tells it apart. */
export function outcomeSign(outcome: Outcome, { at, radius }: { at: Place; radius: number }): Mark[] {
  const { form, ink } = SIGNS[outcome];
  const [x, y] = at;
  const part = `outcome: ${form}`;
  const dot = (shape: 'disc' | 'ring'): Mark => ({ mark: 'dot', part, at, radius, form: shape, ink });
  switch (form) {
    case 'disc':
    case 'ring':
      return [dot(form)];
    case 'disc with a gap':
      return [
        dot('disc'),
        stroke([x - radius * 0.1, y - radius], [x - radius * 0.1, y + radius], 'paper', radius * 0.5),
      ];
    case 'ring with a bar':
      return [dot('ring'), stroke([x - radius * 0.9, y], [x + radius * 0.9, y], ink, radius * 0.5)];
    case 'square on its corner': {
      return [{ mark: 'area', part, points: diamondCorners(at, radius), fill: ink }];
    }
  }
}

function stroke(from: Place, to: Place, ink: Ink, width: number): Mark {
  return { mark: 'line', points: [from, to], stroke: { ink, width } };
}
