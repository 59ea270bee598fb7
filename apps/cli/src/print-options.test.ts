import { printKept } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { printFrom } from './print-options.js';

describe('how a report is printed, as told on the command line', () => {
  it('is plain where nothing is said, and then is not kept with it', () => {
    const print = printFrom({ paper: 'A4' });
    expect(print).toEqual({ paper: 'A4', language: 'en', units: 'as kept' });
    expect(printKept(print)).toBeUndefined();
    expect(printKept({ ...print, units: {} })).toBeUndefined();
  });

  it('takes a language and a unit of each kind', () => {
    const print = printFrom({ paper: 'Letter', language: 'de', units: 'bar, F,ft-lbf,lbf,in,oz' });
    expect(print).toEqual({
      paper: 'Letter',
      language: 'de',
      units: {
        pressure: 'bar',
        temperature: '[degF]',
        energy: '[ft_i].[lbf_av]',
        force: '[lbf_av]',
        length: '[in_i]',
        mass: '[oz_av]',
      },
    });
    expect(printKept(print)).toEqual(print);
  });

  it.each([
    [{ paper: 'A5' }, 'A5'],
    [{ paper: 'A4', language: 'fr' }, 'en or de'],
    [{ paper: 'A4', units: 'furlong' }, 'furlong'],
    [{ paper: 'A4', units: 'bar,psi' }, 'two units of pressure'],
  ])('refuses %o and says what it takes', (options, said) => {
    expect(() => printFrom(options)).toThrow(said);
  });
});
