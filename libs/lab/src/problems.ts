import { z } from 'zod';

/**
 * The closed list of what can be wrong with an input. Codes are never renamed; a new one is added here first,
 * with its row in docs/formats.md.
 */
export const PROBLEM_CODES = [
  'specimen.destroyed',
  'state.conflict',
  'unread.quota',
  'unread.closed',
  'file.missing',
  'file.empty',
  'file.too-large',
  'file.type-mismatch',
  'file.compressed',
  'file.encoding',
  'file.nul-byte',
  'file.control-char',
  'file.no-final-newline',
  'file.truncated',
  'file.name-invalid',
  'request.too-many-parts',
  'request.not-found',
  'request.malformed',
  'request.method',
  'request.not-acceptable',
  'request.no-length',
  'request.too-long',
  'csv.line-ending',
  'csv.delimiter',
  'csv.row-width',
  'csv.blank-line',
  'csv.quote',
  'csv.line-too-long',
  'csv.too-many-columns',
  'csv.too-many-rows',
  'header.duplicate-row',
  'header.missing',
  'header.no-data',
  'header.duplicate-channel',
  'header.name-invalid',
  'header.unknown-channel',
  'header.missing-channel',
  'run.duplicate',
  'run.near-duplicate',
  'run.too-short',
  'unit.missing',
  'unit.unknown',
  'unit.wrong-dimension',
  'unit.ambiguous',
  'signal.out-of-range',
  'signal.saturated',
  'signal.spike',
  'signal.dropout',
  'signal.stuck',
  'signal.open-circuit',
  'signal.below-absolute-zero',
  'signal.negative-pressure',
  'signal.swapped-channels',
  'signal.repeated-block',
  'signal.too-smooth',
  'signal.resolution',
  'signal.step',
  'signal.misaligned',
  'signal.no-event',
  'meta.missing',
  'meta.duplicate',
  'meta.text-invalid',
  'meta.too-many',
  'meta.date',
  'meta.unknown',
  'number.decimal-comma',
  'number.thousands',
  'number.syntax',
  'number.missing',
  'number.not-finite',
  'number.out-of-range',
  'time.duplicate',
  'time.not-increasing',
  'time.gap',
  'time.rate-change',
  'time.jitter',
  'time.range',
  'time.negative',
  'json.syntax',
  'json.encoding',
  'json.too-deep',
  'json.duplicate-key',
  'body.empty',
  'body.not-object',
  'body.too-large',
  'body.media-type',
  'body.missing-field',
  'body.unknown-field',
  'body.type',
  'body.range',
  'body.enum',
  'body.format',
  'body.text-invalid',
  'body.not-found',
  'query.invalid',
  'auth.required',
  'auth.forbidden',
  'auth.again',
  'auth.failed',
  'rate.limited',
  'token.revoked',
  'token.expired',
  'idempotency.key-missing',
  'idempotency.key-invalid',
  'idempotency.in-progress',
  'idempotency.mismatch',
  'version.required',
  'version.stale',
  'duty.conflict',
  'service.unavailable',
  'service.busy',
  'storage.full',
  'internal',
] as const;
export const ProblemCode = z.enum(PROBLEM_CODES);
export type ProblemCode = z.infer<typeof ProblemCode>;

/** One thing wrong, or doubtful, with where it stands and what to do: the same fields on screen, terminal and wire. */
export const Problem = z.strictObject({
  code: ProblemCode,
  /** What was wrong, where, in one or two sentences. */
  detail: z.string(),
  file: z.string().optional(),
  /** Physical line of the file as sent, from 1. */
  line: z.number().int().optional(),
  /** Field of that line, from 1. */
  column: z.number().int().optional(),
  channel: z.string().optional(),
  /** Place in a JSON document (RFC 6901). */
  pointer: z.string().optional(),
  parameter: z.string().optional(),
  /** At most 100 characters, control and bidirectional characters shown as escapes. */
  found: z.string().optional(),
  expected: z.string().optional(),
  action: z.string().optional(),
});
export type Problem = z.infer<typeof Problem>;

/** A refusal: up to 100 problems, how many there are in all, and the first as the headline. */
export class Refusal extends Error {
  readonly problems: Problem[];
  problemCount: number;
  /** What became of the bytes: whoever keeps a refused run file says so here before the answer goes out. */
  stored: { stored?: false | 'unread'; unreadFileId?: string } = {};

  constructor(problems: Problem | Problem[], count?: number) {
    const list = Array.isArray(problems) ? problems : [problems];
    super(list[0]?.detail ?? 'refused');
    this.problems = list.slice(0, 100);
    this.problemCount = count ?? list.length;
  }

  /** Tells one thing more beside what was found; it stands in the list however long that is. */
  also(problem: Problem): void {
    this.problems.splice(99);
    this.problems.push(problem);
    this.problemCount += 1;
  }

  get code(): ProblemCode {
    return this.problems[0]?.code ?? 'internal';
  }
}

/** What was found, safe to show: cut at 100 characters, with control and bidirectional characters as escapes. */
export function shown(found: string): string {
  let out = '';
  for (const character of found) {
    if (out.length >= 100) return `${out.slice(0, 99)}…`;
    const point = character.codePointAt(0) ?? 0;
    out += isHidden(point) ? `\\u${point.toString(16).toUpperCase().padStart(4, '0')}` : character;
  }
  return out;
}

function isHidden(point: number): boolean {
  if (point < 32 || (point >= 127 && point < 160)) return true;
  if (point >= 0x200b && point <= 0x200f) return true;
  if (point >= 0x2028 && point <= 0x202e) return true;
  if (point >= 0x2066 && point <= 0x2069) return true;
  return point === 0xfeff || (point >= 0xd800 && point <= 0xdfff);
}
