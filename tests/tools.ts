import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, it } from 'vitest';

/** System tools that tests call, with the package that brings each. */
const PACKAGES = {
  pdffonts: 'poppler-utils',
  pdfinfo: 'poppler-utils',
  pdfdetach: 'poppler-utils',
  pdftotext: 'poppler-utils',
  pdfsig: 'poppler-utils',
  pdftoppm: 'poppler-utils',
  openssl: 'openssl',
  python3: 'python3',
  qpdf: 'qpdf',
  chromium: 'chromium',
} as const;
export type Tool = keyof typeof PACKAGES;

type Suite = (name: string, tests: () => void) => void;

/**
 * `describe` for tests that need system tools. Where one is missing they are not run and say so, with what to install:
 * they are counted apart and never as passed.
 */
export function needs(...tools: Tool[]): Suite {
  const missing = [...new Set(tools.filter((tool) => !isThere(tool)).map((tool) => PACKAGES[tool]))];
  if (missing.length === 0) return (name, tests) => void describe(name, tests);
  return (name) => {
    describe(name, () => {
      it.skip(`not run: install ${missing.join(', ')}`);
    });
  };
}

function isThere(tool: Tool): boolean {
  return whereIs(tool) !== undefined;
}

/** Where a tool lies; call it inside `needs`. */
export function toolPath(tool: Tool): string {
  const place = whereIs(tool);
  if (place === undefined) throw new Error(`${tool} is not there: install ${PACKAGES[tool]}`);
  return place;
}

/** Programs that do as well in its place, and are taken first: this one computes for half as long. */
const IN_PLACE_OF: { [tool in Tool]?: string } = { chromium: 'chromium-headless-shell' };

function whereIs(tool: Tool): string | undefined {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter((folder) => folder !== '');
  return [IN_PLACE_OF[tool], tool]
    .filter((name) => name !== undefined)
    .flatMap((name) => folders.map((folder) => path.join(folder, name)))
    .find((file) => fs.existsSync(file));
}

/**
 * What a tool prints about a file with these bytes, or what it writes to `output` beside it. `file` stands for the
 * file's name among the arguments.
 */
export function told(tool: Tool, bytes: Uint8Array, args: (file: string) => string[], output?: string): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-test-'));
  try {
    fs.writeFileSync(path.join(folder, FILE), bytes);
    const printed = execFileSync(tool, args(FILE), { encoding: 'utf8', cwd: folder, maxBuffer: 2 ** 28 });
    return output === undefined ? printed : fs.readFileSync(path.join(folder, output), 'utf8');
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

const FILE = 'document.pdf';
