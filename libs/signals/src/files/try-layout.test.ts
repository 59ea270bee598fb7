import type { Layout } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { tryLayout } from './try-layout.js';

const LAYOUT: Layout = {
  layout: 'R1-log',
  revision: 1,
  rig: 'R1',
  form: 'layout 1',
  time: { column: 'n', kind: 'sample number', rate: { value: 200, unit: 'Hz' } },
  columns: [{ column: 'P', channel: 'rimPressure', scale: -2, noReading: [''] }],
  requiredMetadata: [],
  metadata: 'none',
};
const rows = (of: (index: number) => string, count: number) =>
  `n [1],P [bar]\n${Array.from({ length: count }, (_, index) => of(index)).join('\n')}\n`;
const tried = (text: string, over: Partial<Layout> = {}) =>
  tryLayout('log.csv', [new TextEncoder().encode(text)], { ...LAYOUT, ...over });

describe('a layout that is tried', () => {
  it('shows the first dozen rows: sample n at n / rate seconds, channels by sign and scale, null without a reading', async () => {
    const trial = await tried(rows((i) => `${i},${i === 3 ? '' : i}`, 40));
    expect(trial).toMatchObject({ read: true, rows: 40 });
    if (!trial.read) throw new Error('it reads');
    const [time, pressure] = trial.first;
    expect(time).toEqual(Array.from({ length: 12 }, (_, i) => i / 200));
    expect(pressure?.slice(0, 5)).toEqual([-0, -2, -4, null, -8]);
    expect(pressure).toHaveLength(12);
  });

  it('answers with what stands against it, place by place, and counts all of it', async () => {
    const trial = await tried(rows((i) => `${i},${i % 2 ? 'Err' : i}`, 300));
    expect(trial).toMatchObject({ read: false, problemCount: 150 });
    if (trial.read) throw new Error('it does not read');
    expect(trial.problems).toHaveLength(100);
    expect(trial.problems[0]).toMatchObject({ code: 'number.syntax', line: 3, column: 2, found: 'Err' });
  });

  it('holds units against the kinds of channels where they are known', async () => {
    const channels = [{ channel: 'rimPressure', kind: 'force' as const, required: false }];
    const trial = await tryLayout('log.csv', [new TextEncoder().encode(rows((i) => `${i},${i}`, 3))], LAYOUT, {
      channels,
    });
    expect(trial).toMatchObject({ read: false, problems: [{ code: 'unit.wrong-dimension', line: 1, column: 2 }] });
  });
});
