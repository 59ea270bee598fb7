import { sha256 } from '@breakbook/evidence';
import { type LotBundle, type Method, Refusal, type Run } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { bundleOf } from '../fixtures/invented-bundle.js';
import { burstMethod, examined, internalLimit, planOf, runOf } from '../fixtures/invented-lot.js';
import { type EvaluationProgress, evaluateLot } from './evaluate-lot.js';

/** Five rims with keyed values, each run with a scanned sheet as its file. */
function keyedBundle(change: (run: Run, index: number) => Partial<Run> = () => ({})): LotBundle {
  const limits = [internalLimit(1500)];
  const { parameters: _, channels: __, ...common } = burstMethod;
  const method: Method = {
    ...common,
    test: 'table',
    channels: [],
    characteristics: common.characteristics.slice(0, 1),
    parameters: {},
  };
  const runs = [1700, 1750, 1800, 1850, 1900].map((value, index): Run => {
    const run: Run = {
      ...runOf(`R-${index + 1}`, `040${index + 1}`, {
        examination: examined('something broke', ['BF-FLG'], 'not sound'),
      }),
      files: [{ name: `sheet-${index + 1}.pdf` }],
      measurements: [
        {
          of: 'burstPressure',
          quantity: { value: value / 100, unit: 'bar' },
          instrument: 'gauge 3',
          person: 'ben',
          at: '2031-02-05T09:30:00Z',
        },
      ],
    };
    return { ...run, ...change(run, index) };
  });
  return { ...bundleOf({ limits, runs }), plan: planOf({ limits }), methods: [method] };
}

const bytesOf = (text: string) => new TextEncoder().encode(text);
/** Each run's sheet, different for each. */
const sheets = (run: string) => [{ name: `sheet-${run.slice(2)}.pdf`, bytes: bytesOf(`sheet of ${run}`) }];

describe('evaluateLot', () => {
  it('reads, judges and evaluates a whole lot', () => {
    const { result, runs, refused } = evaluateLot(keyedBundle(), sheets);
    expect(refused).toEqual([]);
    expect(result).toMatchObject({ outcome: 'meets the plan', software: expect.stringContaining('breakbook') });
    expect(runs.map(({ judgement }) => judgement.verdicts[0]?.outcome)).toEqual(Array(5).fill('conforms'));
    // 17 bar keyed is 1700 kPa (NIST SP 811: 1 bar = 100 kPa exactly).
    expect(runs[0]?.judgement.results[0]).toMatchObject({ unit: 'kPa', value: { kind: 'exact', value: 1700 } });
    expect(runs[0]?.reading.files[0]).toMatchObject({ sha256: sha256('sheet of R-1') });
  });

  it('gives the same answer to the same input, and does not touch it', () => {
    const bundle = keyedBundle();
    const before = structuredClone(bundle);
    expect(evaluateLot(bundle, sheets)).toEqual(evaluateLot(bundle, sheets));
    expect(bundle).toEqual(before);
  });

  it('refuses a bundle whose records do not fit each other, with every problem', () => {
    const bundle = keyedBundle((run, index) => (index < 2 ? { specimen: '0999' } : run));
    let refusal: unknown;
    try {
      evaluateLot(bundle, sheets);
    } catch (error) {
      refusal = error;
    }
    expect(refusal).toBeInstanceOf(Refusal);
    expect((refusal as Refusal).problems.map(({ pointer }) => pointer)).toEqual([
      '/runs/0/specimen',
      '/runs/1/specimen',
    ]);
  });

  it.each<[string, (run: string) => { name: string; bytes: Uint8Array }[], string]>([
    ['did not come', (run) => (run === 'R-3' ? [] : sheets(run)), 'file.missing'],
    [
      'is byte for byte that of another run',
      (run) => (run === 'R-3' ? [{ name: 'sheet-3.pdf', bytes: bytesOf('sheet of R-1') }] : sheets(run)),
      'run.duplicate',
    ],
    [
      'is refused by whoever fetches it',
      (run) => {
        if (run === 'R-3') throw new Refusal({ code: 'file.name-invalid', detail: 'the name leads out of the folder' });
        return sheets(run);
      },
      'file.name-invalid',
    ],
  ])('goes on without a run whose file %s', (_, filesOf, code) => {
    const { result, runs, refused } = evaluateLot(keyedBundle(), filesOf);
    expect(refused).toMatchObject([{ run: { run: 'R-3' }, unread: [{ code }] }]);
    expect(runs).toHaveLength(4);
    expect(result).toMatchObject({ outcome: 'undecided', lines: [{ counts: { runs: 5, inClaim: 4, notDecided: 1 } }] });
    expect(result.notes.join(' ')).toContain('Run R-3 (specimen 0403) is not judged');
  });

  it('refuses a file that is not the one the run was recorded with', () => {
    const recorded = keyedBundle((run, index) =>
      index === 2 ? { files: [{ name: 'sheet-3.pdf', sha256: sha256('the sheet as recorded') }] } : run,
    );
    expect(evaluateLot(recorded, sheets).refused).toMatchObject([
      { run: { run: 'R-3' }, unread: [{ code: 'state.conflict', expected: sha256('the sheet as recorded') }] },
    ]);
  });

  it('lets a fault of the program through instead of calling it bad input', () => {
    const broken = () => {
      throw new TypeError('a fault');
    };
    expect(() => evaluateLot(keyedBundle(), broken)).toThrow(TypeError);
  });

  it('tells how far it is', () => {
    const told: EvaluationProgress[] = [];
    evaluateLot(keyedBundle(), sheets, (progress) => told.push(progress));
    expect(told[0]).toEqual({ run: 'R-1', done: 0, of: 5, share: 0 });
    expect(told.at(-1)).toEqual({ run: '', done: 5, of: 5, share: 0 });
  });
});
