import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { codeOf, stepAt } from '../../apps/service/src/sign-in/second-factor/one-time-code.ts';
import { queryAs } from '../database.ts';
import { startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { BUILT, expectAccessible, launchChromium, picture, watch } from './browser.ts';

const LONG = 240_000;
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** As an app reads a typed secret, and shows its code. */
function shownByApp(secret: string): string {
  const bits = [...secret.replaceAll(' ', '')]
    .map((letter) => ALPHABET.indexOf(letter).toString(2).padStart(5, '0'))
    .join('');
  const bytes = Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
  return codeOf(bytes, stepAt(Date.now()));
}

needs('chromium')('a second factor, from adding it to losing it', () => {
  let service: TestService;
  let browser: Browser;
  /** Passkeys are for names, so it is this machine's name that the browser goes to. */
  let address: string;
  const person = 'a-grossmann';
  const passphrase = `${person} breaks wheels on purpose`;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    address = `http://localhost:${new URL(service.url).port}`;
    await service.signIn(person, ['review']);
    // As at a first start: a passphrase and nothing else.
    await queryAs(service.database.owner, 'delete from code_generator');
    await queryAs(service.database.owner, 'delete from session');
    browser = await launchChromium();
  }, LONG);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  async function givePassphrase(page: Page): Promise<void> {
    await page.getByLabel('Name to sign in with').fill(person);
    await page.getByLabel('Passphrase', { exact: true }).fill(passphrase);
    await page.keyboard.press('Enter');
    await page.getByLabel('Name to sign in with').waitFor({ state: 'detached' });
  }

  it(
    'is a code generator, asked for at the next sign-in; a passkey beside it; sessions that end elsewhere',
    async () => {
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
      context.setDefaultTimeout(30_000);
      try {
        const page = await context.newPage();
        const wrong = watch(page, address);
        await page.goto(`${address}/me`);
        await givePassphrase(page);
        await page.getByText('Your duties need a second factor beside the passphrase').waitFor();
        await expectAccessible(page);
        await picture(page, 'me-without-second-factor');

        await page.getByRole('button', { name: 'Add a code generator' }).click();
        const secret = page.getByText('Secret:').locator('code');
        await secret.waitFor();
        await expectAccessible(page);
        await picture(page, 'me-code-generator');
        await page.getByLabel('Code that the app shows').fill(shownByApp((await secret.textContent()) ?? ''));
        const kept = (await secret.textContent()) ?? '';
        await page.getByRole('button', { name: 'Take it into use' }).click();
        await page.getByText('Write these recovery codes down now.').waitFor();
        const codes = await page.locator('.recovery-codes code').allTextContents();
        expect(codes).toHaveLength(10);
        await expectAccessible(page);
        await picture(page, 'me-recovery-codes');

        // A device of its own, by the browser's own virtual one.
        const devices = await context.newCDPSession(page);
        await devices.send('WebAuthn.enable');
        await devices.send('WebAuthn.addVirtualAuthenticator', {
          options: {
            protocol: 'ctap2',
            transport: 'usb',
            hasUserVerification: true,
            isUserVerified: true,
            automaticPresenceSimulation: true,
          },
        });
        await page.getByLabel('Name of a new passkey').fill('stick on the key ring');
        await page.getByRole('button', { name: 'Add a passkey' }).click();
        await page.getByRole('button', { name: 'Remove: stick on the key ring' }).waitFor();

        // Signing out and in again: the second factor is asked for, and the passkey is one.
        await page.getByRole('button', { name: 'Sign out' }).first().click();
        await givePassphrase(page);
        await page.getByText('Your passphrase was right.').waitFor();
        await expectAccessible(page);
        await picture(page, 'second-factor-asked');
        await page.getByRole('button', { name: 'Use a passkey' }).click();
        await page.getByRole('heading', { name: 'Where are you signed in?' }).waitFor();
        const [{ uses = '0' } = {}] = await queryAs<{ uses: string }>(
          service.database.owner,
          'select uses from passkey',
        );
        expect(Number(uses)).toBeGreaterThan(1);

        // Another browser of theirs, by a recovery code; ended from the first one.
        const elsewhere = await browser.newContext();
        const other = await elsewhere.newPage();
        await other.goto(`${address}/me`);
        await givePassphrase(other);
        await other.getByLabel('Code', { exact: true }).fill('000000');
        await other.keyboard.press('Enter');
        await other.getByText('This code is not right, or was used already').waitFor();
        await other.getByLabel('Code', { exact: true }).fill(codes[0] ?? '');
        await other.keyboard.press('Enter');
        await other.getByText('9 of them are left').waitFor();
        await page.reload();
        await page.getByRole('button', { name: 'End all others' }).click();
        await page.getByRole('button', { name: 'End all others' }).waitFor({ state: 'detached' });
        await other.reload();
        await other.getByLabel('Name to sign in with').waitFor();
        await elsewhere.close();
        await expectAccessible(page);
        await picture(page, 'me');

        // What was given more than five minutes ago is asked for again: passphrase and code.
        await queryAs(
          service.database.owner,
          `update session set confirmed_at = confirmed_at - interval '5 minutes', second_at = second_at - interval '5 minutes'`,
        );
        await queryAs(service.database.owner, 'update code_generator set last_step = 0');
        await page.getByRole('button', { name: 'Draw new ones' }).click();
        await page.getByLabel('Your passphrase, once more').fill(passphrase);
        await page.getByLabel('Code', { exact: true }).fill(shownByApp(kept));
        await page.getByRole('button', { name: 'Go on' }).click();
        await page.getByText('Write these recovery codes down now.').waitFor();
        expect(await page.locator('.recovery-codes code').allTextContents()).not.toEqual(codes);
        expect(wrong).toEqual([]);
      } finally {
        await context.close();
      }
    },
    LONG,
  );
});
