/** What the service said when it could not do what was asked (RFC 9457), in the fields a person needs. */
export class ProblemAnswer extends Error {
  constructor(
    readonly status: number,
    readonly title: string,
    readonly detail: string,
    readonly action: string | undefined,
  ) {
    super(detail);
  }
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
  const body: unknown = await answer.json().catch(() => undefined);
  const text = (name: string) => {
    const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
    return typeof value === 'string' && value !== '' ? value : undefined;
  };
  return new ProblemAnswer(
    answer.status,
    text('title') ?? 'The service could not answer',
    text('detail') ?? `The service answered with status ${answer.status} and gave no reason.`,
    text('action'),
  );
}
