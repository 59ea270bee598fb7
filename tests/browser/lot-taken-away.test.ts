import fs from 'node:fs';
import { checkPackage, parseNoteKey } from '@breakbook/evidence';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fromBufferPromise } from 'yauzl';
import { testDatabase } from '../database.ts';
import { folder } from '../journeys/lot-folder.fixture.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('a lot', () => {
  let service: TestService;
  let browser: Browser;
  let head: SignedInCaller;

  beforeAll(async () => {
    const database = await testDatabase();
    const { bundle, filesOf } = folder('dunlin-42-second-lot');
    await importLot(database.records, new PostgresRawStore(), bundle, filesOf);
    service = await startTestService({ on: database, consoleFolder: BUILT });
    head = await service.signIn('a-grossmann');
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('is packed on its page and taken away, and fits the key of the ledger', async () => {
    await atTheirDesk(
      browser,
      service.url,
      head,
      '/lots/D42-P02',
      async (page) => {
        await page.getByText('None was made yet.').waitFor();
        await page.getByRole('button', { name: 'Pack the lot' }).click();
        const link = page.getByRole('link', { name: 'Take it with you' });
        await link.waitFor({ timeout: 90_000 });
        await expectAccessible(page);
        await picture(page, 'lot-packed');
        const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
        expect(download.suggestedFilename()).toBe('lot-D42-P02-package-1.zip');
        const { key } = (await head.ask('GET', '/api/ledger/key')).body;
        const files = await unpacked(fs.readFileSync(await download.path()));
        const source = {
          paths: [...files.keys()],
          async *read(name: string) {
            yield files.get(name) ?? Buffer.alloc(0);
          },
        };
        expect(await checkPackage(source, { key: parseNoteKey(key) })).toMatchObject({ holds: true, lot: 'D42-P02' });
      },
      { width: 390, height: 844 },
    );
  }, 150_000);
});

async function unpacked(bytes: Buffer): Promise<Map<string, Buffer>> {
  const all = new Map<string, Buffer>();
  const zip = await fromBufferPromise(bytes, { lazyEntries: true });
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece);
    all.set(entry.fileName, Buffer.concat(pieces));
  }
  return all;
}
