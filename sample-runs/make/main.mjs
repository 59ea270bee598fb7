/**
 * Rewrites the sample lots beside this folder, byte for byte the same each time:
 *
 *     node sample-runs/make/main.mjs [other folder]
 */

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { doubtfulComparisons } from './doubtful-comparisons.mjs';
import { heatLot } from './heat-lot.mjs';
import { impactLot } from './impact-lot.mjs';
import { preproduction } from './preproduction.mjs';
import { purchased } from './purchased.mjs';
import { secondLot } from './second-lot.mjs';

const target = process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), '..');

const samples = [preproduction(), secondLot(), purchased(), heatLot(), impactLot(), doubtfulComparisons()];

for (const { folder, documents, files } of samples) {
  const home = join(target, folder);
  rmSync(home, { recursive: true, force: true });
  const written = [
    ...Object.entries(documents).map(([name, document]) => ({ name, text: `${JSON.stringify(document, null, 2)}\n` })),
    ...files,
  ];
  let bytes = 0;
  for (const { name, text } of written) {
    const path = join(home, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    bytes += Buffer.byteLength(text);
  }
  console.log(`${folder}: ${written.length} files, ${(bytes / 1e6).toFixed(1)} MB`);
}
