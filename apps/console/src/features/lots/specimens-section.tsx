import {
  isNotEvaluated,
  type LimitRef,
  type LineResult,
  limitName,
  type Result,
  type RunJudgement,
  type Verdict,
} from '@breakbook/lab';
import { Link } from 'react-router';
import type { LotAnswer } from '../../client/answers.js';
import { runAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { type Column, Table } from '../../parts/table.js';
import { alignedAtPoint } from '../../parts/units/print-value.js';
import { usePrint } from '../../parts/units/reader.js';

interface Row {
  run: string;
  specimen: string;
  inClaim: boolean;
  result?: Result;
  judgement?: RunJudgement;
}

/** What did each specimen of this line hold, and does it conform? */
export function SpecimensSection({ answer, line }: { answer: LotAnswer; line: LineResult }) {
  const { bundle, judgements } = answer;
  const { symbol } = usePrint();
  const limits = bundle.plan.lines.find((one) => one.line === line.line)?.limits ?? [];
  const rows: Row[] = line.entries.map((entry) => {
    const judgement = judgements.find(({ run }) => run === entry.run);
    return { ...entry, ...(judgement ? { judgement } : {}) };
  });
  const first = rows.find(({ result }) => result)?.result;
  const printed = usePrintedResults(rows);
  const k = commonFactor(rows);
  const unit = symbol(line.unit);

  const columns: Column<Row>[] = [
    { head: 'Specimen', cell: ({ run, specimen }) => <Link to={runAddress(bundle.lot.lot, run)}>{specimen}</Link> },
    {
      head: `${line.title}, ${unit}${first?.reference ? ` (${first.reference})` : ''}`,
      number: true,
      cell: (_, index) => printed[index]?.value,
    },
    {
      head: k === undefined ? `U, ${unit}` : `U (k = ${k}), ${unit}`,
      number: true,
      cell: (_, index) => printed[index]?.uncertainty,
    },
    { head: 'First mode', cell: ({ result }) => result?.mode ?? '' },
    ...limits.map(
      (limit): Column<Row> => ({
        head: limitName(limit),
        cell: ({ judgement }) => <VerdictCell verdict={verdictOn(judgement, limit)} />,
      }),
    ),
    { head: 'Claim', cell: ({ inClaim }) => (inClaim ? 'in' : 'left out') },
  ];
  return (
    <Section
      question={`${line.line}. What did each specimen hold, and does it conform?`}
      word={`${line.line}. Specimens`}
      aside="Each specimen opens the sheet of its run. Margins are to the limit, positive on the safe side."
    >
      <Table
        caption={`${line.title} of every specimen tested on plan line ${line.line}, in the order of the runs`}
        columns={columns}
        rows={rows}
        rowKey={({ run }) => run}
        empty="No run is recorded on this plan line yet."
      />
    </Section>
  );
}

function VerdictCell({ verdict }: { verdict: Verdict | undefined }) {
  const { quantity } = usePrint();
  if (!verdict) return <span className="quiet">no verdict</span>;
  return (
    <>
      <Outcome word={verdict.outcome} />
      {verdict.margin !== undefined && !verdict.inspection && (
        <span className="quiet small under">{quantity(verdict.margin, verdict.unit, marginPrint(verdict))}</span>
      )}
    </>
  );
}

/** A margin is as fine as the value it was made from, and never printed as nothing where there is some. */
function marginPrint({ uncertainty }: Verdict) {
  return { signed: true, limits: [0], ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}) };
}

function verdictOn(judgement: RunJudgement | undefined, { limit, revision }: LimitRef): Verdict | undefined {
  return judgement?.verdicts.find((one) => one.limit.limit === limit && one.limit.revision === revision);
}

function usePrintedResults(rows: readonly Row[]): { value: string; uncertainty: string }[] {
  const print = usePrint();
  const values = alignedAtPoint(
    rows.map(({ result, judgement }) => {
      if (!result || isNotEvaluated(result.value)) return 'not evaluated';
      const limits = (judgement?.verdicts ?? [])
        // Signs that must be absent say nothing of how finely a value is printed.
        .filter(({ characteristic, inspection }) => !inspection && characteristic === result.characteristic)
        .flatMap(({ limitValue, acceptance }) => [...Object.values(limitValue), ...Object.values(acceptance)]);
      return print.value(result.value, result.unit, {
        limits,
        ...(result.uncertainty ? { uncertainty: result.uncertainty.expanded } : {}),
      });
    }),
  );
  const uncertainties = alignedAtPoint(
    rows.map(({ result }) =>
      result?.uncertainty ? print.uncertainty(result.uncertainty.expanded, result.unit) : 'not stated',
    ),
  );
  return rows.map((_, index) => ({ value: values[index] ?? '', uncertainty: uncertainties[index] ?? '' }));
}

/** The coverage factor, where all results of the column have the same. */
function commonFactor(rows: readonly Row[]): number | undefined {
  const factors = new Set(rows.flatMap(({ result }) => (result?.uncertainty ? [result.uncertainty.k] : [])));
  const [only] = factors;
  return factors.size === 1 ? only : undefined;
}
