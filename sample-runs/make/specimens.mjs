/** Specimens of a sample lot: who drew them, how they arrived, how they were built. */

import { Chance } from './chance.mjs';

const BARE_RIM = { mean: 0.548, spread: 0.004 };

/**
 * @typedef {object} Batch
 * @property {string} lot
 * @property {string} serialPrefix
 * @property {string} receivedAt
 * @property {Record<string, string>} build
 * @property {{ mean: number, spread: number }} [mass] kg; left out for a bare Dunlin 42
 */

/**
 * @param {Batch} batch
 * @param {string} specimen
 * @param {number} place number in the lot list
 * @param {{ origin?: string, condition?: string, noSerialReason?: string }} [other]
 */
export function specimenOf(batch, specimen, place, other = {}) {
  const chance = new Chance(`${batch.lot} rim ${place}`);
  const { mean, spread } = batch.mass ?? BARE_RIM;
  const serial = `${batch.serialPrefix}-${String(place).padStart(3, '0')}`;
  return {
    specimen,
    lot: batch.lot,
    ...(other.noSerialReason ? { noSerialReason: other.noSerialReason } : { serial }),
    origin: other.origin ?? 'drawn at random',
    receivedAt: batch.receivedAt,
    condition: other.condition ?? 'As delivered, no mark or damage seen; label on the rim.',
    mass: { value: Math.round((mean + spread * chance.normal()) * 1000) / 1000, unit: 'kg' },
    build: {
      ...batch.build,
      mould: chance.oneOf(['M3', 'M4']),
      'laid up by': chance.oneOf(['operator 14', 'operator 22', 'operator 31']),
    },
  };
}

/** What a broken rim looked like: mode and place, drawn. @param {Chance} chance @param {readonly string[]} codes */
export function brokenRim(chance, codes) {
  const angle = Math.round(chance.between(5, 355));
  const side = chance.oneOf(['left', 'right']);
  return {
    endReason: 'something broke',
    modes: [{ code: chance.oneOf(codes), place: `${angle}° from the valve, ${side} side` }],
    partSound: 'not sound',
  };
}
