import { printDeclared, unitSymbol } from '@breakbook/units';
import type { LotReportContent } from '../../content/lot-report-content.js';
import { channelNamed } from '../../figures/trace-input.js';
import type { Cell, Section } from '../../parts/blocks.js';
import { type Printing, printingOf } from '../../words/printing.js';

/** Which sensors measured, and whether their calibration was valid on the day. */
export function equipmentSection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say } = printing;
  return {
    heading: say('With what equipment?'),
    blocks: [
      {
        block: 'table',
        columns: [
          { title: say('Rig and channel') },
          { title: say('Sensor') },
          { title: say('Calibration') },
          { title: say('Calibrated, due') },
          { title: say('Uncertainty') },
          { title: say('Traceable to') },
          { title: say('Valid on the days of test') },
        ],
        rows: rows(content, printing),
        empty: say('none: values were keyed; the instrument of each is kept with the value'),
      },
      ...keyedInstruments(content, printing),
    ],
  };
}

function rows({ bundle, readings }: LotReportContent, { say, number, named }: Printing): Cell[][] {
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
      { text: `${rig}, ${channelNamed(channel, named)}`, under: name },
      {
        text: say('{sensor}, serial {serial}', { sensor, serial: instrument?.serial ?? say('unknown') }),
        under: instrument?.description ?? '',
      },
      { text: event?.certificate ?? calibration, under: event ? say('by {person}', { person: event.by }) : '' },
      event ? `${event.date}, ${event.due}` : say('unknown'),
      event
        ? `${number(printDeclared(event.expandedUncertainty))} ${unitSymbol(event.unit)} (k = ${number(`${event.k}`)})`
        : say('unknown'),
      event?.traceableTo ?? say('unknown'),
      late.length === 0
        ? say('yes')
        : { text: say('no'), strong: true, under: say('overdue in run {runs}', { runs: late.join(', ') }) },
    ];
  });
}

function keyedInstruments({ bundle }: LotReportContent, { say, named }: Printing) {
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
      title: say('Instruments read by a person'),
      columns: [{ title: say('Instrument') }, { title: say('Measured') }],
      rows: [...instruments].map(([instrument, measured]) => [
        instrument,
        measured.map((of) => channelNamed(of, named)).join(', '),
      ]),
      empty: say('none'),
    },
  ];
}
