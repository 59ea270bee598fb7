import { BurstMedium, isNotEvaluated, type NotEvaluated, notEvaluated, type Quantity } from '@breakbook/lab';
import { type QuantityKind, valueIn } from '@breakbook/units';
import type { BurstSource, FromPressure } from './burst-source.js';
import { whyAtLeast } from './burst-steps.js';
import { complianceOf } from './compliance.js';
import { NOISE_MULTIPLE } from './failure.js';
import { leastSquaresSlope } from './least-squares-slope.js';
import { FLOW, type Pumped, pumped } from './pumped.js';
import { storedGasEnergy } from './stored-energy.js';
import { inUnit, kPa, seconds } from './words.js';

const millilitres = inUnit('mL');
const joules = inUnit('J');

/** What was pumped into this part; why that is not known where it is not. */
export function pumpedInto({ time, features, method, period, beside }: BurstSource): Pumped | NotEvaluated {
  const flow = beside.find(({ channel }) => channel === FLOW);
  if (!flow || flow.time.length < 2)
    return notEvaluated('the flow into the part was not recorded', `the record has a channel ${FLOW}`);
  const { gapPeriods } = method.parameters;
  return pumped(time, features.despiked, flow, {
    last: features.loadedTo,
    periods: gapPeriods,
    longest: gapPeriods * period,
    noise: isNotEvaluated(features.zero) ? 0 : NOISE_MULTIPLE * features.zero.noise,
  });
}

/** Change of pressure per volume on the straight part of the loading, kPa/mL; trapped air makes it small. */
export function pressureVolumeSlope(
  source: BurstSource,
  share: { from: number; to: number },
): { slope: number; pumped: Pumped; from: number; to: number } | NotEvaluated {
  const into = pumpedInto(source);
  if (isNotEvaluated(into)) return into;
  const line = lineOver(source, into, { ...share, departure: 1 });
  if (isNotEvaluated(line)) return line;
  const [from, to] = [line.from, line.to];
  return { slope: 1 / line.slope, pumped: into, from, to };
}

function lineOver(source: BurstSource, into: Pumped, bounds: { from: number; to: number; departure: number }) {
  const { features } = source;
  const line = complianceOf(
    features.despiked,
    into.volume,
    { last: features.loadedTo, peak: features.peak.value },
    bounds,
  );
  if (isNotEvaluated(line) || into.knownThroughout(line.from, features.loadedTo)) return line;
  return notEvaluated(
    'the flow is not known throughout the loading, and what flowed meanwhile is not filled in',
    'the flow is recorded without gaps',
  );
}

/** The characteristics that need the volume in the part, or what flowed into it. */
export const OF_VOLUME: Record<string, (source: BurstSource) => FromPressure> = {
  hydraulicWork: (source) => {
    const into = pumpedInto(source);
    if (isNotEvaluated(into)) return { value: into, unit: 'J', steps: [] };
    const { work, missing, pressureTime } = into;
    const { peak } = source.features;
    return {
      value: { kind: missing.underPressure > 0 ? 'atLeast' : 'exact', value: work },
      unit: 'J',
      steps: [
        {
          question: 'What work did the fluid do on the part?',
          numbers: {
            'up to, s': source.time[source.features.loadedTo] as number,
            'without a flow under pressure, s': missing.underPressure,
            'work, J': work,
          },
          answer: `${joules(work)}: W = ∫ P Q dt by trapezoids, where the flow is known${missing.underPressure > 0 ? '. It is at least this: nothing was added where the flow is not known' : ''}.`,
        },
      ],
      perPressure: work / peak.value,
      // kPa·s times mL/min is a sixtieth of a thousandth of a joule.
      sensitivity: (channel) => (channel === FLOW ? pressureTime / 60_000 : undefined),
    };
  },

  pumpedVolume: (source) => {
    const into = pumpedInto(source);
    if (isNotEvaluated(into)) return { value: into, unit: 'mL', steps: [] };
    const volume = into.volume.at(-1) as number;
    const loaded = (source.time[source.features.loadedTo] as number) - (source.time[0] as number);
    return {
      value: { kind: into.missing.inAll > 0 ? 'atLeast' : 'exact', value: volume },
      unit: 'mL',
      steps: [
        {
          question: 'How much was pumped into the part?',
          numbers: { 'over, s': loaded, 'without a flow, s': into.missing.inAll, 'volume, mL': volume },
          answer: `${millilitres(volume)}: V = ∫ Q dt by trapezoids, up to the failure or the peak.`,
        },
      ],
      perPressure: 0,
      sensitivity: (channel) => (channel === FLOW ? (loaded - into.missing.inAll) / 60 : undefined),
    };
  },

  pressureVolumeSlope: (source) => {
    const unit = 'kPa/mL';
    const bounds = source.method.parameters.compliance;
    if (!bounds) return { value: withoutBounds(), unit, steps: [] };
    const found = pressureVolumeSlope(source, bounds);
    if (isNotEvaluated(found)) return { value: found, unit, steps: [] };
    return {
      value: { kind: 'exact', value: found.slope },
      unit,
      steps: [
        {
          question: 'How fast does the pressure rise with the volume pumped?',
          numbers: {
            'from, s': source.time[found.from] as number,
            'to, s': source.time[found.to] as number,
            'slope, kPa/mL': found.slope,
          },
          answer: `${inUnit(unit)(found.slope)}: the least squares line of volume over pressure between two shares of the peak.`,
        },
      ],
      perPressure: found.slope / source.features.peak.value,
      // An offset of the flow adds to the volume in proportion to time: 1/slope changes by dt/dP.
      sensitivity: (channel) =>
        channel === FLOW
          ? (-(found.slope ** 2) * leastSquaresSlope(source.features.despiked, source.time, found.from, found.to)) / 60
          : undefined,
    };
  },

  kneePressureByVolume: (source) => {
    const bounds = source.method.parameters.compliance;
    const into = pumpedInto(source);
    const none = (value: NotEvaluated): FromPressure => ({ value, unit: 'kPa', steps: [] });
    if (!bounds) return none(withoutBounds());
    if (isNotEvaluated(into)) return none(into);
    const line = lineOver(source, into, bounds);
    return isNotEvaluated(line) ? none(line) : kneeOf(line, source, 'volume pumped', 'mL/kPa');
  },

  storedEnergy: (source) => {
    const none = (value: NotEvaluated): FromPressure => ({ value, unit: 'J', steps: [] });
    const medium = mediumOf(source);
    if (isNotEvaluated(medium)) return none(medium);
    if (medium === 'water' || medium === 'oil')
      return none(
        notEvaluated(
          `the part is filled with ${medium}, and the gas law says nothing of a liquid`,
          'a gas fills the part',
        ),
      );
    const { parameters } = source.method;
    const volume = fixedOrKeyed(source, 'filledVolume', 'volume', 'mL', parameters.filledVolume);
    if (isNotEvaluated(volume)) return none(volume);
    const room = fixedOrKeyed(source, 'roomPressure', 'pressure', 'kPa', parameters.roomPressure);
    if (isNotEvaluated(room)) return none(room);
    const absolute = source.features.peak.value + room;
    const { energy, perPressure } = storedGasEnergy(absolute, room, volume);
    return {
      value: { kind: whyAtLeast(source.features).length > 0 ? 'atLeast' : 'exact', value: energy },
      unit: 'J',
      steps: [
        {
          question: 'What energy did the gas in the part hold at its peak?',
          numbers: {
            medium,
            'volume, mL': volume,
            'room, kPa absolute': room,
            'peak, kPa absolute': absolute,
            'energy, J': energy,
          },
          answer: `${joules(energy)}: E = 2.5 P V [1 − (p_a/P)^(2/7)], a perfect gas of γ = 1.4 that expands without heat to the pressure of the room.`,
        },
      ],
      perPressure,
    };
  },
};

/** What the knee of a compliance says of the pressure at which a part gave more than in proportion. */
export function kneeOf(
  line: Exclude<ReturnType<typeof complianceOf>, NotEvaluated>,
  { time, features, method }: BurstSource,
  grows: string,
  slopeUnit: string,
): FromPressure {
  const { peak, loadedTo } = features;
  const { knee, slope } = line;
  const departure = method.parameters.compliance?.departure ?? 0;
  return {
    value: knee ? { kind: 'exact', value: knee.pressure } : { kind: 'atLeast', value: peak.value },
    unit: 'kPa',
    steps: [
      {
        question: 'From which pressure on did the part give more than in proportion?',
        numbers: {
          'line from, s': time[line.from] as number,
          'to, s': time[line.to] as number,
          [`slope, ${slopeUnit}`]: slope,
          departure,
          ...(knee ? { 'at, s': time[knee.index] as number } : {}),
        },
        answer: knee
          ? `From ${kPa(knee.pressure)} on its ${grows} stays away from the straight line by more than ${inUnit('%')(100 * departure)}.`
          : `Its ${grows} follows the straight line to the end of the loading, at ${seconds(time[loadedTo] as number)}.`,
      },
    ],
    perPressure: (knee?.pressure ?? peak.value) / peak.value,
  };
}

export function withoutBounds(): NotEvaluated {
  return notEvaluated(
    'the method does not say between which shares of the peak the straight line runs',
    'a method with its parameter compliance is used',
  );
}

/** What fills the part, by the method or as the run says. */
export function mediumOf({
  method,
  conditions,
}: Pick<BurstSource, 'method' | 'conditions'>): BurstMedium | NotEvaluated {
  const words = BurstMedium.options;
  const said = conditions.medium;
  const possibleIf = `the run says as its condition "medium" one of ${words.join(', ')}`;
  const fixed = method.parameters.medium;
  if (said === undefined) return fixed ?? notEvaluated('nothing says what fills the part', possibleIf);
  const word = words.find((one) => one === said);
  if (!word) return notEvaluated('the condition "medium" of the run is none that is known here', possibleIf);
  if (fixed && fixed !== word)
    return notEvaluated(`the method fills the part with ${fixed} and the run says ${word}`, 'both say the same');
  return word;
}

function fixedOrKeyed(
  { keyed }: BurstSource,
  of: string,
  kind: QuantityKind,
  unit: string,
  fixed: Quantity | undefined,
): number | NotEvaluated {
  const readings = keyed(of, { kind, unit });
  const [only] = readings;
  if (readings.length > 1)
    return notEvaluated(
      `${readings.length} values of ${of} were keyed, and none is preferred`,
      'one of them stands and the others are corrected away with a reason',
    );
  if (only && only.value > 0) return only.value;
  if (only) return notEvaluated(`the ${of} keyed is not above zero`, 'it is keyed again as it was read');
  return fixed
    ? valueIn(fixed, unit)
    : notEvaluated(
        `no ${of} was keyed and the method fixes none`,
        `${of} is keyed with its unit, instrument and person`,
      );
}
