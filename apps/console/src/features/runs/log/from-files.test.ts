import { describe, expect, it } from 'vitest';
import { newDraft } from './draft.js';
import { headOf } from './file-head.js';
import { freshPassage, fromHead, strikesOf } from './from-files.js';

// Copenhagen keeps UTC+1 in November (directive 2000/84/EC).
const ZONE = 'Europe/Copenhagen';
const file = (lines: string) => headOf(new Blob([lines]));

describe('the head of a file', () => {
  it('is its lines of names and values, up to the table', async () => {
    const head = await file('# rig: R4\r\n# note : it: slipped \r\n\r\ntime [s],force [kN]\r\n# late: no\r\n0,1\r\n');
    expect([...head]).toEqual([
      ['rig', 'R4'],
      ['note', 'it: slipped'],
    ]);
  });

  it('fills in what nobody has typed, and nothing else', async () => {
    const head = await file('# specimen: 607\n# rig: R4\n# started: 2026-11-12T08:30:00Z\n# pad: whole\n# strike: 2\n');
    expect(fromHead(newDraft(), head, ZONE)).toEqual({
      specimen: '607',
      rig: 'R4',
      startedAt: '2026-11-12T09:30:00',
      conditions: [{ id: expect.any(String), name: 'pad', value: 'whole', unit: '' }],
    });
    const typed = { ...newDraft('608'), rig: 'R9', startedAt: '2026-01-01T00:00:00' };
    expect(Object.keys(fromHead(typed, head, ZONE))).toEqual(['conditions']);
  });

  it('with a start that is none leaves it to the person', async () => {
    expect(fromHead(newDraft(), await file('# started: this morning\n'), ZONE)).toEqual({});
  });
});

describe('the strikes of an impact run', () => {
  it('are one for each file, each begun when its file says, at the place of the one before', async () => {
    const heads = await Promise.all(['08:30', '08:42'].map((at) => file(`# started: 2026-11-12T${at}:00Z\n`)));
    const first = { ...freshPassage('impact', newDraft()), place: 'valve' };
    expect(
      strikesOf(
        [first],
        [
          { name: 'a.csv', head: heads[0] },
          { name: 'b.csv', head: heads[1] },
        ],
        ZONE,
      ).slice(1),
    ).toMatchObject([
      { kind: 'strike', title: 'Strike 2', file: 'a.csv', startedAt: '2026-11-12T09:30:00', place: 'valve' },
      { kind: 'strike', title: 'Strike 3', file: 'b.csv', startedAt: '2026-11-12T09:42:00', place: 'valve' },
    ]);
  });

  it('leave their start to be typed where only the kept bytes of an unread file are at hand', () => {
    expect(strikesOf([], [{ name: 'a.csv', head: undefined }], ZONE)).toMatchObject([{ startedAt: '' }]);
  });
});

it('a first stage begins with its run, a later one when somebody says so', () => {
  const draft = { ...newDraft(), startedAt: '2026-11-04T08:30:00' };
  const stage = freshPassage('heat', draft);
  expect(stage).toMatchObject({ kind: 'stage', startedAt: '2026-11-04T08:30:00', targetUnit: 'W' });
  expect(freshPassage('heat', { ...draft, passages: [stage] })).toMatchObject({ startedAt: '' });
});
