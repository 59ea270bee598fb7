import { tracePlot } from '@breakbook/figures';
import { linesOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import { tracePlotOf } from '../../figures/trace-input.js';
import type { Block, Section } from '../../parts/blocks.js';
import { printingOf } from '../../words/printing.js';

/** The record behind the lowest result: what an auditor would ask to see first. */
export function recordSection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say } = printing;
  return {
    heading: say('What does the record of the lowest result look like?'),
    blocks: linesOf(content).map(({ line, method }): Block => {
      const trace = content.traces.find((one) => one.line === line.line);
      const run = content.bundle.runs.find((one) => one.run === trace?.run);
      const reading = content.readings.find((one) => one.run === trace?.run);
      if (!trace || !run || !reading)
        return {
          block: 'paragraph',
          text: say('{title}: none. No valid run of this line has a record over time.', { title: line.title }),
        };
      return {
        block: 'figure',
        scene: tracePlot({ ...tracePlotOf({ ...trace, run, method, reading }, printing), language: printing.figures }),
      };
    }),
  };
}
