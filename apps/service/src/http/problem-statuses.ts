import type { ProblemCode } from '@breakbook/lab';

/** HTTP status by code; a code that is not listed takes its group's. */
const BY_CODE: Partial<Record<ProblemCode, number>> = {
  'specimen.destroyed': 409,
  'state.conflict': 409,
  'file.missing': 400,
  'request.too-many-parts': 400,
  'file.too-large': 413,
  'file.type-mismatch': 415,
  'file.compressed': 415,
  'csv.too-many-rows': 413,
  'run.duplicate': 409,
  'json.syntax': 400,
  'json.encoding': 400,
  'json.too-deep': 400,
  'json.duplicate-key': 400,
  'body.empty': 400,
  'body.too-large': 413,
  'body.media-type': 415,
  'request.not-found': 404,
  'request.malformed': 400,
  'request.method': 405,
  'request.not-acceptable': 406,
  'request.no-length': 411,
  'request.too-long': 414,
  'auth.required': 401,
  'auth.forbidden': 403,
  'auth.again': 401,
  'auth.failed': 401,
  'rate.limited': 429,
  'token.revoked': 401,
  'token.expired': 401,
  'idempotency.key-missing': 400,
  'idempotency.key-invalid': 400,
  'idempotency.in-progress': 409,
  'idempotency.mismatch': 422,
  'version.required': 428,
  'version.stale': 412,
  'duty.conflict': 403,
  'unread.closed': 409,
  'service.unavailable': 503,
  'storage.full': 507,
  'service.busy': 503,
  internal: 500,
};

/** Everything else is a content that was read and refused. */
export function statusOf(code: ProblemCode): number {
  return BY_CODE[code] ?? 422;
}

/** A short title made from the code: `number.decimal-comma` is "Decimal comma". */
export function titleOf(code: ProblemCode): string {
  const words = (code.split('.')[1] ?? code).replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
