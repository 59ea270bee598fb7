import type { CustodyEvent } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { custodyGaps } from './custody-gaps.js';

let hour = 0;
function event(step: CustodyEvent['step'], to: string, more: Partial<CustodyEvent> = {}): CustodyEvent {
  hour++;
  return {
    specimen: 'X1',
    step,
    at: `2026-05-04T${String(hour % 24).padStart(2, '0')}:00:00Z`,
    to,
    place: 'Store',
    condition: 'Whole',
    changesItem: false,
    recordedBy: 'otto',
    ...more,
  };
}
const gapsOf = (make: () => CustodyEvent[]) => {
  hour = 0;
  return custodyGaps(make()).map(({ sentence }) => sentence);
};

describe('custodyGaps', () => {
  it('finds none where each entry joins the one before, in whatever order they were written', () => {
    const whole = () => [
      event('received', 'otto', { from: 'A customer', seal: 'S1' }),
      event('seal opened', 'otto', { seal: 'S1' }),
      event('examined', 'otto'),
      event('sealed', 'otto', { seal: 'S2' }),
      event('handed over', 'ines', { from: 'otto', seal: 'S2' }),
      event('tested', 'ines', { seal: 'S2', changesItem: true }),
    ];
    expect(gapsOf(whole)).toEqual([]);
    expect(gapsOf(() => whole().reverse())).toEqual([]);
  });

  it.each([
    ['where it came from', () => [event('examined', 'otto')]],
    ['no hand-over is recorded', () => [event('received', 'otto', { from: 'A' }), event('examined', 'ines')]],
    [
      'who had it is not recorded',
      () => [event('received', 'otto', { from: 'A' }), event('handed over', 'ines', { from: 'max' })],
    ],
    [
      'left under seal S1 and found under seal S2',
      () => [event('received', 'otto', { from: 'A', seal: 'S1' }), event('stored', 'otto', { seal: 'S2' })],
    ],
    [
      'that the seal was found whole is not recorded',
      () => [event('received', 'otto', { from: 'A', seal: 'S1' }), event('examined', 'otto')],
    ],
    [
      'that this was opened is not recorded',
      () => [event('received', 'otto', { from: 'A', seal: 'S1' }), event('sealed', 'otto', { seal: 'S2' })],
    ],
    [
      'how it came back is not recorded',
      () => [event('received', 'otto', { from: 'A' }), event('given out', 'A'), event('tested', 'otto')],
    ],
  ])('tells %j', (said, make) => {
    const gaps = gapsOf(make);
    expect(gaps).toHaveLength(1);
    expect(gaps[0]).toContain(said);
  });

  it('keeps items apart', () => {
    hour = 0;
    const events = [event('received', 'otto', { from: 'A' }), event('examined', 'ines', { specimen: 'X2' })];
    expect(custodyGaps(events).map(({ specimen }) => specimen)).toEqual(['X2']);
  });
});
