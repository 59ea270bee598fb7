import { expect } from 'vitest';
import { type Answer, type SignedInCaller } from './service.ts';

/** Asks for a proposal to be approved, exactly as it is shown to this person now. */
export async function approve(by: SignedInCaller, proposal: number): Promise<Answer> {
  const { body } = await by.ask('GET', `/api/proposals/${proposal}`);
  await by.again();
  return by.ask('POST', `/api/proposals/${proposal}/approval`, { body: { shown: body.sha256 } });
}

/** Proposes a revision, which must be taken, and has another person approve it. */
export async function proposeAndApprove(
  proposer: SignedInCaller,
  approver: SignedInCaller,
  address: string,
  body: unknown,
): Promise<Answer['body']> {
  const answer = await proposer.ask('POST', address, { body });
  expect(answer.status, `${address}: ${JSON.stringify(answer.body)}`).toBe(201);
  const approved = await approve(approver, answer.body.standing.proposal);
  expect(approved.status, `${address}: ${JSON.stringify(approved.body)}`).toBe(200);
  return approved.body;
}
