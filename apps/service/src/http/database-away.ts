import { Refusal } from '@breakbook/lab';
import {
  QueryRunnerAlreadyReleasedError,
  QueryRunnerProviderAlreadyReleasedError,
  TransactionNotStartedError,
} from 'typeorm';

/** How the server, or the way to it, says that it is going, gone or not there yet (PostgreSQL's appendix A; errno). */
const AWAY = new Set(['57P01', '57P02', '57P03', '53300', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT']);
const FULL = new Set(['53100', 'ENOSPC', 'EDQUOT']);
/** The driver's own words for a connection that broke; it gives no code. */
const BROKEN = /^Connection terminated|connection error and is not queryable/i;
/** What the mapper says to whoever goes on with a connection that broke under a change. */
const LATE = [QueryRunnerAlreadyReleasedError, QueryRunnerProviderAlreadyReleasedError, TransactionNotStartedError];

interface Fault {
  code?: unknown;
  syscall?: unknown;
  message?: unknown;
  driverError?: unknown;
}

/** What an error means for whoever asked, where it is the database or its disk that fails; undefined for all else. */
export function databaseRefusal(error: unknown): Refusal | undefined {
  if (typeof error !== 'object' || error === null) return undefined;
  const { code, syscall, message, driverError } = error as Fault;
  if (typeof code === 'string' && FULL.has(code))
    return new Refusal({
      code: 'storage.full',
      detail: 'There is no room left to keep anything. What you sent was not kept.',
      action: "Tell the lab's administrator, and send it again when there is room.",
    });
  const isAway =
    (typeof code === 'string' && (AWAY.has(code) || code.startsWith('08'))) ||
    syscall === 'connect' ||
    (typeof message === 'string' && BROKEN.test(message)) ||
    LATE.some((late) => error instanceof late);
  if (isAway)
    return new Refusal({
      code: 'service.unavailable',
      detail: 'The database does not answer.',
      action: 'Try again in a few seconds. A run is sent again under its own key, which makes nothing twice.',
    });
  return databaseRefusal(driverError);
}
