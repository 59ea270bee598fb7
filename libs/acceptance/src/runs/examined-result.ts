import {
  type Characteristic,
  type CharacteristicValue,
  type Examination,
  isNotEvaluated,
  type Method,
  type NotEvaluated,
  notEvaluated,
  type Result,
} from '@breakbook/lab';

type FailureMode = Method['failureModes'][number];

/** What the record and the examination together say of the part: the value, and why it is known so far and no further. */
type Said = Pick<Result, 'value' | 'because' | 'mode' | 'cautious'>;

/**
 * What does this run say of the part under test? The record gives how far it went, the examination what gave way:
 *
 * - the part itself broke: the value as recorded;
 * - something else gave way first and the part was found sound: the part holds at least the value;
 * - something else gave way first and the part was not found sound: counted as a failure of the part, the cautious side;
 * - nothing gave way (rig limit, end of programme, stopped early): at least the value;
 * - no examination: no value, because nobody knows what gave way.
 *
 * A value that the record knows from one side only, such as a saturated peak, never becomes exact by the examination.
 * Where the record itself says another thing of a part found broken (one strike shows a sound wheel's energy as at least
 * and a cracked one's as at most), that is taken.
 * A characteristic that no failure mode of the method bears on, such as a ramp rate, is taken as recorded.
 *
 * Source: other modes as right-censored at the value reached, Meeker and Escobar (1998), Statistical Methods for
 * Reliability Data, 15.4 (from memory); the condition that the part was found sound is this lab's own rule.
 */
export function examinedResult(
  characteristic: Characteristic,
  method: Method,
  examination: Examination | undefined,
): Result {
  const { uncertainty, reference, caution } = characteristic;
  const { because, ...rest } = said(characteristic, method, examination);
  return {
    characteristic: characteristic.characteristic,
    title: characteristic.title,
    unit: characteristic.unit,
    ...(reference ? { reference } : {}),
    ...(uncertainty ? { uncertainty: { expanded: uncertainty.expanded, k: uncertainty.k } } : {}),
    ...rest,
    because: caution === undefined ? because : `${because}; ${caution}`,
  };
}

/** What the record says of the part as it was loaded, and of one that is found broken. */
interface Recorded {
  name: string;
  value: CharacteristicValue;
  broken: CharacteristicValue | NotEvaluated;
}

function said(characteristic: Characteristic, method: Method, examination: Examination | undefined): Said {
  const { characteristic: name, title, value } = characteristic;
  const bearsOn = method.failureModes.some((mode) => mode.countsAs[name] !== undefined);
  if (isNotEvaluated(value)) return { value, because: value.notEvaluated.because };
  if (!bearsOn) return { value, because: asRecorded(value, 'no failure mode of the method bears on it') };
  if (!examination)
    return withoutValue(
      `no examination of the specimen is recorded, so it is not known what gave way at this ${title.toLowerCase()}`,
      'a person examines the specimen and records the end reason and the failure modes',
    );

  const modes = examination.modes.map(({ code }) => method.failureModes.find((mode) => mode.code === code) ?? code);
  const unknown = modes.find((mode) => typeof mode === 'string');
  if (unknown !== undefined)
    return withoutValue(
      `the examination names failure mode ${unknown}, which ${method.method} rev. ${method.revision} does not know`,
      'the examination is corrected, or a revision of the method takes the mode in',
    );
  const known = modes as FailureMode[];
  const record: Recorded = { name, value, broken: characteristic.ifBroken ?? value };
  return somethingGaveWay(examination)
    ? afterFailure(record, known, examination)
    : afterSurvival(record, known, examination);
}

function somethingGaveWay({ endReason }: Examination): boolean {
  return endReason === 'something broke' || endReason === 'rig fault';
}

function afterFailure({ name, value, broken }: Recorded, modes: FailureMode[], examination: Examination): Said {
  const [first] = modes;
  if (!first && examination.endReason === 'something broke')
    return withoutValue(
      'something broke, but the examination names no failure mode',
      'the examination is completed with the failure mode that came first',
    );

  // A rig fault without a mode of its own is the rig giving way before the part.
  const gaveWay = first ? `${first.code} (${first.meaning}) came first` : 'the rig failed before the part';
  const mode = first ? { mode: first.code } : {};
  const countsAs = first ? first.countsAs[name] : 'at least';
  if (countsAs === 'failure')
    return {
      ...brokeAt(
        broken,
        examination.partSound === 'sound'
          ? `${gaveWay}; it counts as a failure although the part is noted as sound`
          : gaveWay,
      ),
      ...mode,
    };
  if (countsAs !== 'at least')
    return {
      ...withoutValue(
        `${gaveWay}, and the method takes that to say nothing of this characteristic`,
        'another specimen is tested',
      ),
      ...mode,
    };

  const laterFailure = modes.find((one) => one.countsAs[name] === 'failure');
  const doubt = laterFailure
    ? `${laterFailure.code} (${laterFailure.meaning}) was found too`
    : doubtAboutPart(examination.partSound);
  if (doubt)
    return {
      ...brokeAt(broken, `${gaveWay}, but ${doubt}: counted as a failure of the part`),
      ...mode,
      cautious: true,
    };
  return { ...heldAtLeast(value, `${gaveWay} and the part was found sound`), ...mode };
}

function afterSurvival({ name, value, broken }: Recorded, modes: FailureMode[], examination: Examination): Said {
  const ended = `the run ended without a break (${examination.endReason})`;
  const failure = modes.find((one) => one.countsAs[name] === 'failure');
  if (failure)
    return {
      ...brokeAt(
        broken,
        `${ended}, but ${failure.code} (${failure.meaning}) was found: counted as a failure of the part`,
      ),
      mode: failure.code,
    };
  if (examination.partSound === 'not sound')
    return {
      ...brokeAt(broken, `${ended}, but the part was found not sound: counted as a failure of the part`),
      cautious: true,
    };
  return heldAtLeast(value, examination.partSound === 'sound' ? `${ended} and the part was found sound` : ended);
}

function doubtAboutPart(partSound: Examination['partSound']): string | undefined {
  switch (partSound) {
    case 'sound':
      return undefined;
    case 'not sound':
      return 'the part was found not sound';
    case 'not examined':
      return 'whether the part is sound was not looked at';
  }
}

/** What the record says of a part that broke. */
function brokeAt(broken: CharacteristicValue | NotEvaluated, because: string): Said {
  if (isNotEvaluated(broken)) return { value: broken, because: `${because}; ${broken.notEvaluated.because}` };
  return { value: broken, because: asRecorded(broken, because) };
}

/** The value as the record has it; where the record itself knows one side only, that is said too. */
function asRecorded(value: CharacteristicValue, because: string): string {
  switch (value.kind) {
    case 'exact':
      return because;
    case 'atLeast':
      return `${because}; the record shows only that it was at least this`;
    case 'atMost':
      return `${because}; the record shows only that it was at most this`;
    case 'between':
      return `${because}; the record shows only that it lay between these`;
  }
}

/** A part that was not broken holds at least what it was shown to have been loaded with. */
function heldAtLeast(value: CharacteristicValue, because: string): Said {
  switch (value.kind) {
    case 'exact':
    case 'atLeast':
      return { value: { kind: 'atLeast', value: value.value }, because };
    case 'between':
      return { value: { kind: 'atLeast', value: value.lower }, because };
    case 'atMost':
      return withoutValue(
        `${because}, and the record gives only a highest value, so nothing is known of what the part held`,
        'the load reached is known from below',
      );
  }
}

function withoutValue(because: string, possibleIf: string): Said & { value: NotEvaluated } {
  return { value: notEvaluated(because, possibleIf), because };
}
