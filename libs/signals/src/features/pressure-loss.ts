import { type Measurement, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import type { QuantityKind } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { inUnit, kPa, percent } from './words.js';

/** One reading that a person keyed, in the unit asked for. */
interface Reading {
  value: number;
  measurement: Measurement;
}

const NAME = /^pressureLoss([A-Z0-9][A-Za-z0-9]*)?$/;
const kelvin = inUnit('K');

/**
 * What share of its pressure did the tyre lose by the strike, with what it lost by cooling taken off? The volume stays, so
 * by the gas law the pressure after, at the temperature before, would be
 *
 *     p₂' = (p₂ + p_a) · T₁/T₂ − p_a
 *     loss = (p₁ − p₂') / p₁
 *
 * p gauge, p_a the absolute pressure of the room, T in kelvin. `pressureLoss` takes what was keyed as `tyrePressureAfter`;
 * `pressureLoss10Min` what was keyed as `tyrePressureAfter10Min`, and so on. Undefined for another name.
 *
 * Source: law of Gay-Lussac, p/T stays at constant volume and mass. Loss as a share of the gauge pressure before: common
 * practice, no source.
 */
export function pressureLoss(
  name: string,
  keyed: (of: string, wanted: { kind: QuantityKind; unit: string }) => readonly Reading[],
): Computed | undefined {
  const found = NAME.exec(name);
  if (!found) return undefined;
  const when = found[1] ?? '';
  const none = (value: NotEvaluated): Computed => ({ value, unit: '1', steps: [], source: 'keyed' });
  const missing: string[] = [];
  const read = (of: string, kind: QuantityKind, unit: string): number => {
    const readings = keyed(of, { kind, unit });
    const [only] = readings;
    if (only && readings.length === 1) return only.value;
    missing.push(readings.length === 0 ? `no ${of} was keyed` : `${readings.length} values of ${of} were keyed`);
    return Number.NaN;
  };
  const before = read('tyrePressureBefore', 'pressure', 'kPa');
  const after = read(`tyrePressureAfter${when}`, 'pressure', 'kPa');
  const warmBefore = read('tyreTemperatureBefore', 'temperature', 'K');
  const warmAfter = read(`tyreTemperatureAfter${when}`, 'temperature', 'K');
  const room = read('roomPressure', 'pressure', 'kPa');
  if (missing.length > 0)
    return none(
      notEvaluated(
        missing.join('; '),
        'pressure and temperature of the tyre are keyed once before and after, with the absolute pressure of the room',
      ),
    );
  if (!(before > 0 && room > 0 && warmBefore > 0 && warmAfter > 0))
    return none(
      notEvaluated(
        'a pressure before, a pressure of the room or a temperature is not above zero',
        'they are keyed again as they were read',
      ),
    );

  const corrected = ((after + room) * warmBefore) / warmAfter - room;
  const loss = (before - corrected) / before;
  return {
    value: { kind: 'exact', value: loss },
    unit: '1',
    source: 'keyed',
    steps: [
      {
        question: 'What would the pressure after be at the temperature before?',
        numbers: {
          'after, kPa': after,
          'room, kPa absolute': room,
          'temperature before, K': warmBefore,
          'after, K': warmAfter,
          'corrected, kPa': corrected,
        },
        answer: `${kPa(corrected)}: (p₂ + p_a) · T₁/T₂ − p_a, from ${kelvin(warmAfter)} to ${kelvin(warmBefore)} at constant volume.`,
      },
      {
        question: 'What share of the pressure was lost?',
        numbers: { 'before, kPa': before, 'corrected after, kPa': corrected, loss },
        answer: `${percent(loss)} of ${kPa(before)}.`,
      },
    ],
  };
}
