import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson } from './canonical-json.js';
import { addedAndChanged, differencesBetween } from './differences.js';

describe('differencesBetween', () => {
  it('finds none between a value and itself, whatever the order of its members', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const again = JSON.parse(canonicalJson(value));
        expect(differencesBetween(JSON.parse(JSON.stringify(value)), again)).toEqual([]);
      }),
      { seed: 8 },
    );
  });

  it('finds one exactly where the canonical JSON of two values differs', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (one, other) => {
        const same = canonicalJson(one) === canonicalJson(other);
        // Empty things of another kind have no part to differ in, so they are compared as wholes too.
        expect(differencesBetween(one, other).length === 0).toBe(same);
      }),
      { seed: 8 },
    );
  });

  it('tells the last bit of a number, by pointer and by the names people know', () => {
    const value = (of: number) => ({ characteristics: [{ characteristic: 'burst/pressure', value: { value: of } }] });
    expect(differencesBetween(value(0.3), value(0.1 + 0.2))).toEqual([
      {
        pointer: '/characteristics/0/value/value',
        place: 'characteristics / burst/pressure / value / value',
        kept: '0.3',
        now: '0.30000000000000004',
      },
    ]);
  });

  it('tells what only one side has', () => {
    expect(differencesBetween({ 'a/b~': 1, list: [1, 2] }, { list: [1] })).toEqual([
      { pointer: '/a~1b~0', place: 'a/b~', kept: '1' },
      { pointer: '/list/1', place: 'list / 2', kept: '2' },
    ]);
    expect(differencesBetween(null, {})).toEqual([{ pointer: '', place: '', kept: 'null', now: '{}' }]);
  });

  it('tells what only came to it from what is otherwise', () => {
    const kept = { verdicts: [{ outcome: 'conforms' }, { outcome: 'conforms' }], flags: [] };
    const now = {
      verdicts: [
        { outcome: 'conforms', zone: 'inside', steps: [{}] },
        { outcome: 'does not conform', zone: 'outside' },
      ],
      flags: ['late'],
    };
    const { added, changed } = addedAndChanged(differencesBetween(kept, now));
    expect(added).toEqual([
      { name: 'flags', places: 1 },
      { name: 'steps', places: 1 },
      { name: 'zone', places: 2 },
    ]);
    expect(changed.map(({ pointer }) => pointer)).toEqual(['/verdicts/1/outcome']);
    // What is there no more was changed.
    expect(addedAndChanged(differencesBetween({ zone: 'inside' }, {})).changed).toHaveLength(1);
  });
});
