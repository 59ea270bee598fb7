/**
 * What the rig's logger writes of a true pressure: sensor, amplifier, converter, file.
 *
 * Sensor. indicated = (true − offset) / gain, the inverse of the calibration that corrects it (true = gain · indicated +
 * offset), plus a zero that wanders with temperature from `zero` to `zero + drift` over the run, plus normal noise.
 *
 * Converter. 16 bit over a span that reaches 1 bar beyond the sensor's full scale on both sides (a live zero shows
 * readings a little below it): one step is about 0.6 mbar. Whatever exceeds the span sticks at its end.
 *
 * File. Layout 1: UTF-8, LF, `# key: value` lines, then `name [unit]` header, pressures to 1 mbar, temperature to
 * 0.01 °C, time to the sample.
 */

import { Chance } from './chance.mjs';

/**
 * @typedef {object} SensorModel
 * @property {number} gain
 * @property {number} offset
 * @property {number} fullScale bar
 * @property {number} noise standard deviation, bar
 */

/**
 * @typedef {object} Recording
 * @property {string} seed
 * @property {Record<string, string>} metadata
 * @property {number} rate samples per second
 * @property {number[]} pressures true gauge pressure, bar
 * @property {[SensorModel, SensorModel]} sensors on the rim, and the second one
 * @property {{ sensor: { gain: number, offset: number }, room: number }} temperature
 * @property {{ at: number, size: number }} [spike] one bad sample: share of the record, bar
 */

/** The bytes of a run file. @param {Recording} recording */
export function runFile({ seed, metadata, rate, pressures, sensors, temperature, spike }) {
  const chance = new Chance(seed);
  const channels = sensors.map((sensor) => ({
    sensor,
    zero: chance.between(0.01, 0.03),
    drift: chance.between(-0.008, 0.012),
  }));
  const warming = chance.between(-0.2, 0.5);
  const spikeRow = spike ? Math.floor(spike.at * pressures.length) : -1;
  const timeDigits = rate === 100 ? 2 : 3;

  const lines = Object.entries(metadata).map(([key, value]) => `# ${key}: ${value}`);
  lines.push('time [s],rim pressure [bar],second pressure [bar],room temperature [Cel]');
  for (const [row, pressure] of pressures.entries()) {
    const along = row / pressures.length;
    const readings = channels.map(({ sensor, zero, drift }, index) => {
      const disturbed = index === 0 && row === spikeRow ? (spike?.size ?? 0) : 0;
      const indicated = (pressure - sensor.offset) / sensor.gain + zero + drift * along + disturbed;
      return converted(indicated + sensor.noise * chance.normal(), sensor.fullScale);
    });
    const room = temperature.room + warming * along + 0.03 * chance.normal();
    const shown = (room - temperature.sensor.offset) / temperature.sensor.gain;
    lines.push(
      [(row / rate).toFixed(timeDigits), ...readings.map((value) => value.toFixed(3)), shown.toFixed(2)].join(','),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** @param {number} value @param {number} fullScale */
function converted(value, fullScale) {
  const [low, high] = [-1, fullScale + 1];
  const step = (high - low) / 65535;
  return low + step * Math.min(65535, Math.max(0, Math.round((value - low) / step)));
}
