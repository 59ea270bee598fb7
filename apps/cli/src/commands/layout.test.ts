import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { EXIT, Refusal } from '@breakbook/lab';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { layoutCommand } from './layout.js';

let folder = '';
const printed: string[] = [];

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'layout-'));
  printed.length = 0;
  vi.spyOn(console, 'log').mockImplementation((text: string) => void printed.push(text));
});
afterEach(() => {
  vi.restoreAllMocks();
  fs.rmSync(folder, { recursive: true });
});

function sent(text: string): string {
  const file = path.join(folder, 'log.csv');
  fs.writeFileSync(file, text);
  return file;
}

describe('breakbook layout', () => {
  it('shows what it understood, and a layout to fill in', () => {
    expect(layoutCommand(sent('time [s],P rim [kPa]\n0,101.3\n0.1,102.6\n'), {})).toBe(EXIT.done);
    const text = printed.join('\n');
    expect(text).toMatch(/delimiter +comma/);
    expect(text).toMatch(/2 +P rim +kPa +101\.3 \| 102\.6/);
    expect(text).toContain('To fill in');
    expect(JSON.parse(text.slice(text.indexOf('\n{')))).toMatchObject({ columns: [{ column: 'P rim', channel: '' }] });
  });

  it('ends undecided where a person must decide, and prints the layout alone when asked', () => {
    expect(layoutCommand(sent('time [s],P rim [psig]\n0,1\n0.1,2\n'), { json: true })).toBe(EXIT.undecided);
    expect(JSON.parse(printed.join('\n'))).toMatchObject({ unitNames: [{ written: 'psig', unit: '' }] });
  });

  it('sends no control character of a file to the terminal', () => {
    layoutCommand(sent('time [s],P\u001b[31m\u202e [kPa]\n0,1\n0.1,2\n'), {});
    for (const sign of ['\u001b', '\u202e']) expect(printed.join('\n')).not.toContain(sign);
  });

  it('refuses what is no table of numbers, and a file that is not there', () => {
    expect(() => layoutCommand(sent('a letter\n'), {})).toThrow(Refusal);
    expect(() => layoutCommand(path.join(folder, 'none.csv'), {})).toThrow('cannot be read');
  });
});
