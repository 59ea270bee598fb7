import { isExternal, type Limit, limitName } from '@breakbook/lab';
import type { LotAnswer } from '../../client/answers.js';
import { day } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';

/** Which limits bind, where do they come from, and by which rule is a value judged against them? */
export function LimitsSection({ answer: { bundle } }: { answer: LotAnswer }) {
  const asks = useAsks();
  return (
    <Section
      question="Which limits bind, and by which rule?"
      word="Limits"
      aside="External limits come from outside the maker and are never conceded in the use claimed."
    >
      <Table
        caption="Limits named by the plan, in their revisions"
        columns={[
          { head: 'Limit', cell: (limit) => <span className="whole">{limitName(limit)}</span> },
          { head: 'Asks', cell: asks, wide: true },
          { head: 'Basis', cell: (limit) => `${isExternal(limit) ? 'external' : 'internal'}: ${limit.basis}` },
          { head: 'Decision rule', cell: ruleOf, wide: true },
          { head: 'Applies to', cell: ({ appliesTo }) => appliesTo, wide: true },
          {
            head: 'Source',
            wide: true,
            cell: ({ source, edition, inForceFrom }) => `${source} ${edition}, in force from ${day(inForceFrom)}.`,
          },
          { head: 'Standing', cell: ({ standing }) => standing },
        ]}
        rows={bundle.limits}
        rowKey={limitName}
        empty="The plan names no limit."
      />
    </Section>
  );
}

function useAsks() {
  const { declared } = usePrint();
  return (limit: Limit) => {
    if (limit.bound === 'absent')
      return `${limit.title}: none of ${limit.signs.join(', ')}, looked for ${limit.inspection.method}`;
    const value =
      limit.bound === 'between'
        ? `between ${declared(limit.lower, limit.unit)} and ${declared(limit.upper, limit.unit)}`
        : `${limit.bound} ${declared(limit.value, limit.unit)}`;
    return (
      <>
        {limit.title}: <span className="whole">{value}</span>
      </>
    );
  };
}

/** The limit moved by r times the expanded uncertainty, or taken as it stands (ILAC-G8:09/2019, 4.2). */
function ruleOf({ decisionRule: rule }: Limit): string {
  if (rule.rule === 'simple') return 'simple: the value against the limit as it stands';
  if (rule.rule === 'four zones')
    return `four zones: conditional within ${rule.r === 1 ? 'U' : `${rule.r} U`} on either side of the limit`;
  return `guarded: the limit moved to the safe side by ${rule.r === 1 ? 'U' : `${rule.r} U`}`;
}
