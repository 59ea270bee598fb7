import { fileURLToPath } from 'node:url';
import { EXIT } from '@breakbook/lab';
import { compute } from '@breakbook/statistics';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { staircaseCommand } from './staircase.js';

const sample = (name: string) => fileURLToPath(new URL(`../../../../sample-runs/${name}`, import.meta.url));
const printed: string[] = [];
const aside: string[] = [];

beforeEach(() => {
  printed.length = 0;
  aside.length = 0;
  vi.spyOn(console, 'log').mockImplementation((text: string) => void printed.push(text));
  vi.spyOn(console, 'error').mockImplementation((text: string) => void aside.push(text));
});
afterEach(() => void vi.restoreAllMocks());

describe('breakbook staircase', () => {
  it('gives the wheels struck once, and names the runs that say nothing of it', () => {
    expect(staircaseCommand(sample('dunlin-42-impact'), { step: '5' })).toBe(EXIT.done);
    const request = JSON.parse(printed.join('\n')) as { trials: { level: number; broke: boolean }[] };
    // sample-runs/README.md: line A aims at 42 J, one strike each; six valid runs, and no wheel cracked.
    expect(request.trials).toEqual(Array.from({ length: 6 }, () => ({ level: 42, broke: false })));
    // Run 303 is invalid; both wheels of line B were struck more than once.
    expect(aside.join('\n')).toContain('Run 303 is left out: it is invalid');
    expect(compute(request)).toHaveProperty('notEvaluated');
  });

  it('has nothing to give where no wheel was struck', () => {
    expect(staircaseCommand(sample('dunlin-42-keyed'), { step: '5' })).toBe(EXIT.undecided);
    expect(JSON.parse(printed.join('\n'))).toMatchObject({ trials: [] });
  });

  it('refuses a step that is none', () => {
    for (const step of ['0', 'five', '-2'])
      expect(() => staircaseCommand(sample('dunlin-42-impact'), { step })).toThrow('--step');
  });
});
