import { describe, expect, it } from 'vitest';
import { quantitiesIn } from './known-quantities.js';
import { FIRST_UNITS, shownUnit, type UnitChoice } from './reader-unit.js';
import { retell as retellFor } from './retell.js';

const pressuresIn = (pressure: UnitChoice['pressure']): UnitChoice => ({ ...FIRST_UNITS, pressure });
const retell = (sentence: string, pressure: UnitChoice['pressure'], known?: Parameters<typeof retellFor>[2]) =>
  retellFor(sentence, pressuresIn(pressure), known);

/** Spaces are told apart in one check only; the others are about numbers. */
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');

describe("a sentence in the reader's unit", () => {
  // 1 psi = 6.894757293168 kPa: NIST SP 811 (2008), appendix B.8, to the digits given there.
  it('converts every pressure and leaves every other number alone', () => {
    expect(
      plain(retell('8 rims held 1 500 kPa or more, with 95 % confidence, at 12.5 kPa/s for 300 s.', '[psi]')),
    ).toBe('8 rims held 217.6 psi or more, with 95 % confidence, at 1.81 psi/s for 300 s.');
    expect(plain(retell('1 500 kPa', 'bar'))).toBe('15.00 bar');
    expect(plain(retell('217.6 psi', 'kPa'))).toBe('1 500.3 kPa');
  });

  it('converts a value with its uncertainty, and a range', () => {
    expect(plain(retell('1 842 ± 14 kPa', '[psi]'))).toBe('267.2 ± 2.0 psi');
    expect(plain(retell('ramp 10 to 20 kPa/s', 'bar'))).toBe('ramp 6.0 to 12.0 bar/min');
    expect(plain(retell('a margin of −60 kPa', 'bar'))).toBe('a margin of −0.60 bar');
  });

  it('leaves what a person wrote between quotes letter by letter, also over the end of a sentence in it', () => {
    expect(
      plain(retell('Moved by p-one, because "it hissed at 1 500 kPa. Then 200 kPa left". It was 1 500 kPa.', 'bar')),
    ).toBe('Moved by p-one, because "it hissed at 1 500 kPa. Then 200 kPa left". It was 15.00 bar.');
    expect(plain(retell('"hold 3" was held at 100 kPa.', 'bar'))).toBe('"hold 3" was held at 1.00 bar.');
  });

  it('uses the exact number of the record, not the rounded one of the sentence', () => {
    const known = quantitiesIn({ unit: 'kPa', value: 1841.55 });
    // 1841.55 / 6.894757293168 = 267.094; from the printed 1 842 it would be 267.2.
    expect(plain(retell('1 842 kPa', '[psi]', known))).toBe('267.1 psi');
    expect(plain(retell('1 842 kPa', '[psi]'))).toBe('267.2 psi');
  });

  it('never rounds a lower bound up', () => {
    const known = quantitiesIn({ unit: 'kPa', bound: { value: 1591.99 } });
    // 1591.99 / 6.894757293168 = 230.898...: rounded it would be 230.9, which is more than was computed.
    expect(plain(retell('at least 1 591 kPa', '[psi]', known))).toBe('at least 230.8 psi');
  });

  it('does not read a longer unit as a shorter one', () => {
    expect(plain(retell('900 kPa·s and 3 kPa/s and 4 kPa/s2', 'bar'))).toBe('900 kPa·s and 1.8 bar/min and 4 kPa/s2');
    expect(retell('specimen D42 100 kPascal', 'bar')).toBe('specimen D42 100 kPascal');
  });

  it('never converts one end of a range and leaves the other', () => {
    expect(plain(retell('of the ramp lies between 10.00 and 50.00 kPa/s', '[psi]'))).toBe(
      'of the ramp lies between 1.450 and 7.252 psi/s',
    );
    expect(plain(retell('41.38 kPa/s over all, 39.09 to 43.00 in its parts; the limit is 1 500 kPa.', '[psi]'))).toBe(
      '41.38 kPa/s over all, 39.09 to 43.00 in its parts; the limit is 217.6 psi.',
    );
    expect(plain(retell('held from 28.10 to 333.60 s at 134.0 kPa', 'bar'))).toBe(
      'held from 28.10 to 333.60 s at 1.340 bar',
    );
    expect(plain(retell('limit rev. 1 and 1 500 kPa', 'bar'))).toBe('limit rev. 1 and 15.00 bar');
  });

  it('says once what paper says in two units', () => {
    expect(plain(retell('lower bound 1 591 kPa (230.8 psi), limit 1 500 kPa (217.6 psi)', 'bar'))).toBe(
      'lower bound 15.91 bar, limit 15.00 bar',
    );
    expect(plain(retell('peak 1 591 kPa (230.8 psi)', 'kPa'))).toBe('peak 1 591 kPa');
  });

  it('keeps a quantity on one line', () => {
    expect(retell('held 1 500 kPa', 'kPa')).toBe('held 1\u202f500\u00a0kPa');
  });

  it('leaves units alone that are no pressure', () => {
    expect(shownUnit('MPa', pressuresIn('[psi]'))).toBe('MPa');
    expect(shownUnit('Cel', pressuresIn('[psi]'))).toBe('Cel');
  });

  describe('of temperature, energy and force', () => {
    // NIST SP 811 (2008), B.8: t/°F = 1.8 t/°C + 32; 1 ft·lbf = 1.355 818 J; 1 lbf = 4.448 222 N.
    const american: UnitChoice = {
      pressure: '[psi]',
      temperature: '[degF]',
      energy: '[ft_i].[lbf_av]',
      force: '[lbf_av]',
    };
    it.each([
      ['The track reached 180.0 °C on the left.', 'The track reached 356.0 °F on the left.'],
      ['181.2 ± 3.0 °C', '358.2 ± 5.4 °F'],
      ['struck at 42.0 J with a peak of 4.500 kN', 'struck at 30.98 ft·lbf with a peak of 1 011.6 lbf'],
    ])('tells %j', (recorded, told) => expect(plain(retellFor(recorded, american))).toBe(told));

    it.each([
      'The sensors differ by 4.1 °C.',
      'The track was 4.1 °C above the limit.',
      'a margin of 12.0 °C',
      'the pads drifted 3 °C',
      'the torque of 6 N·m was held for 15.1 K',
    ])('leaves a possible difference, and what is no such unit, as recorded: %j', (recorded) =>
      expect(plain(retellFor(recorded, american))).toBe(recorded),
    );

    it('keeps energies and forces as recorded until a reader chooses', () => {
      expect(plain(retellFor('318 kJ, 42 J, 4.4 kN and 12 N', FIRST_UNITS))).toBe('318 kJ, 42 J, 4.4 kN and 12 N');
    });
  });
});
