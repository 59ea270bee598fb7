import {
  type MarginStripInput,
  marginStrip,
  type TracePlotInput,
  tracePlot,
  type WeibullPlotInput,
  weibullPlot,
} from '@breakbook/figures';
import { useReader } from '../units/reader.js';
import { Figure } from './figure-view.js';
import { stripInUnit, traceInUnit, weibullInUnit } from './in-reader-unit.js';

/** The figures of the lab, drawn for the width they have and in the reader's unit. */

export function MarginStrip({ of, caption = true }: { of: MarginStripInput; caption?: boolean }) {
  const { units } = useReader().choice;
  const input = stripInUnit(of, units);
  return <Figure draw={(width) => marginStrip({ ...input, width })} caption={caption} />;
}

export function WeibullPlot({ of }: { of: WeibullPlotInput }) {
  const { units } = useReader().choice;
  const input = weibullInUnit(of, units);
  return <Figure draw={(width) => weibullPlot({ ...input, width })} />;
}

export function TracePlot({ of }: { of: TracePlotInput }) {
  const { units } = useReader().choice;
  const input = traceInUnit(of, units);
  return <Figure draw={(width) => tracePlot({ ...input, width })} />;
}
