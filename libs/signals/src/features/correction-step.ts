import type { Step } from '@breakbook/lab';

/** What the calibration in force did to the readings. */
export interface CorrectionApplied {
  calibration: string;
  certificate: string;
  sensor: string;
  gain: number;
  offset: number;
  unit: string;
}

/** How the readings of a channel were corrected; the channel is named where there are several. */
export function correctionStep(corrected: CorrectionApplied | undefined, channel?: string): Step {
  const question = channel === undefined ? 'How were the readings corrected?' : `How was ${channel} corrected?`;
  if (!corrected)
    return { question, numbers: {}, answer: 'Not at all: no calibration was in force. They stand as indicated.' };
  const { calibration, certificate, sensor, gain, offset, unit } = corrected;
  return {
    question,
    numbers: { sensor, calibration, certificate, gain, [`offset, ${unit}`]: offset },
    answer: `By calibration ${calibration} of sensor ${sensor}: true = gain · indicated + offset, once.`,
  };
}
