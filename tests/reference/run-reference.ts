import { readFileSync } from 'node:fs';
import { compute } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';

/** One request and what a published or independently computed source says it gives. */
interface Check {
  request: Record<string, unknown>;
  /** Results by JSON Pointer, or the words where no number exists. */
  expect: Record<string, number | string | boolean> | 'not evaluated';
}

interface Entry {
  id: string;
  source: string;
  /** published, quoted, from memory, or computed with a general-purpose tool that is named. */
  standing: string;
  /** Passes when |got - expected| <= absolute + relative |expected|. */
  tolerance: { relative?: number; absolute?: number };
  checks: Check[];
}

/** Runs every entry of a reference file through the calculator, as a person would ask it. */
export function runReference(file: string): void {
  const { topic, entries } = JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8')) as {
    topic: string;
    entries: Entry[];
  };
  describe(topic, () => {
    it('has entries to check', () => expect(entries.length).toBeGreaterThan(0));
    it.each(entries.map((entry) => [entry.id, entry.source, entry] as const))('%s agrees with: %s', (_, __, entry) => {
      for (const check of entry.checks) checkOne(check, entry);
    });
  });
}

function checkOne({ request, expect: wanted }: Check, { tolerance: { relative = 0, absolute = 0 } }: Entry): void {
  const reply = compute(request);
  if (wanted === 'not evaluated') {
    expect(reply).toHaveProperty('notEvaluated.because');
    return;
  }
  expect(reply, JSON.stringify(request)).toHaveProperty('result');
  for (const [pointer, value] of Object.entries(wanted)) {
    const found = valueAt((reply as { result: unknown }).result, pointer);
    const where = `${pointer} of ${JSON.stringify(request).slice(0, 200)}`;
    if (typeof value !== 'number') {
      expect(found, where).toBe(value);
      continue;
    }
    expect(typeof found, where).toBe('number');
    const allowed = absolute + relative * Math.abs(value);
    const off = Math.abs((found as number) - value);
    expect(off <= allowed, `${where}: got ${found}, expected ${value} within ${allowed}; off by ${off}`).toBe(true);
  }
}

export function valueAt(from: unknown, pointer: string): unknown {
  let here = from;
  for (const part of pointer.split('/').slice(1)) here = (here as Record<string, unknown> | undefined)?.[part];
  return here;
}
