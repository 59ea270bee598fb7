import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT } from '@breakbook/lab';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type PlanOptions, planCommand } from './plan.js';

const sample = (name: string) => fileURLToPath(new URL(`../../../../sample-runs/${name}`, import.meta.url));
const printed: string[] = [];
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-plan-'));
const USUAL = { coverage: '0.9', confidence: '0.95' };

beforeEach(() => {
  printed.length = 0;
  vi.spyOn(console, 'log').mockImplementation((text: string) => void printed.push(text));
});
afterEach(() => void vi.restoreAllMocks());

const said = (options: Partial<PlanOptions>, file?: string) => {
  const status = planCommand(file, { ...USUAL, ...options });
  return { status, text: printed.join('\n') };
};
const kept = (name: string, content: unknown) => {
  const file = path.join(folder, name);
  fs.writeFileSync(file, JSON.stringify(content));
  return file;
};

describe('breakbook plan', () => {
  // 29 of a process for 90/95, 18 of a lot of 40: Clopper and Pearson (1934), and by the hypergeometric distribution.
  it('sets designs side by side, from options or from a file, and says why one cannot be had', () => {
    const options = { limit: '1500', unit: 'kPa', mean: '1450', cv: '0.06', distribution: 'normal' };
    const { status, text } = said(options);
    expect(status).toBe(EXIT.done);
    expect(text).toMatch(/zero failures +29 /);
    expect(text).toMatch(/normal bound +not evaluated/);
    expect(text).toContain('normal bound: not evaluated: of such a population');
    printed.length = 0;
    const file = kept('question.json', {
      limit: { value: 1500, unit: 'kPa' },
      coverage: 0.9,
      confidence: 0.95,
      lotSize: 40,
      guess: { mean: 1450, cv: 0.06 },
      distribution: 'normal',
    });
    const { designs } = JSON.parse(said({ json: true }, file).text) as { designs: { design: string; n: number }[] };
    expect(designs[0]).toMatchObject({ design: 'zero failures', n: 18 });
  });

  it('says what five can show', () => {
    const { status, text } = said({ n: '5' });
    expect(status).toBe(EXIT.done);
    expect(text).toContain('At least 54.9 % of the process holds the limit, with 95 % confidence.');
  });

  it('says what the plan of a lot folder risks, and that it cannot where it cannot', () => {
    const { status, text } = said({ risks: sample('dunlin-42-heat') });
    expect(status).toBe(EXIT.done);
    expect(text).toContain('for a lot of 40');
    expect(text).toContain('A2 (zero failures)');
    expect(said({ risks: path.join(sample('dunlin-42-heat'), 'plan.json'), lotSize: '4' }).status).toBe(EXIT.undecided);
  });

  it('drafts a plan from a template, whose risks can be told', () => {
    expect(said({ template: 'impact' }).text).toContain('"place": "strike"');
    printed.length = 0;
    const filling = kept('filling.json', {
      plan: 'D42R-P2',
      product: 'dunlin-42-r',
      approvedBy: 't-ibanez',
      approvedOn: '2026-10-19',
      use: 'touring events',
      method: 'HEAT-DRAG',
      methodRevision: 1,
      limits: [{ place: 'heat', limit: 'OCF-W-8.1', revision: 1 }],
    });
    const plan = kept('plan.json', JSON.parse(said({ template: 'brake heat' }, filling).text));
    for (const name of ['methods.json', 'limits.json'])
      fs.copyFileSync(path.join(sample('dunlin-42-heat'), name), path.join(folder, name));
    expect(said({ risks: plan }).status).toBe(EXIT.done);
  });

  it.each([
    [{}, '--limit is missing'],
    [{ limit: '1500', unit: 'kPa', mean: '1900', cv: '6' }, 'write 0.06 for 6 %'],
    [{ n: 'five' }, '--n is "five"'],
    [{ n: '5', confidence: '95' }, 'write 0.95 for 95 %'],
    [{ n: '5', lotSize: '1' }, '/lotSize'],
    [{ template: 'bust' }, '"burst", "brake heat", "impact"'],
    [{ risks: '/nowhere/plan.json' }, 'There is no file'],
    [{ limit: '1500', unit: 'kPa', mean: '1900', cv: '0.06', shape: '8' }, '/raised/loadRatio'],
  ] as [Partial<PlanOptions>, string][])('teaches: %o', (options, sentence) => {
    expect(() => said(options)).toThrow(sentence);
  });
});
