import { asSentence } from '../../../parts/capital.js';
import { Outcome } from '../../../parts/marks/outcome.js';
import { Table } from '../../../parts/table.js';
import { usePrint } from '../../../parts/units/reader.js';
import type { RimOfRun } from './rim-of-run.js';

interface Spread {
  standard: number;
  lower: number;
  upper: number;
}

/** What the calculator answers to `field-comparison`, as far as it is shown here. */
export interface FieldComparison {
  power: number;
  powerHere: number;
  duration: number;
  energyHere: number;
  thermalResistance: number;
  timeConstant: number;
  temperature: number;
  stepwise: number;
  steadyTemperature: number;
  exponent: { value: number; halfWidth: number };
  extrapolated: boolean;
  spread: { powerHere: Spread; energyHere: Spread; temperature: Spread; trials: number; seed: number };
  takenAsExact: string[];
  caution: string;
}

interface Props {
  answer: { result: FieldComparison } | { notEvaluated: { because: string; possibleIf: string } };
  rim: RimOfRun;
}

interface Row {
  what: string;
  descent: string;
  middle: string;
  run: string;
}

/** The descent and the run side by side, with how far the prediction may be off, and the caution that belongs to it. */
export function DescentAnswer({ answer, rim }: Props) {
  const print = usePrint();
  if ('notEvaluated' in answer)
    return (
      <>
        <Outcome word="not evaluated" />
        <p>
          {asSentence(answer.notEvaluated.because)} Possible if {answer.notEvaluated.possibleIf}.
        </p>
      </>
    );
  const found = answer.result;
  const { spread } = found;
  const between = ({ lower, upper, standard }: Spread, unit: string) =>
    `${print.number(lower, unit, { uncertainty: standard })} to ${print.quantity(upper, unit, { uncertainty: standard })}`;
  const reached = (number: RimOfRun['energy'], unit: string) =>
    number ? `${number.atLeast ? 'at least ' : ''}${print.quantity(number.value, unit)}` : 'not given';
  const rows: Row[] = [
    {
      what: 'Power into this brake, mean',
      descent: print.quantity(found.powerHere, 'W', { uncertainty: spread.powerHere.standard }),
      middle: between(spread.powerHere, 'W'),
      run: reached(rim.power, 'W'),
    },
    {
      what: 'Energy into this brake',
      descent: print.quantity(found.energyHere, 'J', { uncertainty: spread.energyHere.standard }),
      middle: between(spread.energyHere, 'J'),
      run: reached(rim.energy, 'J'),
    },
    {
      what: 'Temperature of the rim at the end',
      descent: print.quantity(found.temperature, 'Cel', { uncertainty: spread.temperature.standard }),
      middle: between(spread.temperature, 'Cel'),
      run: reached(rim.temperature, 'Cel'),
    },
  ];
  return (
    <>
      <p>
        <strong>{found.caution}</strong>
      </p>
      <Table<Row>
        caption="The descent, and what this run reached"
        columns={[
          { head: '', cell: ({ what }) => what },
          { head: 'Descent', number: true, cell: ({ descent }) => descent },
          { head: 'Middle 95 % of the trials', wide: true, cell: ({ middle }) => middle },
          { head: 'This run', number: true, cell: ({ run }) => run },
        ]}
        rows={rows}
        rowKey={({ what }) => what}
        empty="Nothing to compare."
      />
      <p>
        Both brakes together take {print.quantity(found.power, 'W')} for {print.quantity(found.duration, 's')}. At this
        speed of the air the rim has {print.quantity(found.thermalResistance, 'K/W')} and a time constant of{' '}
        {print.quantity(found.timeConstant, 's')}; a descent without end would bring it to{' '}
        {print.quantity(found.steadyTemperature, 'Cel')}. In steps of the differential equation:{' '}
        {print.quantity(found.stepwise, 'Cel')}.
      </p>
      <p className="small quiet">
        The rim is taken as one heated body; heat goes to the air as its speed to the power {found.exponent.value} ±{' '}
        {found.exponent.halfWidth}. {spread.trials} seeded trials (seed {spread.seed}).
        {found.takenAsExact.length > 0 && ` Taken as exact: ${found.takenAsExact.join(', ')}.`}
        {found.extrapolated &&
          ' The speed is more than twice, or less than half, that of the air stream on the rig: the scaling was not tried so far out.'}
      </p>
    </>
  );
}
