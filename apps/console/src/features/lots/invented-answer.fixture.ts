import type { LotBundle, LotResult, Reading, Run, RunJudgement } from '@breakbook/lab';
import type { LotAnswer, RunAnswer } from '../../client/answers.js';

/** An invented lot of three runs, one of them not decided, in the form in which the service answers. */

export const HOSTILE = '<img src=x onerror="document.title=1"> & "Co"';

const at = '2026-03-02T09:00:00Z';

const run = (key: string, specimen: string, decided: boolean): Run => ({
  run: key,
  specimen,
  planLine: 'A',
  method: 'M-1',
  methodRevision: 1,
  rig: 'R1',
  layoutRevision: 1,
  operator: 'p-one',
  startedAt: at,
  conditions: { medium: 'water' },
  files: [{ name: 'run.csv' }],
  measurements: [],
  deviations: [],
  examination: { endReason: 'something broke', modes: [{ code: 'BF-X' }], partSound: 'not sound', person: 'p-one', at },
  ...(decided ? { validity: { validity: 'valid', person: 'p-two', at } } : {}),
});

const limitRef = { limit: 'EXT-1', revision: 1 };

export const bundle: LotBundle = {
  lab: { lab: 'lab', name: 'Saltmarsh Wheelworks test lab', address: 'Saltmarsh', zone: 'UTC' },
  customer: { name: HOSTILE, contact: 'Nobody' },
  people: [
    { person: 'p-one', name: HOSTILE, role: 'Test engineer', duties: ['record'] },
    { person: 'p-two', name: 'Anneliese Größmann', role: 'Head of the lab', duties: ['review', 'decide'] },
    { person: 'p-three', name: 'Tomás Ibáñez Quirós', role: 'Head of quality', duties: ['decide'] },
  ],
  product: {
    product: 'dunlin-42',
    name: HOSTILE,
    description: 'A rim.',
    beadStyle: 'hooked',
    brakeKind: 'rim',
    markedMaximum: { value: 830, unit: 'kPa' },
  },
  lot: {
    lot: 'LOT-1',
    product: 'dunlin-42',
    kind: 'production',
    size: 40,
    madeFrom: '2026-02-01',
    madeTo: '2026-02-02',
  },
  specimens: ['S1', 'S2', 'S3'].map((specimen) => ({
    specimen,
    lot: 'LOT-1',
    serial: `${specimen} ${HOSTILE}`,
    origin: 'drawn at random',
    receivedAt: at,
    condition: 'As delivered.',
  })),
  plan: {
    plan: 'P-1',
    revision: 1,
    title: 'Release',
    product: 'dunlin-42',
    approvedBy: 'p-three',
    approvedOn: '2026-01-05',
    claim: {
      statement: 'Rims hold.',
      use: 'touring',
      population: 'process',
      modeSet: 'all',
      censoring: 'none',
      pooling: 'none',
    },
    lines: [
      {
        line: 'A',
        title: 'Rim strength',
        method: 'M-1',
        methodRevision: 1,
        specimens: 3,
        limits: [limitRef],
        criteria: [{ kind: 'every specimen', criterion: 'A1', limit: limitRef }],
        characteristic: 'burstPressure',
      },
    ],
  },
  limits: [
    {
      ...limitRef,
      bound: 'at least',
      title: 'Rim strength',
      characteristic: 'burstPressure',
      basis: 'governing body',
      appliesTo: 'rims',
      source: 'Overland Cycling Federation (invented).',
      edition: '4th edition',
      inForceFrom: '2026-01-01',
      approvedBy: 'p-three',
      standing: 'example to be confirmed',
      decisionRule: { rule: 'simple' },
      value: 1500,
      unit: 'kPa',
    },
  ],
  methods: [
    {
      test: 'table',
      method: 'M-1',
      revision: 1,
      title: 'Rim strength',
      basis: 'The lab’s own.',
      inForceFrom: '2026-01-01',
      approvedBy: 'p-three',
      channels: [],
      characteristics: [
        {
          characteristic: 'burstPressure',
          title: 'Burst pressure',
          kind: 'pressure',
          unit: 'kPa',
          reference: 'gauge',
          definition: 'Highest pressure before the rim broke.',
        },
      ],
      failureModes: [{ code: 'BF-X', meaning: 'bead flange broke', countsAs: { burstPressure: 'failure' } }],
      minimumSpecimens: 3,
      readiness: ['Nobody stands in line of the wheel plane.', 'The circuit is vented and seen to be at zero.'],
      parameters: {},
    },
  ],
  layouts: [],
  rigs: [
    {
      rig: 'R1',
      name: 'Burst rig',
      location: 'Cell 1',
      placements: [
        {
          channel: 'rimPressure',
          sensor: 'P1',
          from: '2026-01-01',
          fullScale: { value: 4000, unit: 'kPa' },
        },
      ],
    },
  ],
  sensors: [],
  calibrations: [],
  runs: [run('1', 'S1', true), run('2', 'S2', true), run('3', 'S3', false)],
};

const VALUES: Record<string, number> = { '1': 1841.55, '2': 1632.4, '3': 1702.25 };

const result = (key: string): RunJudgement['results'][number] => ({
  characteristic: 'burstPressure',
  title: 'Burst pressure',
  unit: 'kPa',
  reference: 'gauge',
  value: { kind: 'exact', value: VALUES[key] ?? 0 },
  uncertainty: { expanded: 14.2, k: 2 },
  because: 'BF-X (bead flange broke) came first',
  mode: 'BF-X',
});

export const judgements: RunJudgement[] = bundle.runs.map(({ run: key, specimen, validity }) => ({
  run: key,
  specimen,
  planLine: 'A',
  validity: validity?.validity ?? 'not decided',
  results: [result(key)],
  verdicts: validity
    ? [
        {
          limit: limitRef,
          characteristic: 'burstPressure',
          outcome: 'conforms',
          external: true,
          value: { kind: 'exact', value: VALUES[key] ?? 0 },
          uncertainty: { expanded: 14.2, k: 2 },
          unit: 'kPa',
          limitValue: { lower: 1500 },
          acceptance: { lower: 1500 },
          guardBand: 0,
          margin: (VALUES[key] ?? 0) - 1500,
          sentence: `Burst pressure of specimen ${specimen}: ${Math.round(VALUES[key] ?? 0)} kPa. At least 1 500 kPa (EXT-1 rev. 1).`,
        },
      ]
    : [],
}));

export const lot: LotResult = {
  lot: 'LOT-1',
  plan: { plan: 'P-1', revision: 1 },
  outcome: 'undecided',
  sentence: 'Lot LOT-1 is undecided: the lower bound so far is 1 591 kPa.',
  lines: [
    {
      line: 'A',
      characteristic: 'burstPressure',
      title: 'Burst pressure',
      unit: 'kPa',
      planned: 3,
      counts: { runs: 3, valid: 2, withDeviation: 0, invalid: 0, notDecided: 1, void: 0, inClaim: 2 },
      entries: bundle.runs.map(({ run: key, specimen, validity }) => ({
        run: key,
        specimen,
        inClaim: validity !== undefined,
        because: validity ? '' : 'its validity is not decided yet',
        result: result(key),
      })),
      weibull: { n: 2, failures: 2, shape: 23.5421, scale: 1950.25, shapeLimits: [12.67, 37.76], confidence: 0.95 },
      summary: { n: 2, mean: 1736.975, sd: 147.8, min: 1632.4, max: 1841.55 },
      criteria: [
        {
          criterion: 'A1',
          kind: 'every specimen',
          statement: 'Every specimen tested conforms to at least 1 500 kPa (EXT-1 rev. 1).',
          outcome: 'not yet decidable',
          limit: limitRef,
          external: true,
          unit: 'kPa',
          limitValue: 1500,
          numbers: {},
          bound: {
            value: 1591.99,
            estimate: 1772.3,
            coverage: 0.9,
            confidence: 0.95,
            technique: 'conditional',
            achievedConfidence: 0.95,
          },
          because: '2 of 3 planned valid runs make the claim',
          possibleIf: '1 run recorded already can be read and decided',
          steps: [
            {
              question: 'Does the bound clear the limit?',
              numbers: { bound: 1591.99, limit: 1500, tested: 2 },
              answer: 'The bound is 1 591 kPa.',
            },
          ],
        },
      ],
      outcome: 'undecided',
    },
  ],
  notes: ['External limit of at least 1 500 kPa still to be confirmed.'],
  software: 'breakbook',
};

const quantity = { title: 'Burst pressure', unit: 'kPa', reference: 'gauge', decimals: 0 } as const;

export const lotAnswer: LotAnswer = {
  bundle,
  lot,
  judgements,
  readings: [],
  planInWords: {
    claim: ['Rims of this kind hold 15 bar.'],
    lines: [{ line: 'A', title: HOSTILE, says: ['2 specimens, by M-1 rev. 1, looked at once, when all are tested.'] }],
  },
  attempts: {
    lines: [
      { line: 'A', planned: 2, runs: 3, valid: 2, invalid: 0, void: 0, notDecided: 1, inClaim: 2, unplanned: [] },
    ],
    repeated: [],
    marks: [],
  },
  refusals: [],
  figures: [
    {
      line: 'A',
      marginStrip: {
        title: 'Burst pressure against its limits',
        alt: 'Lowest specimen 1 632 kPa, limit 1 500 kPa.',
        caption: 'Lower bound 1 591 kPa.',
        quantity: { ...quantity, second: { unit: '[psi]', decimals: 1 } },
        specimens: bundle.runs.map(({ run: key, specimen }) => ({
          label: specimen,
          value: { kind: 'exact', value: VALUES[key] ?? 0 },
          inClaim: key !== '3',
        })),
        limits: [{ label: 'EXT-1 rev. 1', external: true, value: 1500, conforms: 'at or above' }],
        bounds: [{ label: 'Lower bound', value: 1591.99, estimate: 1772.3, against: 1500 }],
      },
      probabilityPlot: {
        title: 'Weibull plot',
        alt: 'Two specimens near a line.',
        caption: 'Scale 1 950 kPa.',
        quantity,
        failures: [
          { label: 'S2', value: 1632.4, fraction: 0.29 },
          { label: 'S1', value: 1841.55, fraction: 0.71 },
        ],
        atLeast: [],
        fit: { distribution: 'weibull', shape: 23.5421, scale: 1950.25 },
        limits: [{ label: 'EXT-1 rev. 1', value: 1500, external: true, conforms: 'at or above' }],
      },
      strikes: null,
    },
  ],
};

export function runAnswer(key: string): RunAnswer {
  const found = bundle.runs.find((one) => one.run === key);
  const specimen = bundle.specimens.find((one) => one.specimen === found?.specimen);
  const judgement = judgements.find((one) => one.run === key);
  if (!found || !specimen || !judgement) throw new Error(`The invented lot has no run ${key}.`);
  const reading: Reading = {
    run: key,
    method: { method: 'M-1', revision: 1 },
    software: 'breakbook',
    files: [{ name: `\u202Eexe.csv ${HOSTILE}`, sha256: 'ab'.repeat(32), bytes: 12345, rows: 678 }],
    calibrations: [],
    flags: [],
    checks: [
      {
        check: 'peak',
        question: 'Did the peak stay well within the range of the sensor?',
        outcome: 'flag',
        finding: `The peak of ${Math.round(VALUES[key] ?? 0)} kPa uses 96 % of full scale.`,
        action: 'Look at the top of the trace.',
      },
    ],
    characteristics: [
      {
        characteristic: 'burstPressure',
        title: 'Burst pressure',
        unit: 'kPa',
        reference: 'gauge',
        value: { kind: 'exact', value: VALUES[key] ?? 0 },
        uncertainty: { expanded: 14.2, k: 2, components: [{ name: 'calibration', u: 6.1 }] },
        source: 'trace',
        steps: [],
      },
    ],
    events: [],
    proposedValidity: 'needs a look',
  };
  return { run: found, reading, judgement, specimen, trace: null };
}
