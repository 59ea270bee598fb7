import type { Check, ImpactMethod, ImpactSetUp, Measurement, Run } from '@breakbook/lab';
import { printSignificant, type QuantityKind, valueIn } from '@breakbook/units';
import type { Strike } from '../../features/impact-source.js';
import { inUnit, percent } from '../../features/words.js';
import type { Finding } from '../finding.js';

/** Every reading that a person keyed under one name, in the unit asked for. */
export type KeyedReadings = (
  of: string,
  wanted: { kind: QuantityKind; unit: string },
) => readonly { value: number; place: string | undefined; measurement: Measurement }[];

type Named = Pick<Check, 'check' | 'question'>;

const DAY = 86_400;

/** Did the strike meet the point it was aimed at? Left out where the method does not ask. */
export function strikePoint(
  { number }: Strike,
  strikes: number,
  { parameters }: ImpactMethod,
  keyed: KeyedReadings,
): Finding[] {
  const asked = parameters.setUp?.strikePoint;
  if (!asked) return [];
  const named = { check: 'strike point', question: 'Did the strike meet its point?' };
  const own = (of: string, kind: QuantityKind, unit: string) =>
    keyed(of, { kind, unit }).filter(
      ({ measurement: { passage } }) => passage === number || (passage === undefined && strikes === 1),
    );
  const offsets = own('strikeOffset', 'length', 'mm');
  const angles = own('strikeAngleOff', 'angle', 'deg');
  if (offsets.length === 0 || angles.length === 0)
    return [notKeyed(named, 'how far the strike lay from its point', ['strikeOffset', 'strikeAngleOff'])];
  const [offset, angle] = [largest(offsets), largest(angles)];
  const [most, turned] = [valueIn(asked.offset, 'mm'), valueIn(asked.angle, 'deg')];
  const finding = `${inUnit('mm')(offset)} away and turned by ${inUnit('deg')(angle)}; the method lets ${inUnit('mm')(most)} and ${inUnit('deg')(turned)} pass.`;
  return [
    judged(named, offset <= most && angle <= turned, finding, {
      outcome: 'fail',
      action: 'Say where the strike met the part; a wheel is not equally strong on a spoke and beside it.',
    }),
  ];
}

/** What the method asks of rig, striker and specimen before a strike, one check each; none that it leaves out. */
export function setUpChecks(run: Run, { parameters }: ImpactMethod, keyed: KeyedReadings): Finding[] {
  const { setUp } = parameters;
  if (!setUp) return [];
  return [
    ...(setUp.massBand === undefined ? [] : [strikerMass(valueIn(parameters.mass, 'kg'), setUp.massBand, keyed)]),
    ...(setUp.pad ? [padHardness(setUp.pad, run, keyed), padWhole(run)] : []),
    ...(setUp.spokeTension
      ? [
          inBand(
            { check: 'spoke tension', question: 'Were the spokes at their tension before the strike?' },
            { of: 'spokeTensionBefore', what: 'the tension of the spokes', kind: 'force', unit: 'N' },
            setUp.spokeTension,
            keyed,
            { outcome: 'fail', action: 'True and tension the wheel before a strike; a slack wheel gives more.' },
          ),
        ]
      : []),
    ...(setUp.runOutAtMost ? runOutBefore(setUp.runOutAtMost, keyed) : []),
    ...(setUp.boltTorque
      ? [
          inBand(
            { check: 'fixture bolts', question: 'Were the bolts that hold the wheel at their torque?' },
            { of: 'fixtureTorque', what: 'the torque of the bolts', kind: 'torque', unit: 'N.m' },
            setUp.boltTorque,
            keyed,
            { outcome: 'flag', action: 'Torque the bolts before the next run; a fixture that slips takes energy.' },
          ),
        ]
      : []),
    ...(setUp.notStruckBefore ? [struckBefore(run)] : []),
  ];
}

function strikerMass(asked: number, band: number, keyed: KeyedReadings): Finding {
  const named = { check: 'striker mass', question: 'Has the striker the mass of the method?' };
  const weighed = keyed('strikerMass', { kind: 'mass', unit: 'kg' });
  if (weighed.length === 0) return notKeyed(named, 'what the striker weighs', ['strikerMass']);
  const off = weighed.reduce((most, { value }) => Math.max(most, Math.abs(value / asked - 1)), 0);
  const kilograms = inUnit('kg');
  return judged(
    named,
    off <= band,
    `${weighed.map(({ value }) => kilograms(value)).join(', ')}, ${percent(off)} from the ${kilograms(asked)} of the method, which lets ${percent(band)} pass.`,
    {
      outcome: 'fail',
      action: 'Weigh striker and carriage again; the energy is worked out from the mass of the method.',
    },
  );
}

/** Was the pad as hard as asked, by a reading that was good on the day? */
function padHardness({ hardness, goodFor }: NonNullable<ImpactSetUp['pad']>, run: Run, keyed: KeyedReadings): Finding {
  const named = { check: 'pad hardness', question: 'Was the pad as hard as the method asks, by a reading in date?' };
  const readings = keyed('padHardness', { kind: 'hardness', unit: '{ShoreA}' });
  if (readings.length === 0) return notKeyed(named, 'how hard the pad is', ['padHardness']);
  const shore = inUnit('{ShoreA}');
  const [low, high] = [valueIn(hardness.from, '{ShoreA}'), valueIn(hardness.to, '{ShoreA}')];
  const oldest = readings.reduce(
    (most, { measurement }) =>
      Math.max(most, Math.abs(Date.parse(run.startedAt) - Date.parse(measurement.at)) / 1000 / DAY),
    0,
  );
  const days = valueIn(goodFor, 's') / DAY;
  const finding = `${readings.map(({ value }) => shore(value)).join(', ')}, read ${printSignificant(oldest, 2)} days from the run; the method asks for ${shore(low)} to ${shore(high)} by a reading of ${printSignificant(days, 3)} days or less.`;
  const hard = readings.every(({ value }) => value >= low && value <= high);
  return judged(named, hard && oldest <= days, finding, {
    outcome: hard ? 'flag' : 'fail',
    action: hard
      ? 'Read the hardness of the pad now; it says whether the run can stand.'
      : 'Change the pad. A harder one makes a shorter and higher force.',
  });
}

/** The words by which a run says what cannot be measured. */
function padWhole({ conditions }: Run): Finding {
  return said(
    { check: 'pad', question: 'Was the pad whole after the run?' },
    { condition: 'pad after', said: conditions['pad after'], good: 'whole', bad: 'damaged' },
    'Change the pad, and look in the video when it broke: what it took did not reach the part.',
  );
}

function struckBefore({ conditions }: Run): Finding {
  return said(
    { check: 'struck before', question: 'Was the specimen without a strike before this run?' },
    { condition: 'struck before', said: conditions['struck before'], good: 'no', bad: 'yes' },
    'Record it under a method for several strikes: an earlier one may have weakened the part.',
  );
}

function runOutBefore({ lateral, radial }: NonNullable<ImpactSetUp['runOutAtMost']>, keyed: KeyedReadings): Finding[] {
  return (
    [
      ['lateral', lateral],
      ['radial', radial],
    ] as const
  ).map(([direction, limit]) => {
    const named = {
      check: `${direction} run-out before`,
      question: `Did the wheel run true before the strike, ${direction === 'lateral' ? 'sideways' : 'in height'}?`,
    };
    const of = `${direction}RunOutBefore`;
    const readings = keyed(of, { kind: 'length', unit: 'mm' });
    if (readings.length === 0) return notKeyed(named, `the ${direction} run-out before`, [of]);
    const [found, most] = [largest(readings), valueIn(limit, 'mm')];
    return judged(
      named,
      found <= most,
      `${inUnit('mm')(found)}, the largest of ${readings.length}; the method lets ${inUnit('mm')(most)} pass.`,
      { outcome: 'fail', action: 'True the wheel before a strike, or take another: it was not as the method asks.' },
    );
  });
}

type Otherwise = Required<Pick<Check, 'outcome' | 'action'>>;

function inBand(
  named: Named,
  { of, what, kind, unit }: { of: string; what: string; kind: QuantityKind; unit: string },
  band: { from: { value: number; unit: string }; to: { value: number; unit: string } },
  keyed: KeyedReadings,
  otherwise: Otherwise,
): Finding {
  const readings = keyed(of, { kind, unit });
  const [first] = readings;
  if (!first) return notKeyed(named, what, [of]);
  const print = inUnit(unit);
  const [low, high] = [valueIn(band.from, unit), valueIn(band.to, unit)];
  const values = readings.map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const outside = readings.filter(({ value }) => value < low || value > high);
  const places = outside.flatMap(({ place }) => (place === undefined ? [] : [place]));
  return judged(
    named,
    outside.length === 0,
    `${readings.length === 1 ? print(least) : `${print(least)} to ${print(most)}, ${readings.length} readings`}${places.length > 0 ? `, outside at ${places.join(', ')}` : ''}; the method asks for ${print(low)} to ${print(high)}.`,
    otherwise,
  );
}

function said(
  named: Named,
  { condition, said: word, good, bad }: { condition: string; said: unknown; good: string; bad: string },
  action: string,
): Finding {
  if (word !== good && word !== bad)
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: `The condition "${condition}" of the run says neither "${good}" nor "${bad}".`,
        action: `Note it with the run as "${condition}".`,
      },
    };
  return judged(named, word === good, `The run says "${condition}: ${word}".`, { outcome: 'fail', action });
}

function notKeyed(named: Named, what: string, names: readonly string[]): Finding {
  return {
    check: {
      ...named,
      outcome: 'not evaluated',
      finding: `Nobody keyed ${what}.`,
      action: `Key ${names.join(' and ')} with unit, instrument and person.`,
    },
  };
}

function judged(named: Named, good: boolean, finding: string, otherwise: Otherwise): Finding {
  return { check: good ? { ...named, outcome: 'pass', finding } : { ...named, ...otherwise, finding } };
}

function largest(readings: readonly { value: number }[]): number {
  return readings.reduce((most, { value }) => Math.max(most, Math.abs(value)), 0);
}
