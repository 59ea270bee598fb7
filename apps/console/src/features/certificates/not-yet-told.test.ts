import { expect, it } from 'vitest';
import type { CertificateRecord } from '../../client/answers.js';
import { notYetTold } from './not-yet-told.js';

const sent = (...all: [string, CertificateRecord['state']][]) =>
  all.map(([recipient, state]) => ({ recipient, state, way: 'by mail', by: 'issuer', at: '2026-07-14T08:00:00Z' }));

it('names whoever was sent a certificate and not told since how it stands', () => {
  const both = sent(['design office', 'in force'], ['federation', 'in force']);
  expect(notYetTold({ state: 'in force', sent: both })).toEqual([]);
  expect(notYetTold({ state: 'on hold', sent: both })).toEqual(['design office', 'federation']);
  const told = [...both, ...sent(['federation', 'on hold'])];
  expect(notYetTold({ state: 'on hold', sent: told })).toEqual(['design office']);
  // Released again: who heard of the hold is to hear of that.
  expect(notYetTold({ state: 'in force', sent: told })).toEqual(['federation']);
});
