// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { newQueryClient } from '../../../client/queries.js';
import { ReaderProvider } from '../../../parts/units/reader.js';
import { LookCloser } from './look-closer.js';

configure({ asyncUtilTimeout: 10_000 });

/** A record of 1600 s at one sample a second, whose reading is its time. */
const RECORD = { channel: 'rimPressure', unit: 'kPa', reference: 'gauge', from: 0, to: 1599, samples: 1600 };
const EVENTS = [{ name: 'peak', time: 800, value: 800, channel: 'rimPressure' }];
let asked: string[];

/** Answers as the service does, but with one point in eight where there are more than two hundred. */
function answerTo(path: string): unknown {
  asked.push(path);
  const { pathname, searchParams } = new URL(path, 'http://lab');
  if (pathname === '/api/runs/77/channels')
    return { items: [RECORD, { ...RECORD, channel: 'roomTemperature', unit: 'Cel' }] };
  const [from, to] = [Number(searchParams.get('from')), Number(searchParams.get('to'))];
  const time = Array.from({ length: 1600 }, (_, i) => i).filter((when) => when >= from && when <= to);
  const drawn = time.length > 200 ? time.filter((when) => when % 8 === 0) : time;
  const channel = pathname.split('/').at(-1);
  return { ...RECORD, channel, from, to, samples: time.length, whole: drawn === time, time: drawn, values: drawn };
}

beforeEach(() => {
  asked = [];
  vi.stubGlobal('fetch', async (path: string) => Response.json(answerTo(path)));
  render(
    <QueryClientProvider client={newQueryClient()}>
      <ReaderProvider>
        <LookCloser run="77" events={EVENTS} />
      </ReaderProvider>
    </QueryClientProvider>,
  );
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

async function opened() {
  const details = screen.getByText(/Look closer/).closest('details') as HTMLDetailsElement;
  details.open = true;
  fireEvent(details, new Event('toggle'));
  return screen.findByText(/^1.600 samples from/);
}
const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));

describe('looking closer at a trace', () => {
  it('asks for nothing before somebody looks', () => {
    expect(asked).toEqual([]);
  });

  it('says how many samples the points stand for, and lists single ones once they are few', async () => {
    await opened();
    expect(screen.getByRole('status').textContent).toContain('the smallest and the largest of each stretch');
    expect(screen.queryByRole('table')).toBeNull();
    press('closer');
    press('closer');
    expect((await screen.findByText(/^All 100 samples from/)).textContent).toContain('749');
    const rows = within(screen.getByRole('table', { name: 'Single samples' })).getAllByRole('row');
    expect(rows.length).toBe(101);
  });

  it('goes to a moment, and to another channel', async () => {
    await opened();
    press('peak');
    await screen.findByText(/^All 15 samples from/);
    expect(screen.getByRole('rowheader', { name: '800' })).toBeTruthy();
    fireEvent.change(screen.getByLabelText('Channel'), { target: { value: '1' } });
    await screen.findByText(/^1.600 samples from/);
    expect(asked.at(-1)).toContain('/channels/roomTemperature?from=0&to=1599');
  });

  it('says where there is no sample', async () => {
    await opened();
    for (let i = 0; i < 6; i++) press('closer');
    expect((await screen.findByText(/^There is no sample from/)).textContent).toContain('wider');
  });
});
