import { Layout } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { draftOf, layoutOf } from './layout-draft.js';

const PLAIN: Layout = {
  layout: 'R1-log',
  revision: 1,
  rig: 'R1',
  form: 'layout 1',
  time: { column: 'time', kind: 'time' },
  columns: [{ column: 'P rim', channel: 'rimPressure' }],
  requiredMetadata: ['medium'],
};
const DECLARED: Layout = {
  ...PLAIN,
  text: {
    encoding: 'windows-1252',
    delimiter: 'semicolon',
    decimalMark: 'comma',
    thousandsMark: 'point',
    lineEnds: 'CR',
    commentMark: '//',
    preambleLines: 3,
    gzipUpTo: 1_000_000,
  },
  header: { kind: 'none', columns: [{ column: 'n' }, { column: 'P', unit: 'bar' }] },
  unitNames: [{ written: 'psig', unit: '[psi]', reference: 'gauge' }],
  time: {
    column: 'n',
    kind: 'sample number',
    rate: { value: 200, unit: 'Hz' },
    repeatedStamps: 'spread evenly',
    gapsExpected: true,
    beginsBeforeZero: true,
  },
  columns: [
    {
      column: 'P',
      channel: 'rimPressure',
      scale: -0.1,
      noReading: ['', 'OL', 'No data'],
      sampledEvery: { value: 10, unit: 's' },
    },
  ],
  requiredMetadata: [],
  metadata: 'none',
  clockZone: '+01:00',
};
const DATED: Layout = {
  ...PLAIN,
  header: { kind: 'units in the next row' },
  time: { column: 'Date', kind: 'date-time', clockColumn: 'Time', form: 'DD.MM.YYYY hh:mm:ss', zone: 'Europe/Lisbon' },
};
const EPOCH: Layout = {
  ...PLAIN,
  header: { kind: 'name and unit', brackets: 'round' },
  time: { column: 't', kind: 'epoch', unit: 'ms' },
};

describe('a layout that is typed', () => {
  it.each([
    ['as layout 1 has it', PLAIN],
    ['with every member', DECLARED],
    ['with date and time in two columns', DATED],
    ['with an epoch and round brackets', EPOCH],
  ])('comes out as it went in: %s', (_, layout) => {
    expect(Layout.parse(layout)).toEqual(layout);
    expect(layoutOf(draftOf(layout))).toEqual({ layout });
  });

  it('leaves columns of the file without a channel out, and keeps them to be given one', () => {
    const draft = draftOf(PLAIN, ['time', 'P rim', 'T room']);
    expect(draft.columns.map(({ column, channel }) => [column, channel])).toEqual([
      ['P rim', 'rimPressure'],
      ['T room', ''],
    ]);
    expect(layoutOf(draft)).toEqual({ layout: PLAIN });
  });

  it('says what is missing, with its place, and guesses nothing', () => {
    const draft = draftOf(DECLARED);
    const problems = (over: Partial<typeof draft>) => {
      const read = layoutOf({ ...draft, ...over });
      return 'problems' in read ? read.problems.map(({ pointer }) => pointer) : [];
    };
    expect(problems({ time: { ...draft.time, rate: '' } })).toEqual(['/time/rate/value']);
    expect(problems({ time: { ...draft.time, kind: 'date-time', form: 'DD.MM.YYYY hh:mm:ss', zone: '' } })).toContain(
      '/time/zone',
    );
    expect(problems({ unitNames: [{ written: 'psig', unit: '', reference: '' }] })).toEqual(['/unitNames/0/unit']);
    expect(problems({ preambleLines: 'three' })).toEqual(['/text/preambleLines']);
    expect(problems({ delimiter: 'comma' })).toContain('/text/delimiter');
    expect(problems({ columns: [] })).toEqual(['/columns']);
  });
});
