import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ComparisonDocument, CustodyEvent, Observation } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadDemoLab } from '../../apps/launch/src/demo-lab.ts';
import { breakbook } from '../breakbook.ts';
import { type TestDatabase, testDatabase } from '../database.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { jobDone } from '../signed-report.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SAMPLE = path.join(root, 'sample-runs/dunlin-42-doubtful');
const documents = ['comparison.json', 'second-pair.json'].map(
  (name) => JSON.parse(fs.readFileSync(path.join(SAMPLE, name), 'utf8')) as ComparisonDocument,
);
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-demo-'));

let database: TestDatabase;
let service: TestService;
let definer: SignedInCaller;
const said: string[] = [];
beforeAll(async () => {
  fs.cpSync(SAMPLE, path.join(folder, path.basename(SAMPLE)), { recursive: true });
  database = await testDatabase();
  await loadDemoLab(database.service, folder, (line) => said.push(line));
  service = await startTestService({ on: database });
  definer = await service.signIn('i-sorbo');
}, 300_000);
afterAll(async () => {
  await service.close();
  fs.rmSync(folder, { recursive: true });
});

async function every<T>(by: SignedInCaller, at: string): Promise<T[]> {
  const found: T[] = [];
  for (let next: string | undefined = ''; next !== undefined; ) {
    const { status, body } = await by.ask('GET', next === '' ? at : `${at}?after=${next}`);
    expect(status).toBe(200);
    found.push(...body.items);
    next = body.next ?? undefined;
  }
  return found;
}

describe('a comparison folder in the demo lab', () => {
  it('is kept once: lots, then comparisons', async () => {
    expect(said).toEqual([
      ...['D42R-2603', 'D42R-2604', 'D42R-2605', 'D42R-2606'].map((lot) => `demo lab: lot ${lot} with 7 runs`),
      'demo lab: lot D42R-MK with 4 runs',
      'demo lab: comparison D42R-C1',
      'demo lab: comparison D42R-C2',
    ]);
    const again: string[] = [];
    await loadDemoLab(database.service, folder, (line) => again.push(line));
    expect(again).toEqual([]);
  });

  it('is declared and approved as the folder says, before anything of its items was seen', async () => {
    for (const { comparison } of documents) {
      const { body } = await definer.ask('GET', `/api/comparisons/${comparison.comparison}`);
      expect(body.state).toBe('approved');
      expect(body.content).toEqual(comparison);
      expect(body.before).toEqual({ runs: 0, observations: 0 });
    }
    const { body } = await definer.ask('GET', '/api/references/D42R-KNOWN');
    expect(body.content).toEqual(documents[0]?.reference);
  });

  it('keeps custody, consents and everything that was seen, in the names of who wrote it down', async () => {
    for (const { comparison, custody, consents = [], observations } of documents) {
      const key = comparison.comparison;
      const answer = (await definer.ask('GET', `/api/comparisons/${key}`)).body;
      expect(answer.consents).toHaveLength(consents.length);
      const seen = await every<{ content: Observation; by: string }>(definer, `/api/comparisons/${key}/observations`);
      const inOrder = (all: readonly Observation[]) =>
        all.map((one) => `${one.specimen} ${one.feature} ${one.seen ?? one.quantity?.value} ${one.by}`).sort();
      expect(inOrder(seen.map(({ content }) => content))).toEqual(inOrder(observations));
      const items = [...new Set(custody.map(({ specimen }) => specimen))];
      for (const item of items) {
        const { body } = await definer.ask('GET', `/api/specimens/${item}/custody`);
        const kept = body.items.map(({ recordedAt: _, ...event }: CustodyEvent & { recordedAt: string }) => event);
        expect(kept).toEqual(custody.filter(({ specimen }) => specimen === item));
      }
    }
  });

  it('comes to the same in the service as from the folder', async () => {
    const decider = await service.signIn('t-ibanez');
    const { stdout } = await breakbook('compare', `${SAMPLE}/second-pair.json`, '--json');
    await jobDone(decider, await decider.ask('POST', '/api/comparisons/D42R-C2/results'));
    const { body } = await decider.ask('GET', '/api/comparisons/D42R-C2/result');
    expect(body.content).toEqual(JSON.parse(stdout));
    expect(body.content.level).toBe('D');
  }, 300_000);

  it('keeps from whoever is blinded where an item came from', async () => {
    const blinded = await service.signIn('b-ravenscroft');
    const { body } = await blinded.ask('GET', '/api/specimens/K-5290/custody');
    expect(body.hiddenFromYou).toBe(true);
    expect(JSON.stringify(body)).not.toContain('Fenbridge');
  });
});
