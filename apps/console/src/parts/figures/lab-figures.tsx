import {
  type MarginStripInput,
  marginStrip,
  type Scene,
  type TracePlotInput,
  tracePlot,
  type WeibullPlotInput,
  weibullPlot,
} from '@breakbook/figures';
import { useReader } from '../units/reader.js';
import { Figure } from './figure-view.js';
import { stripInUnit, traceInUnit, weibullInUnit } from './in-reader-unit.js';

/** The figures of the lab, drawn for the width they have and in the reader's unit. One that comes drawn is shown as it is. */

export function MarginStrip({ of, caption = true }: { of: Scene | MarginStripInput; caption?: boolean }) {
  const { pressure } = useReader().choice;
  if ('marks' in of) return <Figure draw={() => of} caption={caption} />;
  const input = stripInUnit(of, pressure);
  return <Figure draw={(width) => marginStrip({ ...input, width })} caption={caption} />;
}

export function WeibullPlot({ of }: { of: Scene | WeibullPlotInput }) {
  const { pressure } = useReader().choice;
  if ('marks' in of) return <Figure draw={() => of} />;
  const input = weibullInUnit(of, pressure);
  return <Figure draw={(width) => weibullPlot({ ...input, width })} />;
}

export function TracePlot({ of }: { of: Scene | TracePlotInput }) {
  const { pressure } = useReader().choice;
  if ('marks' in of) return <Figure draw={() => of} />;
  const input = traceInUnit(of, pressure);
  return <Figure draw={(width) => tracePlot({ ...input, width })} />;
}
