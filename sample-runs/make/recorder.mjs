/**
 * What a rig's logger writes of true values: sensor, amplifier, converter, file. For any number of channels, where
 * `logger.mjs` knows the two pressures of a water rig.
 *
 * Sensor. indicated = (true − offset) / gain, the inverse of the calibration that corrects it (true = gain · indicated +
 * offset), plus normal noise of the channel's own size.
 *
 * Converter. 16 bit between the ends of the channel's span; whatever exceeds the span sticks at its end.
 *
 * File. Layout 1: UTF-8, LF, `# key: value` lines, then `name [unit]` header, then rows.
 */

import { Chance } from './chance.mjs';

/**
 * @typedef {object} RecordedChannel
 * @property {string} column
 * @property {string} unit
 * @property {ArrayLike<number>} values true, in the unit; all channels have as many
 * @property {{ gain: number, offset: number }} relation
 * @property {number} noise standard deviation
 * @property {[low: number, high: number]} span
 * @property {number} digits behind the point
 */

/**
 * @typedef {object} ChannelRecord
 * @property {string} seed
 * @property {Record<string, string>} metadata
 * @property {number} rate samples per second
 * @property {number} timeDigits
 * @property {RecordedChannel[]} channels
 */

/** The bytes of a run file. @param {ChannelRecord} record */
export function channelFile({ seed, metadata, rate, timeDigits, channels }) {
  const chance = new Chance(seed);
  const lines = Object.entries(metadata).map(([key, value]) => `# ${key}: ${value}`);
  lines.push(['time [s]', ...channels.map(({ column, unit }) => `${column} [${unit}]`)].join(','));

  const rows = channels[0]?.values.length ?? 0;
  for (let row = 0; row < rows; row++) {
    const cells = channels.map(({ values, relation, noise, span, digits }) => {
      const value = values[row] ?? 0;
      const indicated = (value - relation.offset) / relation.gain;
      return converted(indicated + noise * chance.normal(), span).toFixed(digits);
    });
    lines.push([(row / rate).toFixed(timeDigits), ...cells].join(','));
  }
  return `${lines.join('\n')}\n`;
}

/** @param {number} value @param {[number, number]} span */
function converted(value, [low, high]) {
  const step = (high - low) / 65535;
  return low + step * Math.min(65535, Math.max(0, Math.round((value - low) / step)));
}
