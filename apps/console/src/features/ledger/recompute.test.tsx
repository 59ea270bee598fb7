// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { RecomputationAnswer, RecomputationInList } from '../../client/answers.js';
import { newQueryClient } from '../../client/queries.js';
import { Recompute } from './recompute.js';

configure({ asyncUtilTimeout: 10_000 });

const LAST = { number: 4, at: '2031-03-04T09:00:00Z', by: 'p-two', software: 'breakbook 0.2.0', runs: 3, identical: 1 };
const IN_LIST: RecomputationInList = {
  ...LAST,
  different: 1,
  refused: 1,
  evaluations: { evaluations: 2, identical: 1, different: 1, refused: 0 },
};
const WHOLE: RecomputationAnswer = {
  ...LAST,
  different: [
    {
      run: '162',
      method: { method: 'BURST-CLAMP', revision: 2 },
      software: 'breakbook 0.1.0',
      differences: [
        {
          pointer: '/characteristics/0/value/value',
          place: 'characteristics / burstPressure',
          kept: '1839.1',
          now: '1839.2',
        },
        { pointer: '/flags/1', place: 'flags / 2', now: '{}' },
      ],
      count: 5,
    },
  ],
  refused: [{ run: '163', because: 'The bytes are damaged.' }],
  evaluations: {
    evaluations: 2,
    identical: 1,
    different: [
      {
        evaluation: 8,
        lot: 'L-12',
        software: 'breakbook 0.1.0',
        differences: [
          { pointer: '/result/outcome', place: 'result / outcome', kept: '"undecided"', now: '"meets the plan"' },
        ],
        count: 1,
      },
      {
        evaluation: 9,
        lot: 'L-13',
        software: 'breakbook 0.1.0',
        differences: [{ pointer: '/judgements/161/verdicts/0/zone', place: 'zone', now: '"inside the limit"' }],
        count: 7,
        added: [
          { name: 'steps', places: 3 },
          { name: 'zone', places: 4 },
        ],
      },
    ],
    refused: [],
  },
};
let items: RecomputationInList[];
let asked: string[];

beforeEach(() => {
  items = [IN_LIST];
  asked = [];
  const fetched = async (path: string, init?: RequestInit) => {
    asked.push(`${init?.method ?? 'GET'} ${path}`);
    if (init?.method === 'POST')
      return Response.json(
        { title: 'Forbidden', detail: 'This is not your duty.', action: 'Ask an auditor.' },
        { status: 403 },
      );
    return Response.json(path.endsWith('/4') ? WHOLE : { items });
  };
  vi.stubGlobal('fetch', fetched);
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function shown() {
  render(
    <QueryClientProvider client={newQueryClient()}>
      <Recompute />
    </QueryClientProvider>,
  );
}

describe('reading every run again', () => {
  it('says how many came out as they were kept, and of the others what differs and since when', async () => {
    shown();
    expect((await screen.findByText(/^Recomputation 4/)).textContent).toBe(
      'Recomputation 4: 1 of 3 runs came out as they were kept, to the last bit, 1 did not, 1 could not be worked out again; ' +
        '1 of 2 evaluations came out as they were kept, to the last bit, 1 did not. By breakbook 0.2.0.',
    );
    const table = await screen.findByRole('table', { name: 'What is not as it was kept' });
    const rows = within(table).getAllByRole('row').slice(1);
    expect(rows.map((row) => [...row.children].map(({ textContent }) => textContent))).toEqual([
      ['run 163', '', 'The bytes are damaged.'],
      ['run 162', 'BURST-CLAMP rev. 2, breakbook 0.1.0', 'characteristics / burstPressure: was 1839.1, is 1839.2'],
      ['run 162', 'BURST-CLAMP rev. 2, breakbook 0.1.0', 'flags / 2: was not there, is {}'],
      ['run 162', 'BURST-CLAMP rev. 2, breakbook 0.1.0', 'and 3 more'],
      ['evaluation 8 of lot L-12', 'breakbook 0.1.0', 'result / outcome: was "undecided", is "meets the plan"'],
      [
        'evaluation 9 of lot L-13',
        'breakbook 0.1.0',
        'worked out now and not kept then: steps (3), zone (4). Nothing that was kept is otherwise.',
      ],
    ]);
  });

  it('asks for no differences where there are none', async () => {
    items = [{ ...LAST, identical: 3, different: 0, refused: 0 }];
    shown();
    expect((await screen.findByText(/^Recomputation 4/)).textContent).toContain('3 of 3 runs');
    expect(asked).toEqual(['GET /api/recomputations']);
    expect(screen.queryByRole('table')).toBeNull();
  });

  it('says why it was not begun', async () => {
    shown();
    fireEvent.click(screen.getByRole('button', { name: 'Work every number out again' }));
    expect((await screen.findByText(/This is not your duty/)).textContent).toContain('Ask an auditor.');
    expect(asked).toContain('POST /api/recomputations');
  });
});
