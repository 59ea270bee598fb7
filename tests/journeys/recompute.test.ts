import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { SOFTWARE } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breakbook } from '../breakbook.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = 'sample-runs/dunlin-42-second-lot';
const out = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-recompute-'));
let kept = '';
afterAll(() => fs.rmSync(out, { recursive: true }));

beforeAll(async () => {
  kept = /^Result {2}(.+)$/m.exec((await breakbook('judge', folder, '--out', out)).stdout)?.[1] ?? '';
}, 120_000);

/** Recomputes against the kept result after a change to it. */
// biome-ignore lint/suspicious/noExplicitAny: the tests change whatever stands in a result.
async function against(change: (result: any) => void) {
  const result = JSON.parse(fs.readFileSync(kept, 'utf8'));
  change(result);
  const changed = path.join(out, 'changed.json');
  fs.writeFileSync(changed, JSON.stringify(result));
  return breakbook('recompute', folder, '--against', changed);
}

describe('breakbook recompute', () => {
  it('finds every run identical to what was kept, whatever version of the software kept it', async () => {
    const answer = await breakbook('recompute', folder, '--against', kept);
    expect(answer.stderr).toBe('');
    expect(answer.status).toBe(0);
    expect(answer.stdout).toContain("8 of 8 runs identical to the last bit; the lot's result is identical.");
    const older = await against((result) => {
      for (const { reading } of result.runs) reading.software = 'breakbook 0.0.9';
    });
    expect(older.status).toBe(0);
    expect(older.stdout).toContain('breakbook 0.0.9');
  });

  it('finds a single last bit that was changed, says where, and since which revision of the method', async () => {
    let planted = '';
    const answer = await against((result) => {
      const { run, reading } = result.runs[2];
      const one = reading.characteristics[0];
      const was = one.value.value;
      // The next double: the one before plus its spacing.
      one.value.value = was + 2 ** (Math.floor(Math.log2(was)) - 52);
      const { method, revision } = reading.method;
      planted =
        `Run ${run}, since ${method} rev. ${revision}, ${SOFTWARE}: reading / characteristics / ` +
        `${one.characteristic} / value / value: was ${one.value.value}, is ${was}`;
    });
    expect(answer.status).toBe(1);
    expect(answer.stdout).toContain('7 of 8 runs identical');
    expect(answer.stdout.replaceAll(/\n {2}(?=[^ ])/g, ' ')).toContain(planted);
  });

  it('tells what only came to it, as to results kept before verdicts told their steps, from what is otherwise', async () => {
    const answer = await against((result) => {
      for (const { judgement } of result.runs)
        for (const verdict of judgement.verdicts) {
          delete verdict.zone;
          delete verdict.steps;
        }
    });
    expect(answer.status).toBe(1);
    expect(answer.stdout).toContain('only added to');
    expect(answer.stdout.replaceAll(/\n {2}(?=[^ ])/g, ' ')).toMatch(
      /worked out now and not kept then: steps \(\d+\), zone \(\d+\)\. Nothing that was kept is otherwise\./,
    );
    expect(answer.stdout).not.toMatch(/: was /);
  });

  it('finds a run that was kept and is gone, one that was not kept, and another judgement of the lot', async () => {
    const answer = await against((result) => {
      const [first] = result.runs.splice(0, 1);
      result.runs.push({ ...first, run: 'gone' });
      result.result.sentence = 'All is well.';
    });
    expect(answer.status).toBe(1);
    expect(answer.stdout).toMatch(/gone .* not in the folder/);
    expect(answer.stdout).toContain('not kept before');
    expect(answer.stdout).toContain('sentence: was "All is well."');
  });

  it('ends with 2 and says what to do without a result to compare with, or with one that is none', async () => {
    const none = await breakbook('recompute', folder, '--against', path.join(out, 'none.json'));
    expect(none.status).toBe(2);
    expect(none.stderr).toContain('judge the folder first');
    const other = await against((result) => {
      delete result.runs[0].reading.method;
    });
    expect(other.status).toBe(2);
    expect(other.stderr).toContain('/runs/0/reading/method');
  });
});

describe('breakbook recompute, of a folder of lots', () => {
  it('recomputes each, tells which differ and which cannot be read, and goes on', async () => {
    const lots = path.join(out, 'lots');
    for (const name of ['a', 'b', 'c'])
      fs.cpSync(path.join(root, 'sample-runs/dunlin-42-keyed'), path.join(lots, name), { recursive: true });
    const keptLots = path.join(out, 'kept');
    await breakbook('judge', path.join(lots, 'a'), '--out', keptLots);
    fs.rmSync(path.join(lots, 'c', 'runs.json'));
    const runs = path.join(lots, 'b', 'runs.json');
    fs.writeFileSync(runs, fs.readFileSync(runs, 'utf8').replace('"value": 1840', '"value": 1841'));

    const answer = await breakbook('recompute', lots, '--against', keptLots);
    expect(answer.stdout).toContain('1 of 3 lots identical to the last bit');
    expect(answer.stdout).toMatch(/Lot D42-OR1: \d+ of 13 runs and \d+ places of the lot's result differ, first/);
    expect(answer.stdout).toContain('c: not recomputed');
    expect(answer.status).toBe(2);
  });
});
