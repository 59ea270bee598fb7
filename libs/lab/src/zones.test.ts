import { expect, it } from 'vitest';
import { withInstants } from './zones.js';

const minute = (instant: string) => new Date(instant).toISOString().slice(0, 16).replace('T', ' ');

// RFC 3339, 5.6 and 5.8: its own examples of instants.
it('tells every instant of a text, with fractions and offsets, and leaves days and numbers alone', () => {
  const text = 'Between 1985-04-12T23:20:50.52Z and 1996-12-19T16:39:57-08:00, on 1996-12-19, run 2026-10.';
  expect(withInstants(text, minute)).toBe('Between 1985-04-12 23:20 and 1996-12-20 00:39, on 1996-12-19, run 2026-10.');
});

it('leaves what is quoted as it was seen', () => {
  const label = '"MADE 1985-04-12T23:20:50Z"';
  expect(withInstants(`Its label, ${label}, was seen at 1985-04-12T23:20:50Z.`, minute)).toBe(
    `Its label, ${label}, was seen at 1985-04-12 23:20.`,
  );
});
