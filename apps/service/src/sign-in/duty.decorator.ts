import { type Duty as DutyName } from '@breakbook/lab';
import { SetMetadata } from '@nestjs/common';

export const DUTY = Symbol('duty of a route');

/** Who may call a route: whoever has one of these duties, anybody signed in, or anybody at all. */
export type RouteDuty = readonly DutyName[] | 'signed in' | 'anybody';

/** Every route says who may call it; a route without it is refused to everybody, and fails a test. */
export function Duty(first: DutyName | 'signed in' | 'anybody', ...more: DutyName[]) {
  const duty: RouteDuty = first === 'signed in' || first === 'anybody' ? first : [first, ...more];
  return SetMetadata(DUTY, duty);
}
