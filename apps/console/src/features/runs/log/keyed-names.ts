import type { Method } from '@breakbook/lab';
import { QUANTITY_KINDS, type QuantityKind } from '@breakbook/units';

/** What people read from instruments beside the files of a test, as docs/formats.md names it. */
const BESIDE: Record<Method['test'], Record<string, QuantityKind>> = {
  burst: {
    rimWidthBefore: 'length',
    rimWidthUnderPressure: 'length',
    rimWidthAfter: 'length',
    filledVolume: 'volume',
    roomPressure: 'pressure',
    roomTemperature: 'temperature',
    mediumTemperature: 'temperature',
  },
  table: {},
  heat: {
    rimWidthBefore: 'length',
    rimWidthAfter: 'length',
    padMassBefore: 'mass',
    padMassAfter: 'mass',
  },
  impact: {
    dropHeight: 'length',
    gateTime: 'time',
    reboundGateTime: 'time',
    impactSpeed: 'speed',
    lateralRunOutBefore: 'length',
    lateralRunOutAfter: 'length',
    radialRunOutBefore: 'length',
    radialRunOutAfter: 'length',
    spokeTensionBefore: 'force',
    spokeTensionAfter: 'force',
    strikeOffset: 'length',
    strikeAngleOff: 'angle',
    strikerMass: 'mass',
    padHardness: 'hardness',
    fixtureTorque: 'torque',
    tyrePressureBefore: 'pressure',
    tyrePressureAfter: 'pressure',
    tyreTemperatureBefore: 'temperature',
    tyreTemperatureAfter: 'temperature',
    roomPressure: 'pressure',
  },
};

/** Names that may be keyed for a run of this method, each with its kind of quantity. */
export function keyedNames(method: Method): Record<string, QuantityKind> {
  const computed = Object.fromEntries(method.characteristics.map(({ characteristic, kind }) => [characteristic, kind]));
  return { ...BESIDE[method.test], ...computed };
}

/** Units that instruments show beside those a reader would choose: light barriers count in thousandths of a second. */
const ON_INSTRUMENTS: { readonly [Kind in QuantityKind]?: readonly string[] } = { time: ['ms', 'us'] };

/** Unit codes to choose from: those of the kind where the name says it, otherwise all there are. */
export function unitsFor(kind: QuantityKind | undefined): readonly string[] {
  const kinds = kind === undefined ? (Object.keys(QUANTITY_KINDS) as QuantityKind[]) : [kind];
  return [...new Set(kinds.flatMap((one) => [...QUANTITY_KINDS[one].shown, ...(ON_INSTRUMENTS[one] ?? [])]))];
}
