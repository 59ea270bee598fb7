import { expect, it } from 'vitest';

it('ends', () => {
  expect(1 + 1).toBe(2);
});
