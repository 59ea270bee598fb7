import { describe, expect, it } from 'vitest';
import { Validity } from '../outcomes.js';
import { Plan } from '../plans.js';
import { Examination } from '../runs.js';
import { hasLoaded, keptFromRunBy } from './used-again.js';

const lines = (survivorsOf?: string[]) =>
  [
    { line: 'fatigue' },
    { line: 'static', ...(survivorsOf ? { survivorsOf } : {}) },
    { line: 'impact' },
  ] as Plan['lines'];
const ran = (planLine: string, plan = 'P') => ({ run: `run-${planLine}`, plan, planLine });

describe('whether a run loaded its specimen', () => {
  for (const validity of [undefined, ...Validity.options])
    for (const partSound of [undefined, ...Examination.shape.partSound.options]) {
      const not = validity === 'void' || (validity === 'invalid' && partSound === 'sound');
      it(`${validity ?? 'not decided'}, ${partSound ?? 'not examined yet'}: ${not ? 'no' : 'yes'}`, () => {
        expect(hasLoaded({ ...ran('fatigue'), validity, partSound })).toBe(!not);
      });
    }
});

describe('a specimen is run under a line', () => {
  it.each<[string, Parameters<typeof keptFromRunBy>, string | undefined]>([
    ['that is its first', [[], { plan: 'P', lines: lines() }, 'static'], undefined],
    [
      'after another whose survivors it takes',
      [[ran('fatigue')], { plan: 'P', lines: lines(['fatigue']) }, 'static'],
      undefined,
    ],
    [
      'after another, and takes no survivors',
      [[ran('fatigue')], { plan: 'P', lines: lines() }, 'static'],
      'run-fatigue',
    ],
    [
      'after two, of which it takes one',
      [[ran('fatigue'), ran('impact')], { plan: 'P', lines: lines(['fatigue']) }, 'static'],
      'run-impact',
    ],
    ['after the same line', [[ran('static')], { plan: 'P', lines: lines(['fatigue']) }, 'static'], 'run-static'],
    [
      'after the line of another plan',
      [[ran('fatigue', 'Q')], { plan: 'P', lines: lines(['fatigue']) }, 'static'],
      'run-fatigue',
    ],
    [
      'after one that is void',
      [[{ ...ran('impact'), validity: 'void' }], { plan: 'P', lines: lines() }, 'static'],
      undefined,
    ],
  ])('%s', (_what, given, run) => {
    expect(keptFromRunBy(...given)?.run).toBe(run);
  });
});
