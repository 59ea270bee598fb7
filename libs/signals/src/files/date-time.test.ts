import { describe, expect, it } from 'vitest';
import { readInstant } from './date-time.js';

describe('readInstant', () => {
  it.each([
    ['2031-03-04T09:12:00Z', '2031-03-04T09:12:00.000Z'],
    ['2031-03-04T10:12:00.250+01:00', '2031-03-04T09:12:00.250Z'],
    ['2031-03-04 09:12-02:30', '2031-03-04T11:42:00.000Z'],
    ['2032-02-29T00:00:00Z', '2032-02-29T00:00:00.000Z'],
  ])('reads %s', (text, utc) => {
    expect(readInstant(text)).toEqual({ instant: Date.parse(utc) });
  });

  it.each([
    '2031-02-30T09:00:00Z',
    '2031-02-29T09:00:00Z',
    '2031-03-04T25:00:00Z',
    '2031-03-04T24:00:00Z',
    '0000-01-01T00:00:00Z',
    '2031-13-01T00:00:00Z',
    '2031-03-04T09:60:00Z',
    '2031-03-04T09:00:60Z',
    '2031-03-04T09:00:00+15:00',
    '2031-03-04T09:00:00+01:75',
  ])('says that %s does not exist', (text) => {
    expect(readInstant(text)).toMatchObject({
      said: { sentence: expect.stringContaining('no such date'), found: text },
    });
  });

  it.each(['2031-03-04T09:12:00', '2031-03-04T09:12:00-00:00'])('asks for the zone of %s', (text) => {
    expect(readInstant(text)).toMatchObject({ said: { sentence: expect.stringContaining('no zone') } });
  });

  it('takes the zone of a clock that writes none, where that clock shows the time once', () => {
    expect(readInstant('2026-07-01T12:00:00', 'Europe/Berlin')).toEqual({
      instant: Date.parse('2026-07-01T10:00:00Z'),
    });
    expect(readInstant('2026-07-01T12:00:00Z', 'Europe/Berlin')).toEqual({
      instant: Date.parse('2026-07-01T12:00:00Z'),
    });
    for (const [text, words] of [
      ['2026-03-29T02:30:00', 'no clock of Europe/Berlin'],
      ['2026-10-25T02:30:00', 'twice'],
    ] as const)
      expect(readInstant(text, 'Europe/Berlin')).toMatchObject({
        said: { sentence: expect.stringContaining(words), found: text },
      });
  });

  it.each(['04.03.2031 09:12', '2031-03-04', 'yesterday', ''])('shows the form it wants in place of %j', (text) => {
    expect(readInstant(text)).toMatchObject({ said: { expected: expect.stringContaining('2031-03-04T09:12:00Z') } });
  });
});
