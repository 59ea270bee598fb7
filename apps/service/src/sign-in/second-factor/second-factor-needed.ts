import { type Duty, Refusal } from '@breakbook/lab';
import { SIGNING_DUTIES } from '../forbidden-pairs.js';
import type { RouteAdmission } from '../route-admissions.js';
import type { Session } from '../sessions.js';

/** Duties whose acts are signed or give duties and keys: a passphrase alone, which may have been seen, does none of them. */
export const SECOND_FACTOR_DUTIES: readonly Duty[] = [...SIGNING_DUTIES, 'administer'];

/** Does somebody with these duties need something beside the passphrase for what is done in their name? */
export function needsSecondFactor(duties: readonly Duty[]): boolean {
  return duties.some((duty) => SECOND_FACTOR_DUTIES.includes(duty));
}

/** Whoever has a second factor gives it before anything opens; where the lab asks everybody for one, all others get one first. */
export function requireSecondFactor({ second, askedOfEveryone }: Session, admission: RouteAdmission): void {
  if (second === 'owed' && admission.beforeSecondFactor !== 'giving')
    throw new Refusal({
      code: 'auth.again',
      detail: 'You have a second factor, and have not given it in this session yet.',
      action: 'Give the code of your code generator (POST /api/me/second-factor), or use a passkey.',
    });
  if (second === 'none' && askedOfEveryone && admission.beforeSecondFactor === undefined)
    throw new Refusal({
      code: 'auth.again',
      detail: 'This lab asks everybody for a second factor, and you have none yet.',
      action: 'Add one on your own page (POST /api/me/code-generator), then do this again.',
    });
}

/** Passphrase and second factor must have been given within the last minutes. */
export function requireFresh(session: Session, admission: RouteAdmission): void {
  const { second, duties } = session;
  if (!session.fresh)
    throw new Refusal({
      code: 'auth.again',
      detail: 'This needs your passphrase again.',
      action: 'Sign in again, or give it alone (POST /api/me/again), then do the same within five minutes.',
    });
  if (second === 'none') {
    if (!needsSecondFactor(duties) || admission.beforeSecondFactor === 'adding') return;
    throw new Refusal({
      code: 'auth.again',
      detail: `This is done with a second factor beside the passphrase by whoever has the duty ${SECOND_FACTOR_DUTIES.join(' or ')}, and you have none yet.`,
      action: 'Add a code generator or a passkey on your own page (POST /api/me/code-generator), then do this again.',
    });
  }
  if (!session.secondFresh)
    throw new Refusal({
      code: 'auth.again',
      detail: 'This needs your second factor again.',
      action: 'Give its code (POST /api/me/second-factor) or use a passkey, then do the same within five minutes.',
    });
}
