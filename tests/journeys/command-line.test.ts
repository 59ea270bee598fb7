import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { breakbookProcess as calledAlone, breakbook as calledHere, type Ended } from '../breakbook.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const out = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-cli-'));
afterAll(() => fs.rmSync(out, { recursive: true }));

// Thin no-break spaces group digits; for reading along they are spaces.
const readable = (ended: Ended): Ended => ({ ...ended, stdout: ended.stdout.replaceAll('\u202f', ' ') });
const breakbook = async (...words: string[]) => readable(await calledHere(...words));
const breakbookProcess = (words: string[], input?: string) => readable(calledAlone(words, input));

/** Rows of the first table of sample-runs/README.md: what each folder should give. */
function promised(): { folder: string; outcome: string; status: number }[] {
  const readme = fs.readFileSync(path.join(root, 'sample-runs/README.md'), 'utf8');
  return [...readme.matchAll(/^\| `([a-z0-9-]+)`\s*\|[^|]*\| ([^|:]+)[^|]*\| (\d)\s*\|$/gm)].map(
    ([, folder = '', outcome = '', status]) => ({
      folder,
      outcome: outcome.trim(),
      status: Number(status),
    }),
  );
}

/** Each sample folder is judged once; several tests look at the answer. */
const judged = new Map<string, Ended | Promise<Ended>>();
function judge(folder: string): Ended | Promise<Ended> {
  const words = ['judge', `sample-runs/${folder}`, '--out', out];
  // One of them as a person does it: in a process of its own.
  const known =
    judged.get(folder) ?? (folder === 'dunlin-42-second-lot' ? breakbookProcess(words) : breakbook(...words));
  judged.set(folder, known);
  return known;
}

describe('breakbook sheets', () => {
  const keyed = 'sample-runs/dunlin-42-keyed';
  const lot = JSON.parse(fs.readFileSync(path.join(root, keyed, 'lot.json'), 'utf8'));
  const runs = JSON.parse(fs.readFileSync(path.join(root, keyed, 'runs.json'), 'utf8'));
  const into = path.join(out, 'sheets');

  it('lays out a sheet for each run, a record for each specimen and the labels, and says which files', async () => {
    const { status, stdout } = await breakbook('sheets', keyed, '--out', into, '--language', 'de', '--json');
    expect(status).toBe(0);
    const said = JSON.parse(stdout) as { lot: string; sheets: { kind: string; of: string; file: string }[] };
    expect(said).toMatchObject({ lot: lot.lot.lot, refused: [] });
    const of = (kind: string) => said.sheets.filter((one) => one.kind === kind).map((one) => one.of);
    expect(of('run-sheet')).toEqual(runs.map(({ run }: { run: string }) => run));
    expect(of('specimen-record')).toEqual(lot.specimens.map(({ specimen }: { specimen: string }) => specimen));
    expect(of('label-sheet')).toEqual([lot.lot.lot]);
    for (const { file } of said.sheets) expect(fs.readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    expect(fs.readdirSync(path.join(into, lot.lot.lot, 'run-sheets'))).toHaveLength(runs.length);
  });

  it('takes one kind alone, and refuses what it does not know', async () => {
    const alone = await breakbook('sheets', keyed, '--out', path.join(into, 'labels'), '--kind', 'label-sheet');
    expect(alone).toMatchObject({ status: 0, stdout: expect.stringContaining('labels.pdf') });
    expect(alone.stdout).not.toContain('run-sheet');
    expect(await breakbook('sheets', keyed, '--kind', 'certificate')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('run-sheet, specimen-record, label-sheet'),
    });
  });
});

describe('breakbook judge, as if', () => {
  const keyed = 'sample-runs/dunlin-42-keyed';
  const plan = JSON.parse(fs.readFileSync(path.join(root, keyed, 'plan.json'), 'utf8'));
  const asIf = async (...words: string[]) => {
    const answer = await breakbook('judge', keyed, '--out', path.join(out, 'as-if'), ...words);
    const file = /^What-if {2}(.+)$/m.exec(answer.stdout)?.[1];
    return { ...answer, found: file === undefined ? undefined : JSON.parse(fs.readFileSync(file, 'utf8')) };
  };

  it('judges under another limit, says so, writes no report, and ends as that outcome does', async () => {
    const { stdout, status, found } = await asIf('--what-if-limit', 'OCF-W-7.2=5000');
    expect(stdout).toContain('WHAT-IF, and no judgement of the lot');
    expect(stdout).toContain('DOES NOT MEET THE PLAN\nWhat-if, nothing is decided by it:');
    expect(status).toBe(1);
    expect(found.result.whatIf.changed).toEqual([
      expect.stringMatching(/^limit OCF-W-7\.2 rev\. 1: at least 5.000.kPa in/),
    ]);
    expect(fs.readdirSync(path.join(out, 'as-if', found.result.lot))).toEqual(['what-if.json']);
  });

  it('judges under another plan', async () => {
    const file = path.join(out, 'other-plan.json');
    const lines = plan.lines.map((line: { specimens: number }) => ({ ...line, specimens: line.specimens + 1 }));
    fs.writeFileSync(file, JSON.stringify({ ...plan, revision: plan.revision + 1, lines }));
    const { stdout, status, found } = await asIf('--what-if-plan', file);
    expect(stdout).toContain(
      `plan ${plan.plan} rev. ${plan.revision + 1} in place of ${plan.plan} rev. ${plan.revision}`,
    );
    expect(found.result.outcome).toBe('undecided');
    expect(status).toBe(3);
  });

  it.each([
    [['--what-if-limit', 'OCF-W-7.2'], 'write it as KEY=VALUE in the unit of the limit'],
    [['--what-if-limit', 'NONE=1'], 'the plan names no such limit. It names OCF-W-7.2 rev. 1'],
    [['--what-if-limit', 'OCF-W-7.2=1..2'], 'has one number'],
    [['--what-if-plan', 'none.json'], 'There is no file'],
    [['--what-if-plan', `${keyed}/lot.json`], 'lot.json'],
  ])('refuses %s', async (words, says) => {
    const { status, stderr, found } = await asIf(...words);
    expect(stderr).toContain(says);
    expect({ status, found }).toEqual({ status: 2, found: undefined });
  });
});

describe('breakbook judge', () => {
  it('has a promise to keep for every sample folder', () => {
    const folders = fs
      .readdirSync(path.join(root, 'sample-runs'))
      .filter((name) => fs.existsSync(path.join(root, 'sample-runs', name, 'lot.json')));
    expect(
      promised()
        .map(({ folder }) => folder)
        .sort(),
    ).toEqual(folders.sort());
    expect(new Set(promised().map(({ status }) => status))).toEqual(new Set([0, 1, 3]));
  });

  it.each(promised())('$folder: $outcome, status $status', async ({ folder, outcome, status }) => {
    const answer = await judge(folder);
    expect(answer.stderr).toBe('');
    expect(answer.stdout).toContain(outcome.toUpperCase());
    expect(answer.status).toBe(status);

    const report = /^Report {2}(.+)$/m.exec(answer.stdout)?.[1] ?? '';
    const result = /^Result {2}(.+)$/m.exec(answer.stdout)?.[1] ?? '';
    expect(fs.readFileSync(report).subarray(0, 5).toString()).toBe('%PDF-');
    expect(JSON.parse(fs.readFileSync(result, 'utf8')).result.outcome).toBe(outcome);
  });

  it('prints the bounds that sample-runs/README.md states', async () => {
    const readme = fs.readFileSync(path.join(root, 'sample-runs/README.md'), 'utf8');
    const bounds = [...readme.matchAll(/bound (\d)(\d{3}) kPa/g)].map(
      ([, thousands, rest]) => `${thousands} ${rest} kPa`,
    );
    expect(bounds.length).toBeGreaterThanOrEqual(3);
    const ended = await Promise.all(promised().map(({ folder }) => judge(folder)));
    const printed = ended.map(({ stdout }) => stdout).join('\n');
    for (const bound of bounds) expect(printed).toContain(`lower bound ${bound}`);
  });

  it('ends with 2 and says what a lot folder holds when the folder is none', async () => {
    const answer = await breakbook('judge', '/nowhere');
    expect(answer.status).toBe(2);
    expect(answer.stderr).toContain('There is no folder /nowhere');
    expect(answer.stderr).toContain('plan.json');
  });

  it('judges the rest, names the line, and ends with 2 when one run file is broken', async () => {
    const broken = path.join(out, 'broken');
    fs.cpSync(path.join(root, 'sample-runs/dunlin-42-second-lot'), broken, { recursive: true });
    const file = path.join(broken, 'runs', fs.readdirSync(path.join(broken, 'runs')).sort()[0] ?? '');
    const lines = fs.readFileSync(file, 'utf8').split('\n');
    const header = lines.findIndex((line) => !line.startsWith('#'));
    lines[header + 3] = (lines[header + 3] ?? '').replace(/,[^,]*/, ',12,5');
    fs.writeFileSync(file, lines.join('\n'));
    // runs.json states the digest of the file as it was; whoever changes one changes both.
    const runs = path.join(broken, 'runs.json');
    fs.writeFileSync(runs, fs.readFileSync(runs, 'utf8').replace(/,?\s*"sha256": "[0-9a-f]{64}"/g, ''));

    const answer = await breakbook('judge', broken, '--out', out);
    expect(answer.status).toBe(2);
    expect(answer.stdout).toContain('Not read');
    expect(answer.stdout).toContain(`line ${header + 4}`);
    expect(answer.stdout).toContain('csv.row-width');
    expect(answer.stdout).toContain('7 of 8 planned in the claim');
  });
});

describe('breakbook', () => {
  it.each([[['judge']], [['judge', 'a', 'b', '--nothing']], [['nothing']], [['ledger']], [[]]])(
    'ends with 2 on the words %j, which it does not know',
    (words: string[]) => {
      const { status, stdout, stderr } = breakbookProcess(words);
      expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
      expect(stderr).toMatch(/^(error: |Usage: )/);
    },
  );
});

describe('breakbook compute', () => {
  it('takes one object and answers in full precision', () => {
    // Zero-failure size 29 for 90 % with 95 % confidence: ln 0.05 / ln 0.90 = 28.4 (Clopper and Pearson 1934).
    const answer = breakbookProcess(['compute', '{"method":"zero-failure-size","reliability":0.9,"confidence":0.95}']);
    expect(answer.status).toBe(0);
    expect(JSON.parse(answer.stdout)).toMatchObject({ method: 'zero-failure-size', result: { n: 29 } });
  });

  it('takes one object a line, answers in order, and ends with the worst', () => {
    const lines = [
      '{"method":"convert","value":1,"from":"[in_i]","to":"mm"}',
      '{"method":"weibull-fit","sample":{"atLeast":[1,2]}}',
      '{"method":"convert","value":1,"from":"[in_i]","to":"mm","gauge":true}',
    ];
    const answer = breakbookProcess(['compute'], lines.join('\n'));
    const replies = answer.stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(replies[0]).toMatchObject({ result: { value: 25.4 } });
    expect(replies[1]).toMatchObject({ notEvaluated: { because: expect.any(String) } });
    expect(replies[2]).toMatchObject({ error: { code: 'body.unknown-field', pointer: '/gauge' } });
    expect(answer.status).toBe(2);
    expect(breakbookProcess(['compute'], lines.slice(0, 2).join('\n')).status).toBe(3);
  });

  it('answers text that is no JSON with a code and a place', () => {
    const answer = breakbookProcess(['compute', '{"method":']);
    expect(answer.status).toBe(2);
    expect(JSON.parse(answer.stdout)).toMatchObject({ error: { code: 'json.syntax' } });
  });

  it('lists every method with its source, and gives a schema', () => {
    const list = breakbookProcess(['compute', '--list']);
    expect(list.status).toBe(0);
    for (const method of [
      'summary',
      'weibull-fit',
      'normal-tolerance-factor',
      'lower-tolerance-bound',
      'zero-failure-size',
      'demonstration-size',
      'binomial-bound',
      'convert',
    ])
      expect(list.stdout).toMatch(new RegExp(`^${method}$`, 'm'));
    expect(list.stdout).not.toContain('[object');
    expect(list.stdout.match(/source: \S/g)?.length).toBeGreaterThanOrEqual(8);
    expect(JSON.parse(breakbookProcess(['compute', '--schema']).stdout)).toHaveProperty('$schema');
  });
});
