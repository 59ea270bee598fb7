import { readFileSync } from 'node:fs';
import { integrateImpact } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import { runReference } from './run-reference.ts';

runReference('./impact-integration.json');

interface HalfSine {
  id: string;
  source: string;
  tolerance: { relative: number };
  checks: {
    pulse: { F0: number; tau: number; mass: number; v0: number; g: number };
    expect: {
      t: number[];
      velocity: number[];
      deflection: number[];
      energy: number[];
      impulse_total: number;
      max_deflection?: number;
      time_of_max_deflection: number | null;
    };
  }[];
}

const { entries } = JSON.parse(readFileSync(new URL('./half-sine-pulses.json', import.meta.url), 'utf8')) as {
  entries: HalfSine[];
};
/** Points over the pulse: the times asked for, its quarters, are among them. */
const POINTS = 2001;

describe('Half-sine pulses', () => {
  it.each(entries.map((entry) => [entry.id, entry.source, entry] as const))('%s agrees with: %s', (_, __, entry) => {
    const within = (found: number, wanted: number) =>
      expect(Math.abs(found - wanted)).toBeLessThanOrEqual(entry.tolerance.relative * Math.abs(wanted));
    for (const { pulse, expect: wanted } of entry.checks) {
      const time = Array.from({ length: POINTS }, (_, i) => (i * pulse.tau) / (POINTS - 1));
      const found = integrateImpact({
        time,
        force: time.map((t) => pulse.F0 * Math.sin((Math.PI * t) / pulse.tau)),
        mass: pulse.mass,
        speed: pulse.v0,
        gravity: pulse.g,
      });
      for (const [n, t] of wanted.t.entries()) {
        const at = Math.round((t / pulse.tau) * (POINTS - 1));
        within(found.velocity[at] as number, wanted.velocity[n] as number);
        within(found.deflection[at] as number, wanted.deflection[n] as number);
        within(found.energy[at] as number, wanted.energy[n] as number);
      }
      within(found.impulse, wanted.impulse_total);
      expect(found.peakForce).toBeCloseTo(pulse.F0, 6);
      expect(found.cameToRest).toBe(wanted.time_of_max_deflection !== null);
      if (wanted.time_of_max_deflection !== null && wanted.max_deflection !== undefined) {
        within(found.maxDeflection, wanted.max_deflection);
        within(found.timeOfMaxDeflection as number, wanted.time_of_max_deflection);
      }
    }
  });
});
