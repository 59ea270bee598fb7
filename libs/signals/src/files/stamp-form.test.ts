import { describe, expect, it } from 'vitest';
import { StampForm } from './stamp-form.js';

const read = (form: string, text: string) => {
  const stamp = new StampForm(form);
  const bytes = new TextEncoder().encode(text);
  return stamp.read(bytes, bytes.length) ? [...stamp.fields, stamp.fraction] : undefined;
};

describe('a form of date-times', () => {
  it.each([
    ['YYYY-MM-DDThh:mm:ss', '2031-03-04T10:12:05', [2031, 3, 4, 10, 12, 5, 0]],
    ['DD.MM.YYYY hh:mm:ss.f', '04.03.2031 10:12:05.25', [2031, 3, 4, 10, 12, 5, 0.25]],
    ['DD.MM.YYYY hh:mm:ss.f', '04.03.2031 10:12:05', [2031, 3, 4, 10, 12, 5, 0]],
    ['DD.MM.YYYY hh:mm:ss,fZ', '04.03.2031 10:12:05,1Z', [2031, 3, 4, 10, 12, 5, 0.1]],
    ['YYYYMMDDhhmmssf', '20310304101205123456', [2031, 3, 4, 10, 12, 5, 0.123456]],
    ['hh:mm:ss.f YYYY/MM/DD', '10:12:05.000000000000001 2031/03/04', [2031, 3, 4, 10, 12, 5, 1e-15]],
    ['YYYY年MM月DD日 hh:mm:ss', '2031年03月04日 10:12:05', [2031, 3, 4, 10, 12, 5, 0]],
    // What a calendar has is for the calendar to say.
    ['YYYY-MM-DD hh:mm:ss', '2031-02-30 25:61:99', [2031, 2, 30, 25, 61, 99, 0]],
  ])('%s reads %s', (form, text, expected) => {
    expect(read(form, text)).toEqual(expected);
  });

  it.each([
    ['YYYY-MM-DD hh:mm:ss', '2031-3-04 10:12:05'],
    ['YYYY-MM-DD hh:mm:ss', '2031-03-04 10:12:0'],
    ['YYYY-MM-DD hh:mm:ss', '2031-03-04 10:12:055'],
    ['YYYY-MM-DD hh:mm:ss', '2031-03-04T10:12:05'],
    ['YYYY-MM-DD hh:mm:ss', '2031-03-04 10:12:05.5'],
    ['YYYY-MM-DD hh:mm:ss', ' 2031-03-04 10:12:05'],
    ['YYYY-MM-DD hh:mm:ss', '２０３１-03-04 10:12:05'],
    ['YYYY-MM-DD hh:mm:ss.f', '2031-03-04 10:12:05.'],
    ['YYYY-MM-DD hh:mm:ss.f', '2031-03-04 10:12:05,5'],
    ['YYYY-MM-DD hh:mm:ss.f', '2031-03-04 10:12:05.1234567890123456'],
    ['YYYY-MM-DD hh:mm:ss.f', ''],
  ])('%s does not read %s', (form, text) => {
    expect(read(form, text)).toBeUndefined();
  });

  it('reads a fraction as the language reads the same decimal', () => {
    for (let i = 1; i < 3000; i++) {
      const digits = String((i * 48_271) % 2_147_483_647)
        .padStart(1 + (i % 15), '0')
        .slice(0, 15);
      expect(read('YYYY-MM-DD hh:mm:ss.f', `2031-03-04 10:12:05.${digits}`)?.[6]).toBe(Number(`0.${digits}`));
    }
  });
});
