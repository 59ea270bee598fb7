import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  COMPARISON_LEVELS,
  type ComparisonDocument,
  type ComparisonResult,
  type Run,
  toolInWords,
} from '@breakbook/lab';
import { afterAll, describe, expect, it } from 'vitest';
import { breakbook } from '../breakbook.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SAMPLE = 'sample-runs/dunlin-42-doubtful';
const out = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-compare-'));
afterAll(() => fs.rmSync(out, { recursive: true }));

async function compare(...words: string[]) {
  const { status, stdout, stderr } = await breakbook('compare', ...words);
  // Thin no-break spaces group digits; lines break where the terminal ends.
  return { status, stdout, flat: stdout.replaceAll('\u202f', ' ').replaceAll(/\s+/g, ' '), stderr };
}

/** Each comparison of the sample is worked out once; several tests look at the answer. */
const told = new Map<string, ReturnType<typeof compare>>();
function sample(at: string) {
  const known = told.get(at) ?? compare(`sample-runs/${at}`);
  told.set(at, known);
  return known;
}

/** What sample-runs/README.md promises of each comparison. */
function promised() {
  const readme = fs.readFileSync(path.join(root, 'sample-runs/README.md'), 'utf8');
  return [...readme.matchAll(/^\| `([a-z0-9-]+\/[a-z-]+\.json)`\s*\|[^|]*\| ([A-E]), ([^|]+?)\s*\| (\d)\s*\|$/gm)].map(
    ([, at = '', level = '', words = '', status]) => ({ at, level, words, status: Number(status) }),
  );
}

/** The sample with one of its documents written otherwise. */
function copyWith<T>(name: string, document: string, change: (document: T) => void): string {
  const copy = path.join(out, name);
  fs.cpSync(path.join(root, SAMPLE), copy, { recursive: true });
  const file = path.join(copy, document);
  const written = JSON.parse(fs.readFileSync(file, 'utf8')) as T;
  change(written);
  fs.writeFileSync(file, JSON.stringify(written));
  return copy;
}

describe('breakbook compare', () => {
  it('has a promise to keep for every sample comparison', () => {
    const there = fs
      .readdirSync(path.join(root, 'sample-runs'), { recursive: true, encoding: 'utf8' })
      .filter((name) => /^[^/]+\/[^/]+\.json$/.test(name))
      .filter((name) => fs.existsSync(path.join(root, 'sample-runs', path.dirname(name), 'lots')));
    expect(
      promised()
        .map(({ at }) => at)
        .sort(),
    ).toEqual(there.sort());
    expect(new Set(promised().map(({ status }) => status))).toEqual(new Set([0, 1]));
  });

  it.each(promised())('$at: $level, $words, status $status', async ({ at, level, words, status }) => {
    const document = JSON.parse(fs.readFileSync(path.join(root, 'sample-runs', at), 'utf8')) as ComparisonDocument;
    const { comparison } = document;
    const answer = await sample(at);
    expect(answer.stderr).toBe('');
    expect(answer.status).toBe(status);
    expect(COMPARISON_LEVELS[level as keyof typeof COMPARISON_LEVELS]).toContain(words);
    expect(answer.stdout).toContain(`\n${level}  ${words.toUpperCase()}`);
    // All that was declared is printed, whatever it showed.
    for (const { title } of comparison.features) expect(answer.flat).toContain(title);
    for (const { title, tool, unit } of comparison.characteristics)
      expect(answer.flat).toContain(`${title}: ${toolInWords(tool, unit)}.`);
    for (const one of comparison.notExamined) expect(answer.flat).toContain(`- ${one}`);
    expect(answer.flat).not.toMatch(/counterfeit|fake|genuine/i);
  });

  it('tells a gap in custody as a gap, and compares all the same', async () => {
    expect((await sample('dunlin-42-doubtful/comparison.json')).flat).toMatch(
      // In the time of the lab: 08:20 there is 07:20Z in November.
      /gaps 1 - Item K-2046: d-zunic had it, and y-hamasaki gave it away; .* between 2026-10-28 12:15 and 2026-11-18 08:20\./,
    );
    expect((await sample('dunlin-42-doubtful/second-pair.json')).flat).toContain('gaps 0 Not examined');
  });

  it('could have shown the differences that sample-runs/README.md states', async () => {
    const readme = fs.readFileSync(path.join(root, 'sample-runs/README.md'), 'utf8').replaceAll(/\s+/g, ' ');
    const [, ...stated] = /found with 90 % \(([\d.]+) °C, ([\d.]+) kN, ([\d.]+) g and ([\d.]+) mm\)/.exec(readme) ?? [];
    const { flat } = await sample('dunlin-42-doubtful/second-pair.json');
    const printed = [...flat.matchAll(/A difference of ([\d.]+) (?:°C|kN|g|mm) or more/g)].map(([, number]) => number);
    expect(stated).toHaveLength(4);
    expect(stated).toEqual(printed.map((one) => `${Number(Number(one).toPrecision(2))}`));
  });

  it('says of each wheel what was not examined on it, and calls it not undecided for want of a second test', async () => {
    const { flat } = await sample('dunlin-42-doubtful/second-pair.json');
    for (const [wheel, title] of [
      ['K-9173', 'Force at the onset of damage'],
      ['K-3817', 'Track temperature at failure'],
    ])
      expect(flat).toContain(
        `- ${wheel} D, consistent. No difference beyond the prediction bounds was found between item ${wheel} and the reference, in the 3 characteristics and the 4 features examined. This does not show common origin. ${title} was not examined on it: it took another test.`,
      );
  });

  it('answers everything as JSON, beside a report: at least 100 °C between reference and the wheel whose tracks melted', async () => {
    const report = path.join(out, 'reports', 'first.pdf');
    const { status, stdout } = await compare(SAMPLE, '--json', '--report', report, '--language', 'de');
    expect(fs.readFileSync(report).subarray(0, 5).toString()).toBe('%PDF-');
    const result = JSON.parse(stdout) as ComparisonResult;
    expect(status).toBe(1);
    const heat = result.characteristics.find(({ name }) => name === 'heat');
    const item = heat?.items[0];
    expect(item).toMatchObject({ specimen: 'K-5290', mode: 'HM-TRK', value: { kind: 'exact' } });
    const survivor = heat?.reference.filter(({ value }) => value.kind === 'atLeast');
    expect(survivor?.map(({ run }) => run)).toEqual(['402']);
    const lowest = Math.min(
      ...(heat?.reference ?? []).map(({ value }) => (value.kind === 'between' ? value.lower : value.value)),
    );
    expect(lowest - (item?.value.kind === 'exact' ? item.value.value : Number.NaN)).toBeGreaterThan(100);
    expect(heat?.each.map(({ specimen }) => specimen)).toEqual(['K-5290']);
  });

  it('ends with 3 where a wheel that should have been tested was not', async () => {
    const copy = copyWith<Run[]>('untested', 'lots/D42R-MK/runs.json', (runs) => {
      runs.splice(0, runs.length, ...runs.filter(({ specimen }) => specimen !== 'K-3817'));
    });
    const { status, flat } = await compare(path.join(copy, 'second-pair.json'));
    expect(status).toBe(3);
    expect(flat).toContain('Force at the onset of damage: inconclusive, because no value of the items is there');
    expect(flat).toContain('C INCONCLUSIVE');
  });

  it.each<[string, () => string, string[]]>([
    ['nothing', () => path.join(out, 'none'), ['There is nothing at', 'file.missing']],
    ['a lot folder', () => `${SAMPLE}/lots/D42R-MK`, ['comparison.json', 'file.missing']],
    [
      'a name that leads nowhere',
      () =>
        copyWith<ComparisonDocument>('nowhere', 'comparison.json', ({ observations }) => {
          observations.splice(0, 1, ...observations.slice(0, 1).map((one) => ({ ...one, specimen: 'X-1' })));
        }),
      ['comparison.json, /observations/0/specimen', 'there is no specimen X-1', 'meta.unknown'],
    ],
    [
      'a report before conclusions are locked',
      () =>
        copyWith<ComparisonDocument>('open', 'comparison.json', (document) => {
          delete document.locked;
        }),
      ['are not locked', 'b-ravenscroft, a-grossmann', 'state.conflict'],
    ],
    [
      'a raw file that is another than was recorded',
      () => {
        const copy = copyWith<Run[]>('changed', 'lots/D42R-2604/runs.json', () => {});
        fs.appendFileSync(path.join(copy, 'lots/D42R-2604/runs/run-405.csv'), '\n');
        return copy;
      },
      ['lot D42R-2604, run 405', 'state.conflict'],
    ],
  ])('ends with 2 on %s, and says where and what', async (_, place, says) => {
    const { status, stdout, stderr } = await compare(place(), '--report', path.join(out, 'refused.pdf'));
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(fs.existsSync(path.join(out, 'refused.pdf'))).toBe(false);
    for (const one of says) expect(stderr.replaceAll(/\s+/g, ' ')).toContain(one);
  });
});
