import type { Sensor } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

export const SENSOR = kind<Sensor, tables.Sensor, tables.SensorVersion>({
  word: 'sensor',
  keyField: 'sensor',
  nouns: tables.Sensor,
  versions: tables.SensorVersion,
  anchor: async () => ({}),
  columns: async (content) => ({ content }),
  contentOf: ({ content }) => content,
});
