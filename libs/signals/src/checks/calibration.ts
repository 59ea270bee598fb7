import type { Finding } from './finding.js';

/** The sensor of one channel on the day of the run. */
export interface SensorOnDay {
  channel: string;
  required: boolean;
  day: string;
  sensor?: string;
  calibration?: { calibration: string; date: string; due: string; certificate: string };
}

/** Was the sensor of this channel in calibration on the day? */
export function calibrationInDate({ channel, required, day, sensor, calibration }: SensorOnDay): Finding {
  const named = { check: 'calibration', question: `Was the sensor on ${channel} in calibration on the day?` };
  // What only describes the room does not make a result wrong; what every result rests on does.
  const outcome = required ? ('fail' as const) : ('flag' as const);
  if (!sensor)
    return {
      check: {
        ...named,
        outcome,
        finding: `No sensor is placed on ${channel} on ${day}; its readings stand as indicated.`,
        action: 'Enter which sensor fed the channel on that day.',
      },
    };
  if (!calibration)
    return {
      check: {
        ...named,
        outcome,
        finding: `Sensor ${sensor} had no calibration up to ${day}; its readings stand as indicated.`,
        action: 'Calibrate the sensor before it is used; what this run gave is not traceable.',
      },
    };
  const event = `calibration ${calibration.calibration} (${calibration.certificate}) of sensor ${sensor}, made ${calibration.date}`;
  if (day > calibration.due)
    return {
      check: {
        ...named,
        outcome,
        finding: `On ${day} ${event} was overdue since ${calibration.due}.`,
        action: 'Calibrate the sensor now. Its as-found readings say whether this run can stand.',
      },
    };
  return { check: { ...named, outcome: 'pass', finding: `On ${day} ${event} was good until ${calibration.due}.` } };
}
