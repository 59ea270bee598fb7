import { Refusal } from '@breakbook/lab';
import { QueryFailedError } from 'typeorm';

interface DatabaseFault {
  code?: string;
  /** Such as "Key (lab_id, key)=(0198…, dunlin-42) already exists." */
  detail?: string;
  constraint?: string;
  table?: string;
}

/** What the database refused because two people, or two machines, wanted the same thing; undefined for all else. */
export function refusalOf(error: unknown): Refusal | undefined {
  if (!(error instanceof QueryFailedError)) return undefined;
  const { code, constraint = '', table = 'row', detail = '' } = error.driverError as DatabaseFault;
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
  if (constraint.startsWith('used_')) {
    return new Refusal({
      code: 'state.conflict',
      pointer: '/specimen',
      detail: 'Another run of this specimen was recorded in the same moment, so this one is not the first of it.',
      action: 'Look at what that run left of the specimen, and record this one for the specimen that was run.',
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
    detail: `There is a ${table.replaceAll('_', ' ')} ${taken(detail)} already.`,
    action: 'Look at what is there; nothing was changed.',
  });
}

/** What must be unique and is not, as in: with key "dunlin-42". */
function taken(detail: string): string {
  const [, columns = '', values = ''] = /^Key \((.*?)\)=\((.*)\) already exists\.$/.exec(detail) ?? [];
  const names = columns.split(', ');
  const parts = values.split(', ');
  // A value that holds a comma itself cannot be told apart here.
  if (names.length !== parts.length) return 'like this';
  const named = names.flatMap((name, n) => (name === 'lab_id' ? [] : [`${name.replaceAll('_', ' ')} "${parts[n]}"`]));
  return `with ${named.join(' and ')}`;
}
