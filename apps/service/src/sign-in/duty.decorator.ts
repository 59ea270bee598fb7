import type { Duty as DutyName } from '@breakbook/lab';
import { SetMetadata } from '@nestjs/common';

export const DUTY = Symbol('duty of a route');
export const AGAIN = Symbol('passphrase again');
export const BEFORE_SECOND_FACTOR = Symbol('open before the second factor');
export const GIVEN_PASSPHRASE = Symbol('open to a given passphrase');

/** Who may call a route: whoever has one of these duties, any person signed in, or anybody at all. */
export type RouteDuty = readonly DutyName[] | 'signed in' | 'anybody';

/** Every route says who may call it; a route without it is refused to everybody, and fails a test. */
export function Duty(first: DutyName | 'signed in' | 'anybody', ...more: DutyName[]) {
  const duty: RouteDuty = first === 'signed in' || first === 'anybody' ? first : [first, ...more];
  return SetMetadata(DUTY, duty);
}

/**
 * The passphrase must have been given within the last five minutes, at sign-in or again (`POST /api/me/again`): for signing, deciding,
 * and changes of duties or keys, so that a screen left open signs nothing. The second factor is asked for with it from
 * whoever has one, and from whoever has a duty that needs one.
 */
export function Again() {
  return SetMetadata(AGAIN, true);
}

/** Also open to whoever has not chosen an own passphrase yet in place of the one that was given. */
export function WithGivenPassphrase() {
  return SetMetadata(GIVEN_PASSPHRASE, true);
}

/**
 * Also open where the second factor is missing: to whoever has one and has not given it in this session yet (`giving`),
 * or only to whoever has none and must get one first (`adding`).
 */
export function BeforeSecondFactor(to: 'giving' | 'adding') {
  return SetMetadata(BEFORE_SECOND_FACTOR, to);
}
