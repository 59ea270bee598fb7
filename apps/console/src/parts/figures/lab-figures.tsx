import {
  type ChanceCurvesInput,
  type ComparisonInput,
  chanceCurves,
  comparison,
  type LotHistoryInput,
  lotHistory,
  type MarginStripInput,
  marginStrip,
  type ProbabilityPlotInput,
  probabilityPlot,
  type StaircaseInput,
  staircase,
  type TracePlotInput,
  tracePlot,
  traceTimeAt,
} from '@breakbook/figures';
import { useReader } from '../units/reader.js';
import { Figure } from './figure-view.js';
import {
  comparisonInUnit,
  historyInUnit,
  probabilityInUnit,
  staircaseInUnit,
  stripInUnit,
  traceInUnit,
} from './in-reader-unit.js';

/** The figures of the lab, drawn for the width they have and in the reader's unit. */

export function MarginStrip({ of, caption = true }: { of: MarginStripInput; caption?: boolean }) {
  const { units } = useReader().choice;
  const input = stripInUnit(of, units);
  return <Figure draw={(width) => marginStrip({ ...input, width })} caption={caption} />;
}

/** Shares and chances have no unit to choose. */
export function ChanceCurves({ of }: { of: ChanceCurvesInput }) {
  return <Figure draw={(width) => chanceCurves({ ...of, width })} />;
}

export function ProbabilityPlot({ of }: { of: ProbabilityPlotInput }) {
  const { units } = useReader().choice;
  const input = probabilityInUnit(of, units);
  return <Figure draw={(width) => probabilityPlot({ ...input, width })} />;
}

export function Staircase({ of }: { of: StaircaseInput }) {
  const { units } = useReader().choice;
  const input = staircaseInUnit(of, units);
  return <Figure draw={(width) => staircase({ ...input, width })} />;
}

export function LotHistory({ of }: { of: LotHistoryInput }) {
  const { units } = useReader().choice;
  const input = historyInUnit(of, units);
  return <Figure draw={(width) => lotHistory({ ...input, width })} />;
}

/** What is known above, what is compared with it below, on one axis. */
export function ComparisonFigure({ of }: { of: ComparisonInput }) {
  const { units } = useReader().choice;
  const input = comparisonInUnit(of, units);
  return <Figure draw={(width) => comparison({ ...input, width })} />;
}

/** `onPick` hears which moment of the record was pointed at, in seconds. */
export function TracePlot({ of, onPick }: { of: TracePlotInput; onPick?: ((time: number) => void) | undefined }) {
  const { units } = useReader().choice;
  const input = traceInUnit(of, units);
  return (
    <Figure
      draw={(width) => tracePlot({ ...input, width })}
      {...(onPick ? { onPick: (x, width) => onPick(traceTimeAt({ ...input, width }, x)) } : {})}
    />
  );
}
