import { describe, expect, it } from 'vitest';
import { zoneReader } from './clock-zone.js';

/*
 * Rules of clocks as the IANA time-zone database has them (tzdata, files europe, australasia, asia, southamerica): since
 * 1996 the European Union sets clocks at 01:00 UTC on the last Sundays of March and October; Lord Howe Island by half an
 * hour at 02:00; Nepal is +05:45; Samoa left out 30 December 2011.
 */
const read = (zone: string, shown: string) => zoneReader(zone)(Date.parse(`${shown}Z`));
const instant = (zone: string, shown: string) => {
  const found = read(zone, shown);
  return 'instant' in found ? new Date(found.instant).toISOString() : found.said.sentence;
};

describe('the clock of a zone', () => {
  it.each([
    ['Z', '2031-03-04T10:12:00', '2031-03-04T10:12:00.000Z'],
    ['+01:00', '2031-03-04T10:12:00', '2031-03-04T09:12:00.000Z'],
    ['-03:30', '2031-03-04T23:00:00.250', '2031-03-05T02:30:00.250Z'],
    ['Europe/Berlin', '2026-03-29T01:59:59.999', '2026-03-29T00:59:59.999Z'],
    ['Europe/Berlin', '2026-03-29T03:00:00', '2026-03-29T01:00:00.000Z'],
    ['Europe/Berlin', '2026-10-25T01:59:59', '2026-10-24T23:59:59.000Z'],
    ['Europe/Berlin', '2026-10-25T03:00:00', '2026-10-25T02:00:00.000Z'],
    ['Europe/Lisbon', '2026-07-01T12:00:00', '2026-07-01T11:00:00.000Z'],
    ['Asia/Kathmandu', '2026-07-01T12:00:00', '2026-07-01T06:15:00.000Z'],
    ['Australia/Lord_Howe', '2026-04-05T01:29:59', '2026-04-04T14:29:59.000Z'],
    ['Pacific/Apia', '2011-12-31T00:00:00', '2011-12-30T10:00:00.000Z'],
  ])('%s shows %s at %s', (zone, shown, expected) => {
    expect(instant(zone, shown)).toBe(expected);
  });

  it.each([
    ['Europe/Berlin', '2026-03-29T02:00:00'],
    ['Europe/Berlin', '2026-03-29T02:59:59.999'],
    ['Australia/Lord_Howe', '2026-10-04T02:15:00'],
    ['Pacific/Apia', '2011-12-30T12:00:00'],
  ])('%s never shows %s', (zone, shown) => {
    expect(instant(zone, shown)).toContain('no clock of');
  });

  it.each([
    ['Europe/Berlin', '2026-10-25T02:00:00'],
    ['Europe/Berlin', '2026-10-25T02:59:59.999'],
    ['America/New_York', '2026-11-01T01:30:00'],
    ['Australia/Lord_Howe', '2026-04-05T01:30:00'],
  ])('%s shows %s twice', (zone, shown) => {
    expect(instant(zone, shown)).toContain('twice');
  });

  it('answers the same row by row as for each time alone', () => {
    for (const start of ['2026-03-28T22:00:00', '2026-10-24T22:00:00']) {
      const reader = zoneReader('Europe/Berlin');
      for (let minute = 0; minute < 48 * 60; minute += 7) {
        const shown = Date.parse(`${start}Z`) + minute * 60_000;
        expect(reader(shown)).toEqual(zoneReader('Europe/Berlin')(shown));
      }
    }
  });
});
