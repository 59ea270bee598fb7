import { Refusal } from '@breakbook/lab';
import { QueryFailedError } from 'typeorm';

interface DatabaseFault {
  code?: string;
  constraint?: string;
  table?: string;
}

/** What the database refused because two people, or two machines, wanted the same thing; undefined for all else. */
export function refusalOf(error: unknown): Refusal | undefined {
  if (!(error instanceof QueryFailedError)) return undefined;
  const { code, constraint = '', table = 'row' } = error.driverError as DatabaseFault;
  if (code === '40P01' || code === '40001') {
    return new Refusal({
      code: 'service.busy',
      detail: 'Two changes waited for each other, and this one gave way.',
      action: 'Try again.',
    });
  }
  if (code !== '23505') return undefined;
  if (constraint.startsWith('destroyed_once')) {
    return new Refusal({
      code: 'specimen.destroyed',
      detail: 'This specimen was destroyed in another run in the same moment.',
    });
  }
  if (constraint.endsWith('_record_id_version_key')) {
    return new Refusal({
      code: 'version.stale',
      detail: `Somebody else has changed this ${table} in the same moment.`,
      action: 'Look at the version in force and make the change again, if it is still needed.',
    });
  }
  return new Refusal({
    code: 'state.conflict',
    detail: `There is such a ${table.replaceAll('_', ' ')} already (${constraint}).`,
    action: 'Look at what is there; nothing was changed.',
  });
}
