import 'reflect-metadata';
import fs from 'node:fs';
import { madeFiles } from './made-files.js';

/** `npm run openapi`: writes the interface's description and the console's types of it anew. */
for (const { path, text } of await madeFiles()) {
  const before = fs.existsSync(path) ? fs.readFileSync(path, 'utf8') : undefined;
  if (before !== text) fs.writeFileSync(path, text);
  console.log(`${path}: ${before === text ? 'as it was' : 'written'}`);
}
