/**
 * A purchased lot: 90 rims made by a contract moulder from Saltmarsh moulds, tested on the moulder's own bench. There
 * was no logger: our test engineer stood by and keyed the gauge readings from the results sheet.
 *
 * Line A. Ten rims on one water line share one ramp, which ends at the seventh break: the three rims left are known to
 * hold that pressure and no more is known of them. Their number was fixed beforehand, not their pressure, which is what
 * makes this sample one for which an exact bound exists. Strength: Weibull, shape 24 and scale 19.4 bar, read to 0.1 bar.
 *
 * Line B. Of five rims with a tyre three were tested; two tyres had not come.
 */

import { Chance } from './chance.mjs';
import { burstTable, holdTable } from './methods.mjs';
import { later } from './recorded-run.mjs';
import { brokenRim, specimenOf } from './specimens.mjs';
import { customer, lab, limitRef, limits, people, product, WHO } from './world.mjs';

const SEED = 'Dunlin 42, purchased, 18';
const LOT = 'D42-OR1';
const SIZE = 90;
const STATIONS = 10;
const BREAKS = 7;
const RIM = { shape: 24, scale: 19.4 };
const BAR_A_SECOND = 0.3;
const REVIEWED = '2026-07-17T12:20:00Z';

const plan = {
  plan: 'D42-OR',
  revision: 1,
  title: 'Dunlin 42, first lot from Oxbow Reach Mouldings: pressure',
  product: product.product,
  approvedBy: WHO.approves,
  approvedOn: '2026-07-01',
  claim: {
    statement:
      'Rims made as this lot was made: at least 90 % hold 15 bar in bead clamps, with 95 % confidence. Rims of this lot with a tyre: at least 60 % hold 150 % of the marked pressure, with 90 % confidence, and the tyre stays on.',
    use: 'touring and tandem events under the rules of the Overland Cycling Federation',
    population: 'lot',
    modeSet: 'only a broken rim counts as failure; a tyre or seal that let go on a sound rim counts as "at least"',
    censoring: 'one ramp for ten rims, ended at the seventh break; rims left enter as "at least" that pressure',
    pooling: 'none',
  },
  lines: [
    {
      line: 'A',
      title: 'Rim strength in bead clamps, ten stations, seven breaks',
      method: burstTable.method,
      methodRevision: burstTable.revision,
      specimens: STATIONS,
      limits: [limitRef(limits.rimBurst), limitRef(limits.internalBurst)],
      criteria: [
        { kind: 'every specimen', criterion: 'A1', limit: limitRef(limits.rimBurst) },
        {
          kind: 'tolerance bound',
          criterion: 'A2',
          limit: limitRef(limits.rimBurst),
          distribution: 'weibull',
          coverage: 0.9,
          confidence: 0.95,
        },
      ],
      characteristic: 'burstPressure',
    },
    {
      line: 'B',
      title: 'Hold and over-inflation with a tyre',
      method: holdTable.method,
      methodRevision: holdTable.revision,
      specimens: 5,
      limits: [limitRef(limits.hold), limitRef(limits.rimProof)],
      criteria: [
        { kind: 'every specimen', criterion: 'B1', limit: limitRef(limits.hold) },
        {
          kind: 'zero failures',
          criterion: 'B2',
          limit: limitRef(limits.rimProof),
          reliability: 0.6,
          confidence: 0.9,
        },
      ],
      characteristic: 'burstPressure',
    },
  ],
};

const batch = {
  lot: LOT,
  serialPrefix: LOT,
  receivedAt: '2026-07-13T08:30:00Z',
  build: {
    maker: 'Oxbow Reach Mouldings',
    'laminate batch': 'OR-0626',
    'post-cure': '128 °C, 120 min',
    rework: 'not stated',
  },
};

function specimens() {
  const places = new Chance(`${SEED}, draw`).draw(15, SIZE);
  return places.map((place, index) =>
    specimenOf(
      batch,
      `${301 + index}`,
      place,
      index === 5
        ? { noSerialReason: 'Serial label lost in post-cure; known by its place in the lot list and a paint mark.' }
        : {},
    ),
  );
}

/** A gauge reading of so many tenths of a bar. @param {number} tenths */
function gaugeReading(tenths) {
  return { value: tenths * 10, unit: 'kPa', entered: { text: (tenths / 10).toFixed(1), unit: 'bar' } };
}

function burstRuns() {
  const chance = new Chance(SEED);
  const startedAt = '2026-07-14T08:00:00Z';
  const strengths = Array.from({ length: STATIONS }, () => Math.round(chance.weibull(RIM.shape, RIM.scale) * 10));
  const last = /** @type {number} */ ([...strengths].sort((a, b) => a - b)[BREAKS - 1]);
  const at = later(startedAt, last / 10 / BAR_A_SECOND / 60 + 30);

  return strengths.map((tenths, index) => {
    const broke = tenths <= last;
    const broken = brokenRim(chance, ['BF-FLG', 'BF-FLG', 'BF-WAL', 'BF-BED']);
    return {
      run: `${121 + index}`,
      specimen: `${301 + index}`,
      planLine: 'A',
      method: burstTable.method,
      methodRevision: burstTable.revision,
      operator: WHO.records,
      startedAt,
      conditions: {
        medium: 'water',
        station: `${index + 1} of ${STATIONS}`,
        ramp: '0.3 bar/s, one ramp for all stations',
        'room temperature': { value: 24.4, unit: 'Cel' },
      },
      files: [],
      measurements: [
        {
          of: 'burstPressure',
          quantity: gaugeReading(Math.min(tenths, last)),
          instrument: 'reference gauge OR-G4, 0 to 40 bar',
          person: WHO.records,
          at,
        },
      ],
      examination: {
        ...(broke
          ? broken
          : {
              endReason: 'programme ended',
              modes: [{ code: 'BN-NONE' }],
              partSound: 'sound',
              note: 'Whole at the seventh break, when the line was vented. Tapped and looked at all round: no mark.',
            }),
        person: WHO.records,
        at,
      },
      validity: { validity: 'valid', person: WHO.reviews, at: REVIEWED },
      readiness: { confirmedBy: WHO.records, at: later(startedAt, -10) },
      deviations: [],
    };
  });
}

function holdRuns() {
  const chance = new Chance(`${SEED}, holds`);
  return Array.from({ length: 3 }, (_, index) => {
    const startedAt = later('2026-07-15T07:30:00Z', 40 * index);
    const at = later(startedAt, 12);
    const measured = { person: WHO.records, at };
    return {
      run: `${131 + index}`,
      specimen: `${311 + index}`,
      planLine: 'B',
      method: holdTable.method,
      methodRevision: holdTable.revision,
      operator: WHO.records,
      startedAt,
      conditions: {
        medium: 'water',
        'set-up': 'reference tyre 622-28 with tube',
        'room temperature': { value: (239 + 2 * index) / 10, unit: 'Cel' },
      },
      files: [],
      measurements: [
        {
          of: 'longestHold',
          quantity: { value: Math.round(chance.between(303, 315)), unit: 's' },
          instrument: 'stop-watch SW-3',
          ...measured,
        },
        {
          of: 'burstPressure',
          quantity: gaugeReading(125),
          instrument: 'reference gauge OR-G4, 0 to 40 bar',
          ...measured,
        },
      ],
      examination: {
        endReason: 'programme ended',
        modes: [{ code: 'BN-NONE' }],
        partSound: 'sound',
        note: 'Tyre in place after the hold and at 12.5 bar; rim whole.',
        person: WHO.records,
        at: later(at, 10),
      },
      validity: { validity: 'valid', person: WHO.reviews, at: REVIEWED },
      readiness: { confirmedBy: WHO.records, at: later(startedAt, -5) },
      deviations: [],
    };
  });
}

export function purchased() {
  return {
    folder: 'dunlin-42-keyed',
    files: /** @type {{ name: string, text: string }[]} */ ([]),
    documents: {
      'lab.json': { lab, customer, people },
      'product.json': product,
      'plan.json': plan,
      'limits.json': [limits.rimBurst, limits.internalBurst, limits.hold, limits.rimProof],
      'methods.json': [burstTable, holdTable],
      'rigs.json': { rigs: [], layouts: [], sensors: [], calibrations: [] },
      'lot.json': {
        lot: {
          lot: LOT,
          product: product.product,
          kind: 'purchased',
          size: SIZE,
          madeFrom: '2026-06-15',
          madeTo: '2026-06-26',
          note: 'Specimens 314 and 315 wait for their tyres.',
          sampling: {
            drawnBy: WHO.draws,
            drawnOn: '2026-07-13',
            rule: 'Fifteen different numbers by lot from the lot list, places 1 to 90: specimens 301 to 310 for plan line A, 311 to 315 for line B, in this order.',
            seed: `${SEED}, draw`,
            place: "Moulder's store, Oxbow Reach",
          },
        },
        specimens: specimens(),
      },
      'runs.json': [...burstRuns(), ...holdRuns()],
    },
  };
}
