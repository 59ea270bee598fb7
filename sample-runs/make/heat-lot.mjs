/**
 * The pre-production lot of the sister rim with brake tracks: 40 rims, seven drawn at random.
 *
 * The flange softens at a temperature of its own, Weibull of shape 25 and scale 155 °C; the tube on it lets go at one
 * of Weibull shape 12 and scale 172 °C. At 600 W the flange settles near 150 °C, so that some rims outlast the
 * programme. The seed was chosen so that the draw shows what the lot is meant to show; no drawn number was touched.
 */

import { Chance } from './chance.mjs';
import { dragRigDocument } from './drag-rig.mjs';
import { draggedRun } from './dragged-run.mjs';
import { heatDrag } from './heat-method.mjs';
import { later } from './recorded-run.mjs';
import { specimenOf } from './specimens.mjs';
import { customer, lab, limitRef, limits, people, productWithTracks, WHO } from './world.mjs';

const SEED = 'Dunlin 42 R, pre-production, 180';
const LOT = 'D42R-PP1';
const SIZE = 40;
const DRAWN = 7;
const FLANGE = { shape: 25, scale: 155 };
const TUBE = { shape: 12, scale: 172 };

const plan = {
  plan: 'D42R-PP',
  revision: 1,
  title: 'Dunlin 42 R, release of the pre-production lot: brake heat',
  product: productWithTracks.product,
  approvedBy: WHO.approves,
  approvedOn: '2026-10-19',
  claim: {
    statement:
      'Rims of this lot: at least 60 % take 125 Wh of braking by the two-stage drag before rim or tyre lets go, with 90 % confidence.',
    use: 'touring and tandem events with rim brakes, under the rules of the Overland Cycling Federation',
    population: 'lot',
    modeSet: 'only the rim counts as failure; a tube, tyre or pad that let go on a sound rim counts as "at least"',
    censoring: 'rims that survive the programme enter as "at least"',
    pooling: 'none',
  },
  lines: [
    {
      line: 'A',
      title: 'Two-stage drag until failure or the end of the programme',
      method: heatDrag.method,
      methodRevision: heatDrag.revision,
      specimens: 5,
      limits: [limitRef(limits.heat), limitRef(limits.internalHeat)],
      criteria: [
        { kind: 'every specimen', criterion: 'A1', limit: limitRef(limits.heat) },
        { kind: 'zero failures', criterion: 'A2', limit: limitRef(limits.heat), reliability: 0.6, confidence: 0.9 },
      ],
      characteristic: 'energySurvived',
    },
  ],
};

const batch = {
  lot: LOT,
  serialPrefix: LOT,
  receivedAt: '2026-11-02T10:20:00Z',
  build: { 'laminate batch': 'LB-2611', press: 'P2', 'post-cure': '128 °C, 120 min', rework: 'none' },
  mass: { mean: 0.566, spread: 0.004 },
};

/** What a person found. @type {import('./dragged-run.mjs').DragPlan['examined']} */
function examined(ended, chance) {
  const angle = Math.round(chance.between(5, 355));
  const side = chance.oneOf(['left', 'right']);
  switch (ended) {
    case 'programme ended':
      return {
        endReason: 'programme ended',
        modes: [{ code: 'HN-SUR' }],
        partSound: 'sound',
        note: 'Tracks dull, no blister. Tapped and looked at all round when cold: whole.',
      };
    case 'flange opened':
      return {
        endReason: 'something broke',
        modes: [
          { code: 'HF-SPR', place: `${angle}° from the valve, ${side} side` },
          { code: 'HF-RUP', place: `${angle}° from the valve, ${side} side` },
        ],
        partSound: 'not sound',
        note: 'The flange spread over about 20 cm and split along the bed; the tyre let go there.',
      };
    case 'tube went':
      return {
        endReason: 'something broke',
        modes: [{ code: 'HT-TUB', place: 'at the valve root' }],
        partSound: 'sound',
        note: 'The tube split at the root of its valve. The rim was tapped, measured and looked at all round when cold: whole.',
      };
    case 'blower tripped':
      return {
        endReason: 'rig fault',
        modes: [{ code: 'HX-RIG' }],
        partSound: 'sound',
        note: 'The blower tripped and the drum was stopped. Nothing let go. The rim was heated without its air stream and is not used again; a spare of the same draw takes its place.',
      };
  }
}

function runs() {
  const chance = new Chance(SEED);
  const made = ['501', '502', '503', '504', '505', '506'].map((specimen, index) => {
    const blower = specimen === '503';
    const short = specimen === '505';
    return draggedRun({
      run: `${201 + index}`,
      specimen,
      startedAt: later(index < 3 ? '2026-11-04T07:30:00Z' : '2026-11-05T07:20:00Z', 125 * (index % 3)),
      room: (214 + 3 * (index % 3)) / 10,
      softensAt: chance.weibull(FLANGE.shape, FLANGE.scale),
      tubeGoesAt: chance.weibull(TUBE.shape, TUBE.scale),
      ...(blower ? { blowerTrips: { stage: 1, after: 140 } } : {}),
      examined,
      validity: blower
        ? {
            validity: 'invalid',
            reason: 'rig fault',
            note: 'the air stream ended in stage 2 (thermal relay of the blower) and the run with it, so the rim was not heated as the method says',
          }
        : short
          ? {
              validity: 'valid with deviation',
              note: 'Five bedding stops less change the friction of new pads; the controller holds the power all the same',
            }
          : { validity: 'valid' },
      reviewedAt: '2026-11-09T09:00:00Z',
      deviations: short ? ['Pads bedded by 15 stops; the instruction asks for 20.'] : [],
    });
  });
  const counted = made.filter(({ ended }) => ended !== 'blower tripped').map(({ ended }) => ended);
  const shown = ['programme ended', 'flange opened', 'tube went'].map((one) =>
    counted.filter((ended) => ended === one),
  );
  if (counted.length !== 5 || shown.map(({ length }) => length).join() !== '3,1,1')
    throw new Error(`seed "${SEED}": the five rims ended by ${counted.join(', ')}`);
  return made;
}

export function heatLot() {
  const made = runs();
  const places = new Chance(`${SEED}, draw`).draw(DRAWN, SIZE);
  return {
    folder: 'dunlin-42-heat',
    files: made.map(({ file }) => file),
    documents: {
      'lab.json': { lab, customer, people },
      'product.json': productWithTracks,
      'plan.json': plan,
      'limits.json': [limits.heat, limits.internalHeat],
      'methods.json': [heatDrag],
      'rigs.json': dragRigDocument,
      'lot.json': {
        lot: {
          lot: LOT,
          product: productWithTracks.product,
          kind: 'pre-production',
          size: SIZE,
          madeFrom: '2026-10-26',
          madeTo: '2026-10-30',
          note: 'First lot with brake tracks from press P2. Specimen 507 is a spare of the draw and was not tested.',
          sampling: {
            drawnBy: WHO.draws,
            drawnOn: '2026-11-02',
            rule: 'Seven different numbers by lot from the lot list, places 1 to 40: specimens 501 to 505 for plan line A, 506 and 507 as spares, in this order.',
            seed: `${SEED}, draw`,
            place: 'Finished-goods store, rack 6',
          },
        },
        specimens: places.map((place, index) => specimenOf(batch, `${501 + index}`, place)),
      },
      'runs.json': made.map(({ record }) => record),
    },
  };
}
