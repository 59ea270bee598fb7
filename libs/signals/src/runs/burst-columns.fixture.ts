import type { MethodChannel, MethodCharacteristic } from '@breakbook/lab';
import { BURSTS_AT, type Invention, METHOD, RAMP } from './invented-run.fixture.js';

/** The volume pumped of a part that gives 20 kPa/mL up to 1000 kPa and half of that beyond; mL. */
export const volumeAt = (pressure: number) => pressure / 20 + Math.max(0, pressure - 1000) / 20;

/** mL/min of a pump that drives the straight ramp into this part. */
export const flow = (t: number) =>
  t < RAMP.begins || t >= BURSTS_AT ? 0 : (60 * RAMP.rate) / (RAMP.rate * (t - RAMP.begins) < 1000 ? 20 : 10);

/** Width of a rim that is so much wider at its burst, and stays a quarter of that wider; mm. */
export const widthAt = (grows: number) => (t: number) =>
  25 + (t <= BURSTS_AT ? (grows * Math.max(0, t - RAMP.begins) * RAMP.rate) / RAMP.bursts : grows / 4);

/** Columns beside the two pressures; a blank cell is no reading. */
export function withColumns(columns: Record<string, (t: number) => number | undefined>): Invention['text'] {
  return (text) => {
    let header = true;
    return text
      .split('\n')
      .map((line) => {
        if (line === '' || line.startsWith('#')) return line;
        if (header) {
          header = false;
          return [line, ...Object.keys(columns)].join(',');
        }
        const t = Number(line.split(',')[0]);
        return [line, ...Object.values(columns).map((of) => of(t)?.toFixed(6) ?? '')].join(',');
      })
      .join('\n');
  };
}

export const characteristic = (
  name: string,
  kind: MethodCharacteristic['kind'],
  unit: string,
): MethodCharacteristic => ({ characteristic: name, title: name, kind, unit, definition: 'invented for tests' });

/** What a burst method may record beside its pressure. */
export const CHANNELS: MethodChannel[] = [
  ...METHOD.channels,
  { channel: 'flow', kind: 'flow', required: false },
  ...[1, 2, 3].map((n) => ({ channel: `rimWidth${n}`, kind: 'length' as const, required: false })),
];

/** Sensors of these channels, calibrated. */
export const placed = (channel: string, sensor: string, value: number, unit: string) => ({
  channel,
  sensor,
  from: '2031-01-01',
  fullScale: { value, unit },
});
