import { describe, expect, it } from 'vitest';
import { inventedContent } from '../../fixtures/invented-lot.js';
import type { Table } from '../../parts/blocks.js';
import { runsSection } from './runs.js';

const content = inventedContent({ specimens: 3 });

/** The same lot, its method asking for photos of a broken flange, its first run with so many of them. */
function withPhotos(shows: string[], withoutPhotos?: string): typeof content {
  const [method, ...methods] = content.bundle.methods;
  const [run, ...runs] = content.bundle.runs;
  if (!method || !run?.examination) throw new Error('an invented lot has an examined run');
  const failureModes = method.failureModes.map((mode) =>
    mode.code === 'BF-FLG' ? { ...mode, photos: [{ of: 'origin of the fracture', least: 2 }] } : mode,
  );
  const photos = shows.map((one) => ({
    caption: one,
    shows: one,
    takenBy: 'ben',
    device: 'bench camera',
    takenAt: run.startedAt,
  }));
  const examination = { ...run.examination, ...(withoutPhotos === undefined ? {} : { withoutPhotos }) };
  return {
    ...content,
    bundle: {
      ...content.bundle,
      methods: [{ ...method, failureModes }, ...methods],
      runs: [{ ...run, examination, photos }, ...runs],
    },
  };
}

/** How the first run ended, as it is printed. */
function ended(given: typeof content): string {
  const table = runsSection(given).blocks.find((block): block is Table => block.block === 'table');
  return JSON.stringify(table?.rows[0]?.[4]);
}

describe('how a run ended', () => {
  it('is printed with the photos that its mode asks for', () => {
    expect(ended(content)).not.toContain('photos');
    expect(ended(withPhotos(['origin of the fracture', 'the rig']))).toContain('photos asked for: 2, present: 1');
    const whole = ended(withPhotos(['origin of the fracture', 'origin of the fracture'], 'no reason needed'));
    expect(whole).toContain('present: 2');
    expect(whole).not.toContain('no reason needed');
  });

  it('is printed with why photos are missing', () => {
    expect(ended(withPhotos([], 'the pieces were swept up'))).toContain('present: 0; the pieces were swept up');
  });
});
