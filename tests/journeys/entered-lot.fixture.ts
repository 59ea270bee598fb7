import type { Duty, LotBundle } from '@breakbook/lab';
import { expect } from 'vitest';
import { proposeAndApprove } from '../approved.ts';
import type { SignedInCaller, TestService } from '../service.ts';

/** The people of a lab, signed in. */
export interface People {
  called(person: string): SignedInCaller;
  /** The first who has this duty, and is not the one left out. */
  with(duty: Duty, leftOut?: string): SignedInCaller;
}

/** Signs in everybody a lot folder names, each with the duties they have there and no other. */
export async function signInPeople(service: TestService, { people }: LotBundle): Promise<People> {
  const callers = new Map<string, SignedInCaller>();
  for (const { person, duties } of people) callers.set(person, await service.signIn(person, duties));
  const called = (person: string) => {
    const caller = callers.get(person);
    if (!caller) throw new Error(`The lot folder names no ${person}.`);
    return caller;
  };
  return {
    called,
    with(duty, leftOut) {
      const one = people.find(({ person, duties }) => duties.includes(duty) && person !== leftOut);
      if (!one) throw new Error(`Nobody in the lot folder has the duty ${duty}.`);
      return called(one.person);
    },
  };
}

/** Posts what must be taken. */
export async function taken(caller: SignedInCaller, address: string, body: unknown) {
  const answer = await caller.ask('POST', address, { body });
  expect(answer.status, `${address}: ${JSON.stringify(answer.body)}`).toBe(201);
  return answer.body;
}

/** Posts a definition, and has another person approve it: whom it names, or else another definer. */
async function approved(people: People, by: SignedInCaller, address: string, body: object): Promise<void> {
  const named = 'approvedBy' in body ? people.called(String(body.approvedBy)) : people.with('define', by.person);
  await proposeAndApprove(by, named, address, body);
}

/** Enters over HTTP what a lot folder says but for its runs, each thing by somebody who has the duty for it. */
export async function enterLot(bundle: LotBundle, people: People) {
  const [definer, metrologist, stores] = [people.with('define'), people.with('calibrate'), people.with('draw')];
  const product = await taken(definer, '/api/products', bundle.product);
  for (const limit of bundle.limits)
    await approved(people, people.with('define', limit.approvedBy), '/api/limits', limit);
  for (const method of bundle.methods) await approved(people, definer, '/api/methods', method);
  await approved(people, definer, '/api/plans', bundle.plan);
  for (const sensor of bundle.sensors) await taken(metrologist, '/api/sensors', sensor);
  for (const { placements, ...rig } of bundle.rigs) {
    await taken(metrologist, '/api/rigs', rig);
    for (const placement of placements) await taken(metrologist, `/api/rigs/${rig.rig}/placements`, placement);
  }
  for (const calibration of bundle.calibrations) await taken(metrologist, '/api/calibrations', calibration);
  for (const layout of bundle.layouts) await approved(people, definer, '/api/layouts', layout);
  const lot = await taken(stores, '/api/lots', { ...bundle.lot, customer: bundle.customer });
  const [first, ...others] = bundle.specimens;
  await taken(stores, '/api/specimens', first);
  const several = await taken(stores, '/api/specimens/several', { specimens: others });
  return { product, lot, several };
}
