import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SAMPLE = path.join(root, 'sample-runs/old-results/workshop-book.csv');

let service: TestService;
let operator: SignedInCaller;
beforeAll(async () => {
  service = await startTestService();
  // The sample lot that the table names, of the product that it names.
  await keepKeyedLot(service, keyedLot([{ kPa: 1900 }], { lot: 'D42-PP1' }));
  operator = await service.signIn('b-ravenscroft');
}, 120_000);
afterAll(() => service.close());

/** The command with what is typed into it. */
async function breakbook(words: string[], typed = ''): Promise<{ status: number | null; out: string; err: string }> {
  const child = spawn(process.execPath, ['apps/cli/bin/breakbook.mjs', 'old-results', ...words], { cwd: root });
  const said = { out: '', err: '' };
  child.stdout.on('data', (piece) => (said.out += piece));
  child.stderr.on('data', (piece) => (said.err += piece));
  child.stdin.end(typed);
  const status = await new Promise<number | null>((resolve) => child.on('close', resolve));
  return { status, ...said };
}

const sending = () => ['--service', service.url, '--person', 'b-ravenscroft', '--note', 'workshop book 2'];

describe('breakbook old-results', () => {
  it('shows what would be stored of the sample table, marked, and stores nothing', async () => {
    const { status, out } = await breakbook([SAMPLE, '--dry-run']);
    expect(status).toBe(0);
    expect(out).toContain('5 results, each told by a table, no raw file, not recomputable.');
    for (const said of ['18.4 bar gauge', 'at least 15 bar gauge', 'between 14 and 14.5 bar gauge', 'at most 0.3 mm'])
      expect(out).toContain(said);
    expect((await operator.ask('GET', '/api/old-results')).body.items).toEqual([]);
  });

  it('sends it in the name of a person, and it stands beside the lot it names and its product', async () => {
    const { status, out, err } = await breakbook([SAMPLE, ...sending()], `${operator.passphrase}\n`);
    expect(err).toBe('');
    expect(status).toBe(0);
    const sha256 = createHash('sha256').update(fs.readFileSync(SAMPLE)).digest('hex');
    expect(out).toContain(`Taken over as table 1: 5 results, SHA-256 ${sha256}.`);
    const ofLot = (await operator.ask('GET', '/api/lots/D42-PP1/old-results')).body.items;
    expect(ofLot.map(({ specimen }: { specimen: string }) => specimen)).toEqual(['P-01']);
    const ofProduct = (await operator.ask('GET', '/api/products/dunlin-42/old-results')).body.items;
    expect(ofProduct).toHaveLength(5);
  });

  it('ends with 4 where the service refuses: the same table again, or a wrong passphrase', async () => {
    const again = await breakbook([SAMPLE, ...sending()], `${operator.passphrase}\n`);
    expect(again).toMatchObject({ status: 4, err: expect.stringContaining('taken over already, as number 1') });
    expect(await breakbook([SAMPLE, ...sending()], 'not it\n')).toMatchObject({ status: 4 });
  });

  it('ends with 2 where the table is none, or nobody is named, and with 5 where no service answers', async () => {
    expect(await breakbook([path.join(root, 'README.md'), '--dry-run'])).toMatchObject({
      status: 2,
      err: expect.stringContaining('README.md, line 1'),
    });
    expect(await breakbook([`${SAMPLE}.gone`])).toMatchObject({ status: 2 });
    expect(await breakbook([SAMPLE, '--service', service.url])).toMatchObject({ status: 2 });
    const nobody = ['--service', 'http://127.0.0.1:9', '--person', 'b-ravenscroft'];
    expect(await breakbook([SAMPLE, ...nobody], 'x\n')).toMatchObject({ status: 5 });
  });
});
