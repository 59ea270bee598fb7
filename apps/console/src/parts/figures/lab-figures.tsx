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
  const { pressure } = useReader().choice;
  const input = stripInUnit(of, pressure);
  return <Figure draw={(width) => marginStrip({ ...input, width })} caption={caption} />;
}

export function WeibullPlot({ of }: { of: WeibullPlotInput }) {
  const { pressure } = useReader().choice;
  const input = weibullInUnit(of, pressure);
  return <Figure draw={(width) => weibullPlot({ ...input, width })} />;
}

export function TracePlot({ of }: { of: TracePlotInput }) {
  const { pressure } = useReader().choice;
  const input = traceInUnit(of, pressure);
  return <Figure draw={(width) => tracePlot({ ...input, width })} />;
}
