import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PostgresRawStore } from '@breakbook/records';
import { ModulesContainer, NestFactory } from '@nestjs/core';
import { DataSource } from 'typeorm';
import { serviceOn } from '../app.module.js';
import { USUAL_QUOTAS } from '../quotas/quotas.js';
import { openApiOf } from './document.js';
import { typedClient } from './typed-client.js';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));

/** A file of the repository that is made from the routes, and what belongs in it. */
export interface MadeFile {
  path: string;
  text: string;
}

/** The interface's description and the console's types of it, formatted as everything here is. No database is needed. */
export async function madeFiles(): Promise<MadeFile[]> {
  const nowhere = {};
  const app = await NestFactory.createApplicationContext(
    serviceOn(
      new DataSource({ type: 'postgres' }),
      new PostgresRawStore(),
      nowhere,
      nowhere,
      { folder: '' },
      USUAL_QUOTAS,
    ),
    // Nothing is constructed and nothing connected to: only what the modules say of themselves is read.
    { preview: true, logger: false, abortOnError: false },
  );
  const document = openApiOf(app.get(ModulesContainer));
  return [
    formatted('docs/openapi.json', JSON.stringify(document)),
    formatted('apps/console/src/client/generated.ts', typedClient(document)),
  ];
}

function formatted(file: string, text: string): MadeFile {
  const biome = path.join(ROOT, 'node_modules/@biomejs/biome/bin/biome');
  // By its name alone: where they lie, made files are left out of the house's own checks.
  const name = path.basename(file);
  const { status, stdout, stderr } = spawnSync(process.execPath, [biome, 'format', `--stdin-file-path=${name}`], {
    cwd: ROOT,
    input: text,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  if (status !== 0) throw new Error(`${file} could not be formatted: ${stderr}`);
  return { path: path.join(ROOT, file), text: stdout };
}
