import { Problem } from '@breakbook/lab';

/** What the service said when it could not do what was asked (RFC 9457), in the fields a person needs. */
export class ProblemAnswer extends Error {
  constructor(
    readonly status: number,
    readonly title: string,
    readonly detail: string,
    readonly action: string | undefined,
    readonly refused: Refused = { problems: [], count: 0 },
  ) {
    super(detail);
  }
}

/** Everything that was wrong, and what became of the bytes that were sent. */
export interface Refused {
  /** The first of them where there are very many; `count` says how many there are. */
  problems: readonly Problem[];
  count: number;
  /** The unread file that keeps the bytes. */
  unreadFileId?: string;
}

/** Nothing answered at all. */
export function serviceAway(): ProblemAnswer {
  return new ProblemAnswer(
    0,
    'The service does not answer',
    'Breakbook could not be reached, so nothing was read and nothing was changed.',
    'See whether it is still running where it was started ("npm start"), then try again.',
  );
}

/** An answer that is not a success, whatever form it came in. */
export async function problemIn(answer: Response): Promise<ProblemAnswer> {
  return problemOf(answer.status, await answer.json().catch(() => undefined));
}

/** The same, its body read already. */
export function problemOf(status: number, body: unknown): ProblemAnswer {
  const fields = typeof body === 'object' && body !== null ? (body as Record<string, unknown>) : {};
  const text = (name: string) => {
    const value = fields[name];
    return typeof value === 'string' && value !== '' ? value : undefined;
  };
  const unreadFileId = text('unreadFileId');
  const problems = Array.isArray(fields.errors) ? fields.errors.flatMap(problemFrom) : problemFrom(fields);
  return new ProblemAnswer(
    status,
    text('title') ?? 'The service could not answer',
    text('detail') ?? `The service answered with status ${status} and gave no reason.`,
    text('action'),
    {
      problems,
      count: typeof fields.errorCount === 'number' ? fields.errorCount : problems.length,
      ...(unreadFileId === undefined ? {} : { unreadFileId }),
    },
  );
}

const ProblemFields = Problem.strip();

function problemFrom(fields: unknown): Problem[] {
  const { success, data } = ProblemFields.safeParse(fields);
  return success ? [data] : [];
}
