import { printDeclared, unitSymbol } from '@breakbook/units';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { spoken } from '../../figures/trace-input.js';
import { type Cell, type Section } from '../../parts/blocks.js';

/** Which sensors measured, and whether their calibration was valid on the day. */
export function equipmentSection(content: LotReportContent): Section {
  return {
    heading: 'With what equipment?',
    blocks: [
      {
        block: 'table',
        columns: [
          { title: 'Rig and channel' },
          { title: 'Sensor' },
          { title: 'Calibration' },
          { title: 'Calibrated, due' },
          { title: 'Uncertainty' },
          { title: 'Traceable to' },
          { title: 'Valid on the days of test' },
        ],
        rows: rows(content),
        empty: 'none: values were keyed; the instrument of each is kept with the value',
      },
      ...keyedInstruments(content),
    ],
  };
}

function rows({ bundle, readings }: LotReportContent): Cell[][] {
  const used = new Map<string, { rig: string; channel: string; sensor: string; calibration: string; late: string[] }>();
  for (const { run, calibrations } of readings) {
    const rig = bundle.runs.find((one) => one.run === run)?.rig ?? '';
    for (const { channel, sensor, calibration, validOnDay } of calibrations) {
      const key = [rig, channel, sensor, calibration].join(' ');
      const one = used.get(key) ?? { rig, channel, sensor, calibration, late: [] };
      used.set(key, { ...one, late: validOnDay ? one.late : [...one.late, run] });
    }
  }
  return [...used.values()].map(({ rig, channel, sensor, calibration, late }) => {
    const event = bundle.calibrations.find((one) => one.calibration === calibration);
    const instrument = bundle.sensors.find((one) => one.sensor === sensor);
    const name = bundle.rigs.find((one) => one.rig === rig)?.name ?? '';
    return [
      { text: `${rig}, ${spoken(channel).toLowerCase()}`, under: name },
      { text: `${sensor}, serial ${instrument?.serial ?? 'unknown'}`, under: instrument?.description ?? '' },
      { text: event?.certificate ?? calibration, under: event ? `by ${event.by}` : '' },
      event ? `${event.date}, ${event.due}` : 'unknown',
      event ? `${printDeclared(event.expandedUncertainty)} ${unitSymbol(event.unit)} (k = ${event.k})` : 'unknown',
      event?.traceableTo ?? 'unknown',
      late.length === 0 ? 'yes' : { text: 'no', strong: true, under: `overdue in run ${late.join(', ')}` },
    ];
  });
}

function keyedInstruments({ bundle }: LotReportContent) {
  const instruments = new Map<string, string[]>();
  for (const { measurements } of bundle.runs)
    for (const { instrument, of } of measurements) {
      const measured = instruments.get(instrument) ?? [];
      if (!measured.includes(of)) instruments.set(instrument, [...measured, of]);
    }
  if (instruments.size === 0) return [];
  return [
    {
      block: 'table' as const,
      title: 'Instruments read by a person',
      columns: [{ title: 'Instrument' }, { title: 'Measured' }],
      rows: [...instruments].map(([instrument, measured]) => [
        instrument,
        measured.map((of) => spoken(of).toLowerCase()).join(', '),
      ]),
      empty: 'none',
    },
  ];
}
