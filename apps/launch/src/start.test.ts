import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const program = fileURLToPath(new URL('../dist/main.js', import.meta.url));

it('makes no lab for whoever asks for help, and says where settings are made', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-start-'));
  const data = path.join(folder, 'data');
  const { status, stderr } = spawnSync(process.execPath, [program, '--help'], {
    encoding: 'utf8',
    env: { ...process.env, BREAKBOOK_DATA: data },
  });
  expect(stderr).toMatch(/takes no words, and "--help" is one.*BREAKBOOK_DATA.*breakbook --help/);
  expect(status).toBe(2);
  expect(fs.existsSync(data)).toBe(false);
  fs.rmSync(folder, { recursive: true });
});
