import type { Calibration } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

export const CALIBRATION = kind<Calibration, tables.Calibration, tables.CalibrationVersion>({
  word: 'calibration',
  keyField: 'calibration',
  nouns: tables.Calibration,
  versions: tables.CalibrationVersion,
  anchor: async (content, names) => ({ sensorId: await names.idOf(tables.Sensor, content.sensor, '/sensor') }),
  async columns(content, names) {
    if (content.due <= content.date)
      names.note('body.range', '/due', `must be after the day of the calibration, ${content.date}.`, content.due);
    return { content };
  },
  contentOf: ({ content }) => content,
});
