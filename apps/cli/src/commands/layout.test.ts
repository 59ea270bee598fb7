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
  it('shows what it understood, and a layout to fill in', async () => {
    expect(await layoutCommand(sent('time [s],P rim [kPa]\n0,101.3\n0.1,102.6\n'), {})).toBe(EXIT.done);
    const text = printed.join('\n');
    expect(text).toMatch(/delimiter +comma/);
    expect(text).toMatch(/2 +P rim +kPa +101\.3 \| 102\.6/);
    expect(text).toContain('To fill in');
    expect(JSON.parse(text.slice(text.indexOf('\n{')))).toMatchObject({ columns: [{ column: 'P rim', channel: '' }] });
  });

  it('ends undecided where a person must decide, and prints the layout alone when asked', async () => {
    expect(await layoutCommand(sent('time [s],P rim [psig]\n0,1\n0.1,2\n'), { json: true })).toBe(EXIT.undecided);
    expect(JSON.parse(printed.join('\n'))).toMatchObject({ unitNames: [{ written: 'psig', unit: '' }] });
  });

  it('sends no control character of a file to the terminal', async () => {
    await layoutCommand(sent('time [s],P\u001b[31m\u202e [kPa]\n0,1\n0.1,2\n'), {});
    for (const sign of ['\u001b', '\u202e']) expect(printed.join('\n')).not.toContain(sign);
  });

  it('refuses what is no table of numbers, and a file that is not there', async () => {
    await expect(layoutCommand(sent('a letter\n'), {})).rejects.toThrow(Refusal);
    await expect(layoutCommand(path.join(folder, 'none.csv'), {})).rejects.toThrow('cannot be read');
    await expect(layoutCommand(folder, {})).rejects.toThrow('cannot be read');
  });

  describe('with a layout that was filled in', () => {
    const filled = {
      layout: 'R1-log',
      revision: 1,
      rig: 'R1',
      form: 'layout 1',
      time: { column: 'time', kind: 'time' },
      columns: [{ column: 'P rim', channel: 'rimPressure' }],
      requiredMetadata: [],
      metadata: 'none',
    };
    const layoutFile = (layout: object) => {
      const file = path.join(folder, 'layout.json');
      fs.writeFileSync(file, JSON.stringify(layout));
      return file;
    };

    it('says what stands in the columns of the whole file', async () => {
      const text = 'time [s],P rim [kPa]\n0,101.3\n0.1,202.6\n0.2,0.5';
      expect(await layoutCommand(sent(text), { with: layoutFile(filled) })).toBe(EXIT.done);
      expect(printed.join('\n')).toMatch(/3 rows, 46 bytes, SHA-256 [0-9a-f]{64}/);
      expect(printed.join('\n')).toMatch(/2 +P rim +kPa +rimPressure +3 +0\.5 +202\.6/);
      expect(printed.join('\n')).toContain('file.no-final-newline');
      printed.length = 0;
      await layoutCommand(sent(text), { with: layoutFile(filled), json: true });
      expect(JSON.parse(printed.join('\n'))).toMatchObject({
        rows: 3,
        columns: [{ largest: 0.2 }, { largest: 202.6 }],
      });
    });

    it('refuses the file, or the layout, with its place', async () => {
      const bad = sent('time [s],P rim [kPa]\n0,101.3\n0.1,1o1\n');
      await expect(layoutCommand(bad, { with: layoutFile(filled) })).rejects.toMatchObject({
        problems: [{ code: 'number.syntax', line: 3, column: 2 }],
      });
      await expect(layoutCommand(bad, { with: layoutFile({ ...filled, rig: '' }) })).rejects.toMatchObject({
        problems: [{ file: 'layout.json', pointer: '/rig' }],
      });
    });
  });
});
