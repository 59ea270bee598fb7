import { judgeValue } from '@breakbook/acceptance';
import type { DecisionRule, Limit, Result } from '@breakbook/lab';
import { normalCdf } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import reference from './decision-rules.json' with { type: 'json' };

/** Each entry names its source and its standing. */
const { entries } = reference;

/** The entry of a list that the file must have. */
function at<T>(list: readonly T[], index: number): T {
  const found = list[index];
  if (found === undefined) throw new Error(`decision-rules.json: a list is shorter than ${index + 1}`);
  return found;
}

interface Example {
  U: number;
  r?: number;
  lower?: number;
  upper?: number;
  rule?: 'guarded' | 'four zones';
}

function verdictOn(value: number, { U, r, lower, upper, rule = 'guarded' }: Example) {
  const decisionRule: DecisionRule = r === undefined ? { rule: 'simple' } : { rule, r };
  const rest = {
    limit: 'TL',
    revision: 1,
    title: 'tolerance limit',
    characteristic: 'y',
    basis: 'standard',
    appliesTo: 'the worked example',
    source: 'worked example',
    edition: '1',
    inForceFrom: '2020-01-01',
    approvedBy: 'ada',
    standing: 'confirmed by the lab',
    decisionRule,
    unit: 'kPa',
  } as const;
  const limit: Limit =
    upper === undefined
      ? { ...rest, bound: 'at least', value: lower as number }
      : { ...rest, bound: 'at most', value: upper };
  const result: Result = {
    characteristic: 'y',
    title: 'y',
    unit: 'kPa',
    value: { kind: 'exact', value },
    because: 'worked example',
    uncertainty: { expanded: U, k: 2 },
  };
  return judgeValue({ limit, result, specimen: '1', difference: false });
}

describe('decision rules against published worked values', () => {
  it.each([0, 1] as const)(
    'ILAC-G8:09/2019, Table 1: the chance of a wrong acceptance at the acceptance limit (%i)',
    (which) => {
      const { expected, inputs } = entries['j-ilac-rules'];
      const u = 7;
      const verdict = verdictOn(2000, { U: inputs.k * u, lower: 1500, ...(which === 0 ? {} : { r: 1 }) });
      const acceptanceLimit = verdict.acceptance.lower as number;
      expect(
        verdictOn(acceptanceLimit, { U: inputs.k * u, lower: 1500, ...(which === 0 ? {} : { r: 1 }) }).outcome,
      ).toBe('conforms');
      const wrong = normalCdf((1500 - acceptanceLimit) / u);
      expect(wrong).toBeCloseTo(at(expected.pfa_at_limit, which), 9);
      expect(wrong).toBeLessThanOrEqual(at(expected.stated_bound, which));
    },
  );

  it('ILAC-G8:09/2019, Table 1: further bands w = r U that a limit may declare', () => {
    const { expected, inputs } = entries['j-ilac-table'];
    const declared = inputs.r.flatMap((r, index) => (r > 0 && r <= 2 ? [[r, index] as const] : []));
    expect(declared.map(([r]) => r)).toEqual([1.5, 1, 0.83]);
    for (const [r, index] of declared) {
      const { acceptance } = verdictOn(2000, { U: 2, r, lower: 0 });
      expect(normalCdf(-(acceptance.lower as number)) / at(expected.pfa_at_limit, index)).toBeCloseTo(1, 9);
    }
  });

  it('JCGM 106:2012, clause 8: the acceptance limit for a wanted probability of conformity', () => {
    const { expected, inputs } = entries['j-guard-band'];
    for (const index of [0, 1, 2]) {
      const [limit, u] = [at(inputs.limit, index), at(inputs.u, index)];
      const side = at(inputs.side, index) as 'lower' | 'upper';
      const r = at(expected.guard_band, index) / (2 * u);
      const { acceptance, guardBand } = verdictOn(limit, { U: 2 * u, r, [side]: limit });
      expect(guardBand).toBeCloseTo(at(expected.guard_band, index), 9);
      expect(acceptance[side]).toBeCloseTo(at(expected.acceptance_limit, index), 9);
    }
  });

  it('ILAC-G8:09/2019, 4.2: simple and guarded rules split the zones of the four-outcome rule', () => {
    const { expected, inputs } = entries['j-four-outcome'];
    const { values, lower, U } = inputs;
    const outcomes = (r?: number) =>
      values.map((value) => verdictOn(value, { U, lower, ...(r === undefined ? {} : { r }) }).outcome);
    const zones = expected.outcome;
    expect(outcomes()).toEqual(zones.map((zone) => (zone.includes('fail') ? 'does not conform' : 'conforms')));
    expect(outcomes(1)).toEqual(zones.map((zone) => (zone === 'pass' ? 'conforms' : 'does not conform')));
  });

  it('ILAC-G8:09/2019, 4.2.3: the rule of four zones, but at its outer edge on the cautious side', () => {
    const { values, lower, U } = entries['j-four-outcome'].inputs;
    const words: Record<string, string> = {
      pass: 'conforms',
      'conditional pass': 'conforms conditionally',
      'conditional fail': 'does not conform conditionally',
      fail: 'does not conform',
    };
    values.forEach((value, index) => {
      const { outcome } = verdictOn(value, { U, r: 1, lower, rule: 'four zones' });
      // The reference gives a value just w below the limit the better outcome, by a convention of its own.
      const wanted = value === lower - U ? 'fail' : at(entries['j-four-outcome'].expected.outcome, index);
      expect(outcome, `${value}`).toBe(words[wanted]);
    });
  });

  it.each([
    ['the burst strength of a container', 'j-burst-strength'],
    ['the breakdown voltage of a Zener diode', 'j-zener'],
  ] as const)('JCGM 106:2012, 7.3: the probability of conformity that the verdict on %s states', (_, id) => {
    const { inputs, expected } = entries[id];
    const side = 'lower' in inputs ? { lower: inputs.lower } : { upper: inputs.upper };
    const { probabilityOfConformance: probability } = verdictOn(inputs.y, { U: 2 * inputs.u, ...side });
    expect(probability).toBeCloseTo(expected.p_c_full, 9);
    expect(probability).toBeCloseTo(expected.p_c, 2);
  });

  it('JCGM 106:2012, 7.3: the burst strength of a container conforms even with the band w = U', () => {
    const { inputs, expected } = entries['j-burst-strength'];
    const verdict = verdictOn(inputs.y, { U: 2 * inputs.u, r: 1, lower: inputs.lower });
    expect(verdict).toMatchObject({ outcome: 'conforms', guardBand: 17.2 });
    expect(normalCdf((verdict.margin as number) / inputs.u)).toBeCloseTo(expected.p_c_full, 9);
  });

  it('JCGM 106:2012, 7.3: the breakdown voltage of a Zener diode conforms simply, and not with the band w = U', () => {
    const { inputs, expected } = entries['j-zener'];
    expect(verdictOn(inputs.y, { U: 2 * inputs.u, r: 1, upper: inputs.upper }).outcome).toBe('does not conform');
    const simple = verdictOn(inputs.y, { U: 2 * inputs.u, upper: inputs.upper });
    expect(simple.outcome).toBe('conforms');
    expect(normalCdf((simple.margin as number) / inputs.u)).toBeCloseTo(expected.p_c_full, 9);
  });
});
