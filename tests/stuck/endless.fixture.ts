import { expect, it } from 'vitest';

it('comes before', async () => {
  await new Promise((resolve) => setTimeout(resolve, 500));
  expect(1 + 1).toBe(2);
});

it('computes for ever', () => {
  for (let n = 0; n >= 0; n = (n + 1) % 1000);
});
