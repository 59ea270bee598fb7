import { compute } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import byRule from './one-way-anova-by-rule.json' with { type: 'json' };
import { runReference, valueAt } from './run-reference.ts';

runReference('./one-way-anova.json');

describe(byRule.topic, () => {
  it.each(byRule.entries)('$id agrees with: $source', ({ first, pairs, repeat, expect: certified, tolerance }) => {
    const groups = first.map((value, index) => [
      value,
      ...Array.from({ length: repeat }, () => pairs[index] ?? []).flat(),
    ]);
    const reply = compute({ method: 'one-way-anova', groups });
    for (const [pointer, value] of Object.entries(certified)) {
      const found = valueAt((reply as { result: unknown }).result, pointer);
      expect(Math.abs(Number(found) / value - 1), pointer).toBeLessThan(tolerance.relative);
    }
  });
});
