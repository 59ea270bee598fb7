import { describe, expect, it } from 'vitest';
import { Method } from './methods.js';
import { photosAskedOf, photosInWords, photosMissing } from './photos.js';

// Which photos a lab takes of a break is its own rule: common practice, no source.
const MODES = [
  {
    code: 'BF-FLG',
    photos: [
      { of: 'origin of the fracture', least: 2 },
      { of: 'whole rim', least: 1 },
    ],
  },
  { code: 'BF-WAL', photos: [{ of: 'origin of the fracture', least: 3 }] },
  { code: 'BN-NONE' },
];
const found = (...codes: string[]) => ({ modes: codes.map((code) => ({ code })) });
const of = (shows?: string) => (shows === undefined ? {} : { shows });

describe('photos asked for by failure modes', () => {
  it('are those of the modes that the examination names, the larger number where two ask for one thing', () => {
    expect(photosAskedOf(MODES, { examination: found('BF-FLG', 'BF-WAL') })).toEqual([
      { of: 'origin of the fracture', least: 3, present: 0 },
      { of: 'whole rim', least: 1, present: 0 },
    ]);
    expect(photosAskedOf(MODES, { examination: found('BN-NONE') })).toEqual([]);
    expect(photosAskedOf(MODES, {})).toEqual([]);
  });

  it('are there where a photo says that it shows the thing; more of one do not make up for another', () => {
    const photos = [of('whole rim'), of('whole rim'), of(), of('the rig'), of('origin of the fracture')];
    const asked = photosAskedOf(MODES, { examination: found('BF-FLG'), photos });
    expect(photosMissing(asked)).toEqual([{ of: 'origin of the fracture', least: 2, present: 1 }]);
    expect(photosInWords(asked)).toBe('photos asked for: 3, present: 2');
  });

  it('are asked for once of each thing in one mode', () => {
    const twice = Method.safeParse({
      test: 'table',
      failureModes: [
        {
          code: 'BF-FLG',
          meaning: 'flange',
          countsAs: {},
          photos: [
            { of: 'whole rim', least: 1 },
            { of: 'whole rim', least: 2 },
          ],
        },
      ],
    });
    expect(twice.error?.issues.map(({ path }) => path.join('/'))).toContain('failureModes/0/photos');
  });
});
