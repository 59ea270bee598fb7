#!/usr/bin/env node
import fs from 'node:fs';

// npm links this file before anything is compiled, so that `npx breakbook` is there from the first install on.
const main = new URL('../dist/main.js', import.meta.url);
if (fs.existsSync(main)) await import(main.href);
else {
  console.error('breakbook is not compiled yet. Run `npm start` or `npm test` once in the project folder.');
  process.exitCode = 70;
}
