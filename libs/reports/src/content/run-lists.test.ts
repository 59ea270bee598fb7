import { expect, it } from 'vitest';
import { listedKeys } from './run-lists.js';

it.each([
  [['161', '162', '163', '165'], '161 to 163, 165'],
  [['161', '162'], '161, 162'],
  [['R-1', 'R-2', 'R-3'], 'R-1, R-2, R-3'],
  [['007', '008', '009'], '007, 008, 009'],
  [[], ''],
])('draws %j together as "%s"', (keys, said) => {
  expect(listedKeys(keys, 'to')).toBe(said);
});
