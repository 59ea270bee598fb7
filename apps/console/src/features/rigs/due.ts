import type { CalibrationRecord } from '../../client/answers.js';

/** A sensor's last calibration, and how it stands on a day. */
export interface Due {
  last: CalibrationRecord['content'] | undefined;
  standing: 'in date' | 'due within 30 days' | 'past its due date' | 'never calibrated';
}

const SOON_DAYS = 30;

/** Until when is this sensor calibrated? Days are calendar days; the due day itself still counts. */
export function dueOf(sensor: string, calibrations: readonly CalibrationRecord['content'][], today: string): Due {
  const last = calibrations
    .filter((one) => one.sensor === sensor)
    .sort((a, b) => a.date.localeCompare(b.date))
    .at(-1);
  if (!last) return { last, standing: 'never calibrated' };
  const days = (Date.parse(last.due) - Date.parse(today)) / 86_400_000;
  if (days < 0) return { last, standing: 'past its due date' };
  return { last, standing: days <= SOON_DAYS ? 'due within 30 days' : 'in date' };
}
