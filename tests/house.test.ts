import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Floors of the house, as in docs/architecture.md. Imports run downward; rooms on one floor do not import each other. */
const FLOORS: Record<string, number> = {
  units: 0,
  lab: 0,
  statistics: 1,
  signals: 2,
  evidence: 2,
  figures: 2,
  acceptance: 3,
  records: 4,
  reports: 4,
  service: 5,
  launch: 6,
  cli: 6,
  console: 6,
};
/** The one permitted import on a floor: the vocabulary may use quantities. */
const PERMITTED = new Set(['lab > units']);
/** Of the house, the console knows these pure rooms only; the service it knows through its generated client. */
const CONSOLE_MAY = new Set(['figures', 'lab', 'units']);
/** Rooms that must answer the same for the same input: no clock, network, disk or unseeded chance. */
const PURE = ['units', 'lab', 'statistics', 'signals', 'figures', 'acceptance', 'reports'];
const IMPURE = [
  /\bDate\.now\(/,
  /\bnew Date\(\)/,
  /\bMath\.random\(/,
  /from 'node:(fs|net|http|child_process)/,
  /\bfetch\(/,
];
/** pdfkit needs its font files; reading them is the one use of the disk in a pure room. */
const MAY_READ_FONTS = 'libs/reports/src/parts/fonts.ts';

interface Source {
  room: string;
  file: string;
  text: string;
}

function sources(): Source[] {
  return ['libs', 'apps'].flatMap((kind) =>
    fs.readdirSync(path.join(root, kind)).flatMap((room) =>
      fs
        .readdirSync(path.join(root, kind, room, 'src'), { recursive: true, encoding: 'utf8' })
        .filter((file) => /\.tsx?$/.test(file) && !/\.test\.tsx?$/.test(file))
        .map((file) => {
          const name = `${kind}/${room}/src/${file}`;
          return { room, file: name, text: fs.readFileSync(path.join(root, name), 'utf8') };
        }),
    ),
  );
}

function importsOf(text: string): string[] {
  const forms = /^(?:import|export|\}).*\bfrom '([^']+)'|^import '([^']+)'|\bimport\('([^']+)'\)/gm;
  return [...text.matchAll(forms)].map((match) => match[1] ?? match[2] ?? match[3] ?? '');
}

function mayImport(from: string, to: string): boolean {
  if (from === 'console') return CONSOLE_MAY.has(to);
  return (FLOORS[to] ?? 99) < (FLOORS[from] ?? -1) || PERMITTED.has(`${from} > ${to}`);
}

describe('the house', () => {
  const all = sources();

  it('has a floor for every room', () => {
    expect(all.length).toBeGreaterThan(20);
    expect([...new Set(all.map(({ room }) => room))].filter((room) => FLOORS[room] === undefined)).toEqual([]);
  });

  it('imports downward only', () => {
    const wrong = all.flatMap(({ room, file, text }) =>
      importsOf(text)
        .map((name) => /^@breakbook\/([a-z-]+)$/.exec(name)?.[1])
        .filter((to): to is string => to !== undefined && to !== room && !mayImport(room, to))
        .map((to) => `${file} imports ${to}`),
    );
    expect(wrong).toEqual([]);
  });

  it('would see a wrong import', () => {
    expect(importsOf("import { x } from '@breakbook/records';")).toEqual(['@breakbook/records']);
    expect(mayImport('statistics', 'records')).toBe(false);
    expect(mayImport('signals', 'figures')).toBe(false);
    expect(mayImport('console', 'acceptance')).toBe(false);
    expect(mayImport('acceptance', 'signals')).toBe(true);
  });

  it('enters a room only by its index', () => {
    const wrong = all.flatMap(({ file, text }) =>
      importsOf(text)
        .filter((name) => /^@breakbook\/[a-z-]+\//.test(name) || leavesRoom(file, name))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('loads nothing for the sake of types', () => {
    // An import of types alone still loads its module, and all that module loads, unless the whole import is of types.
    const loading = sources().flatMap(({ file, text }) =>
      [...text.matchAll(/^(?:import|export) \{([^}]*)\} from .*$/gm)]
        .filter(([, names = '']) =>
          names
            .split(',')
            .map((name) => name.trim())
            .every((name) => name === '' || name.startsWith('type ')),
        )
        .map(([found]) => `${file}: ${found}`),
    );
    expect(loading).toEqual([]);
  });

  it('declares every package a room imports', () => {
    const wrong = all.flatMap(({ room, file, text }) => {
      const kind = file.split('/')[0] ?? '';
      const { dependencies = {}, name } = JSON.parse(
        fs.readFileSync(path.join(root, kind, room, 'package.json'), 'utf8'),
      );
      return importsOf(text)
        .filter((one) => !one.startsWith('.') && !one.startsWith('node:'))
        .map((one) =>
          one
            .split('/')
            .slice(0, one.startsWith('@') ? 2 : 1)
            .join('/'),
        )
        .filter((one) => one !== name && dependencies[one] === undefined)
        .map((one) => `${file} imports ${one}`);
    });
    expect(wrong).toEqual([]);
  });

  it('keeps clock, chance, network and disk out of the pure rooms', () => {
    const wrong = all
      .filter(({ room, file }) => PURE.includes(room) && file !== MAY_READ_FONTS)
      .flatMap(({ file, text }) =>
        IMPURE.filter((pattern) => pattern.test(text)).map((pattern) => `${file}: ${pattern}`),
      );
    expect(wrong).toEqual([]);
  });

  it('is formatted and linted', () => {
    const { status, stdout } = spawnSync(
      process.execPath,
      ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings', '.'],
      {
        cwd: root,
        encoding: 'utf8',
      },
    );
    expect(status, stdout).toBe(0);
  }, 120_000);

  it('has tests that compile', () => {
    const { status, stdout } = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tests'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(status, stdout).toBe(0);
  }, 180_000);
});

function leavesRoom(file: string, name: string): boolean {
  if (!name.startsWith('.')) return false;
  const roomFolder = file.split('/').slice(0, 3).join('/');
  return !path.posix.join(path.posix.dirname(file), name).startsWith(`${roomFolder}/`);
}
