import { type Answer, type SignedInCaller, type TestService } from './service.ts';

/** Waits for a job that was asked for, and answers what came of it. */
export async function jobDone(by: SignedInCaller, { status, body }: Answer): Promise<Answer['body']> {
  if (status !== 202) throw new Error(`${status} ${JSON.stringify(body)}`);
  for (;;) {
    const job = (await by.ask('GET', `/api/jobs/${body.id}`)).body;
    if (job.state === 'done') return job;
    if (job.state !== 'waiting' && job.state !== 'running') throw new Error(JSON.stringify(job));
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** Reviews the runs of a keyed lot, which are called <lot>-r1 and so on. */
export async function reviewKeyedLot(reviewer: SignedInCaller, lot: string, runs: number): Promise<void> {
  for (let n = 1; n <= runs; n += 1) {
    const { headers } = await reviewer.ask('GET', `/api/runs/${lot}-r${n}`);
    const etag = { 'if-match': headers.get('etag') ?? '' };
    const { status, body } = await reviewer.ask('POST', `/api/runs/${lot}-r${n}/reviews`, { body: {}, headers: etag });
    if (status !== 201) throw new Error(`${status} ${JSON.stringify(body)}`);
  }
}

/** An unsigned report of a lot as it stands. */
export async function draftReport(reviewer: SignedInCaller, issuer: SignedInCaller, lot: string): Promise<number> {
  const { evaluation } = await jobDone(reviewer, await reviewer.ask('POST', `/api/lots/${lot}/evaluations`));
  const body = { kind: 'lot test report' };
  return (await jobDone(issuer, await issuer.ask('POST', `/api/evaluations/${evaluation}/documents`, { body })))
    .document;
}

/** Asks to have a document signed as it is. */
export async function askToSign(issuer: SignedInCaller, n: number, more: object = {}): Promise<Answer> {
  const { sha256: shown } = (await issuer.ask('GET', `/api/documents/${n}`)).body;
  return issuer.ask('POST', `/api/documents/${n}/signing`, { body: { shown, ...more } });
}

/** The file of a document. */
export async function fileOf(by: SignedInCaller, n: number): Promise<Uint8Array> {
  return new Uint8Array(await (await by.fetch(`/api/documents/${n}.pdf`)).arrayBuffer());
}

/** The public keys of the service's lab, as anybody is told them. */
export async function publishedKeys({ anonymous, lab }: TestService): Promise<unknown> {
  return (await anonymous.ask('GET', `/api/keys/${lab.labId}`)).body;
}
