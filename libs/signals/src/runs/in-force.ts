import type { Calibration, Rig, SensorPlacement } from '@breakbook/lab';

/** UTC day of an instant: the same wherever it was written down. */
export function dayOf(instant: string): string {
  return new Date(instant).toISOString().slice(0, 10);
}

/** The sensor that fed a channel of a rig on a day; of several the one placed last. */
export function placementOn(rig: Rig, channel: string, day: string): SensorPlacement | undefined {
  return latest(
    rig.placements.filter((one) => one.channel === channel && one.from <= day && (!one.to || day <= one.to)),
    (one) => one.from,
  );
}

/** The calibration in force for a sensor on a day: the latest event up to and with that day. */
export function calibrationOn(
  calibrations: readonly Calibration[],
  sensor: string,
  day: string,
): Calibration | undefined {
  return latest(
    calibrations.filter((one) => one.sensor === sensor && one.date <= day),
    // Two events on one day are told apart by their numbers, so that the answer never hangs on their order.
    (one) => `${one.date} ${one.calibration}`,
  );
}

function latest<T>(all: readonly T[], by: (one: T) => string): T | undefined {
  return all.reduce<T | undefined>((best, one) => (best === undefined || by(one) > by(best) ? one : best), undefined);
}
