// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { newQueryClient } from '../../client/queries.js';
import { Checkpoints } from './checkpoints.js';

configure({ asyncUtilTimeout: 10_000 });

const CHECKPOINT = {
  at: '2031-03-04T09:00:00Z',
  size: 120,
  root: 'a'.repeat(64),
  key: 'name+0+key',
  note: 'a\n120\nb\n\n— s\n',
};
const TREE = { size: 130, root: 'b'.repeat(64) };
let comparison: object;
let sent: unknown[];

beforeEach(() => {
  sent = [];
  comparison = { holds: true, earlier: CHECKPOINT, now: TREE, proof: [] };
  vi.stubGlobal('fetch', async (path: string, init?: RequestInit) => {
    if (init?.body) sent.push(JSON.parse(String(init.body)));
    if (path.endsWith('/comparison')) return Response.json(comparison);
    if (path.startsWith('/api/ledger/checkpoints')) return Response.json({ items: [CHECKPOINT], next: null });
    return Response.json({ items: [], next: null });
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function shown(signs = true) {
  render(
    <QueryClientProvider client={newQueryClient()}>
      <Checkpoints signs={signs} />
    </QueryClientProvider>,
  );
}

describe('checkpoints of the ledger', () => {
  it('hand out the last note, letter by letter, with its key', async () => {
    shown();
    const link = (await screen.findByText('Take it with you')) as HTMLAnchorElement;
    expect(decodeURIComponent(link.href.replace(/^.*?,/, ''))).toBe(CHECKPOINT.note);
    expect(link.download).toBe('ledger-checkpoint-120.txt');
    expect(screen.getByText('name+0+key')).toBeDefined();
  });

  it('are signed by those whose duty it is', () => {
    shown(false);
    expect(screen.queryByRole('button', { name: 'Sign a checkpoint now' })).toBeNull();
  });

  it.each([
    [{}, 'The ledger of 130 entries begins with the 120 that the checkpoint was signed over.'],
    [
      { holds: false, because: 'the ledger has 9 entries' },
      'The ledger is not the one the checkpoint was signed over: the ledger has 9 entries.',
    ],
  ])('are held against the ledger: %j', async (change, said) => {
    comparison = { ...comparison, ...change };
    shown();
    fireEvent.change(screen.getByLabelText('Its note'), { target: { value: CHECKPOINT.note } });
    fireEvent.change(screen.getByLabelText('The key beside it'), { target: { value: ' name+0+key ' } });
    fireEvent.click(screen.getByRole('button', { name: 'Compare' }));
    expect(await screen.findByText(said)).toBeDefined();
    expect(sent).toEqual([{ note: CHECKPOINT.note, key: 'name+0+key' }]);
  });
});
