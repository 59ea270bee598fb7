import { expect, it } from 'vitest';

it('takes longer than a file may be quiet, as it said it would', async () => {
  await new Promise((resolve) => setTimeout(resolve, 12_000));
  expect(1 + 1).toBe(2);
}, 30_000);
