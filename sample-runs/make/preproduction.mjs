/**
 * The pre-production lot: 60 rims, fifteen drawn at random, one brought by the designer.
 *
 * Strength of a rim in bead clamps: Weibull, shape 25 and scale 19.6 bar, so a mean of 19.2 bar and a coefficient of
 * variation of 5 %. What a tyre holds before it leaves a sound rim or bursts: Weibull, shape 14 and scale 15.8 bar.
 * The seed was chosen so that the draw shows what the lot is meant to show; no drawn number was touched.
 */

import { Chance } from './chance.mjs';
import { burstInClamps, holdWithTyre } from './methods.mjs';
import { later, recordedRun } from './recorded-run.mjs';
import { rigDocuments } from './rigs.mjs';
import { brokenRim, specimenOf } from './specimens.mjs';
import { customer, lab, limitRef, limits, people, product, WHO } from './world.mjs';

const SEED = 'Dunlin 42, pre-production, 79';
const LOT = 'D42-PP1';
const SIZE = 60;
const DRAWN = 15;
const RIM = { shape: 25, scale: 19.6 };
const TYRE = { shape: 14, scale: 15.8 };
const VALID = { validity: 'valid' };

const plan = {
  plan: 'D42-PP',
  revision: 1,
  title: 'Dunlin 42, release of the pre-production lot: pressure',
  product: product.product,
  approvedBy: WHO.approves,
  approvedOn: '2026-09-07',
  claim: {
    statement:
      'Rims made as this lot was made: at least 90 % hold 15 bar in bead clamps, with 95 % confidence. Rims of this lot with a tyre: at least 60 % hold 150 % of the marked pressure, with 90 % confidence, and the tyre stays on.',
    use: 'touring and tandem events under the rules of the Overland Cycling Federation',
    population: 'lot',
    modeSet: 'only a broken rim counts as failure; a tyre or seal that let go on a sound rim counts as "at least"',
    censoring: 'values known from one side enter as "at least"',
    pooling: 'none',
  },
  lines: [
    {
      line: 'A',
      title: 'Rim strength in bead clamps',
      method: burstInClamps.method,
      methodRevision: burstInClamps.revision,
      specimens: 8,
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
      method: holdWithTyre.method,
      methodRevision: holdWithTyre.revision,
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
  receivedAt: '2026-09-21T09:40:00Z',
  build: { 'laminate batch': 'LB-2609', press: 'P2', 'post-cure': '128 °C, 120 min', rework: 'none' },
};

/** Specimens 401 to 415 in the order of their draw, 416 by hand. */
function specimens() {
  const places = new Chance(`${SEED}, draw`).draw(DRAWN, SIZE - 1);
  return [
    ...places.map((place, index) => specimenOf(batch, `${401 + index}`, place)),
    specimenOf(batch, '416', SIZE, {
      origin: 'hand-picked',
      condition: 'Brought by the design engineer as the best-looking rim of the last shift. Outside the draw.',
    }),
  ];
}

/** @returns {ReturnType<typeof recordedRun>[]} */
function runs() {
  const chance = new Chance(SEED);
  const reviewedAt = '2026-10-01T08:30:00Z';
  const clamps = (/** @type {number} */ index, /** @type {string} */ specimen, /** @type {object} */ other) =>
    recordedRun({
      run: `${161 + index}`,
      specimen,
      planLine: 'A',
      method: burstInClamps,
      rig: 'R1',
      startedAt: later('2026-09-28T06:50:00Z', 47 * index),
      room: (218 + 2 * index) / 10,
      strength: chance.weibull(RIM.shape, RIM.scale),
      examination: brokenRim(chance, ['BF-FLG', 'BF-FLG', 'BF-WAL', 'BF-BED']),
      validity: VALID,
      reviewedAt,
      ...other,
    });

  const stoppedEarly = {
    strength: undefined,
    tripAt: 6.2,
    examination: {
      endReason: 'stopped early',
      modes: [],
      partSound: 'sound',
      note: 'The pump drive tripped at 6.2 bar, 75 % of the marked pressure, and the run was stopped. Vented at once; no noise, no mark. The rim is kept, and a spare from the same draw takes its place.',
    },
    validity: {
      validity: 'invalid',
      reason: 'rig fault',
      note: 'The ramp ended before anything gave way, for a cause in the rig (drive log: over-current). The run says nothing of the strength of the rim.',
    },
  };
  return [
    ...['401', '402'].map((specimen, index) => clamps(index, specimen, {})),
    clamps(2, '403', stoppedEarly),
    ...['404', '405', '406', '407', '408'].map((specimen, index) => clamps(3 + index, specimen, {})),
    clamps(8, '414', {}),
    clamps(9, '416', {}),
    ...['409', '410', '411', '412', '413'].map((specimen, index) => withTyre(chance, specimen, index)),
  ];
}

/** @param {Chance} chance @param {string} specimen @param {number} index */
function withTyre(chance, specimen, index) {
  const rim = chance.weibull(RIM.shape, RIM.scale);
  const tyre = chance.weibull(TYRE.shape, TYRE.scale);
  const tyreMode = chance.oneOf(['BT-OFF', 'BT-OFF', 'BT-CAR']);
  const angle = Math.round(chance.between(5, 355));
  if (rim < Math.min(tyre, 16)) throw new Error(`seed "${SEED}": rim ${specimen} breaks before its tyre lets go`);

  const reachedLimit = tyre > 16;
  const startedAt = later('2026-09-29T07:05:00Z', 74 * index);
  return recordedRun({
    run: `${171 + index}`,
    specimen,
    planLine: 'B',
    method: holdWithTyre,
    rig: 'R2',
    startedAt,
    room: (226 + 3 * index) / 10,
    hold: true,
    ...(reachedLimit ? {} : { strength: tyre }),
    examination: reachedLimit
      ? {
          endReason: 'rig limit reached',
          modes: [{ code: 'BN-NONE' }],
          partSound: 'sound',
          note: 'The rig stopped at its limit of 16 bar. Tyre in place, rim whole, no mark.',
        }
      : {
          endReason: 'something broke',
          modes: [{ code: tyreMode, place: `${angle}° from the valve` }],
          partSound: 'sound',
          note:
            tyreMode === 'BT-OFF'
              ? 'The tyre came off over about a quarter of the rim. The rim was tapped and looked at all round: whole.'
              : 'The casing burst between the beads. The rim was tapped and looked at all round: whole.',
        },
    validity: validityWithTyre(index, reachedLimit),
    reviewedAt: '2026-10-01T09:10:00Z',
    deviations:
      index === 1 ? ['Mounted tyre stood 40 min in the room before the run; the instruction asks for 60 min.'] : [],
  });
}

/** @param {number} index @param {boolean} reachedLimit */
function validityWithTyre(index, reachedLimit) {
  if (index === 1)
    return {
      validity: 'valid with deviation',
      note: 'Twenty minutes less in the room do not change what a water-filled tyre holds',
    };
  if (reachedLimit)
    return {
      ...VALID,
      note: 'The record shows no break; the rig log shows its stop at 16 bar, and the examination agrees',
    };
  return VALID;
}

export function preproduction() {
  const made = runs();
  return {
    folder: 'dunlin-42-preproduction',
    files: made.map(({ file }) => file),
    documents: {
      'lab.json': { lab, customer, people },
      'product.json': product,
      'plan.json': plan,
      'limits.json': [limits.rimBurst, limits.internalBurst, limits.hold, limits.rimProof],
      'methods.json': [burstInClamps, holdWithTyre],
      'rigs.json': rigDocuments(['R1', 'R2']),
      'lot.json': {
        lot: {
          lot: LOT,
          product: product.product,
          kind: 'pre-production',
          size: SIZE,
          madeFrom: '2026-09-14',
          madeTo: '2026-09-18',
          note: 'First lot from the production mould. Specimen 415 is a spare of the draw and was not tested.',
          sampling: {
            drawnBy: WHO.draws,
            drawnOn: '2026-09-21',
            rule: 'Fifteen different numbers by lot from the lot list, places 1 to 59: specimens 401 to 408 for plan line A, 409 to 413 for line B, 414 and 415 as spares, in this order.',
            seed: `${SEED}, draw`,
            place: 'Finished-goods store, rack 4',
          },
        },
        specimens: specimens(),
      },
      'runs.json': made.map(({ record }) => record),
    },
  };
}
