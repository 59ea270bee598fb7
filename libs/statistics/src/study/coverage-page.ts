import { breaches, FAMILY_RISK, familyScore } from './coverage-study.js';
import type { Outcome } from './experiment.js';

const PROMISED = {
  exact: 'Held to the stated confidence on both sides.',
  conservative: 'Held to at least the stated confidence.',
  told: 'Told, not held to anything.',
};

/** The page of the study: what was simulated, how it was judged, and every share with its error. */
export function coveragePage(
  outcomes: readonly Outcome[],
  { seed, replicates }: { seed: number; replicates: number },
): string {
  const broken = breaches(outcomes);
  const judged = outcomes.filter(({ experiment }) => experiment.promise !== 'told');
  const tables = [...new Set(outcomes.map(({ experiment }) => experiment.table))];
  return [
    '# How often the bounds hold',
    '',
    'Made by `npm run coverage-study`; do not edit. Every number is the share of simulated samples in which a lower bound lay',
    'at or below the strength it speaks of, among the samples that gave a bound. The share that gave none stands beside it.',
    '',
    `Seed ${seed}; ${replicates} samples for each row unless the row says otherwise. The error is the standard error of a share`,
    'whose true value is the stated confidence.',
    '',
    `${judged.length} rows are held to what their technique promises: exact ones on both sides, conservative ones from below.`,
    `A share counts as broken beyond ${familyScore(outcomes).toFixed(2)} errors, which luck alone exceeds somewhere in the whole`,
    `page in ${100 * FAMILY_RISK} of 100 studies.`,
    '',
    broken.length === 0 ? '**None is broken.**' : `**${broken.length} broken:**`,
    ...broken.map(
      ({ outcome, confidence, held, score }) =>
        `- ${outcome.experiment.table}, ${rowInWords(outcome)}: ${held.toFixed(4)} for ${confidence} (${score.toFixed(1)} errors)`,
    ),
    ...tables.flatMap((table) =>
      tableOf(
        table,
        outcomes.filter(({ experiment }) => experiment.table === table),
      ),
    ),
    '',
  ].join('\n');
}

function tableOf(table: string, outcomes: readonly Outcome[]): string[] {
  const [first] = outcomes;
  if (first === undefined) return [];
  const names = Object.keys(first.experiment.row);
  // Where each row has a confidence of its own, one column serves for all.
  const own = outcomes.some(({ shares }) =>
    shares.some(({ confidence }, at) => confidence !== first.shares[at]?.confidence),
  );
  const columns = own ? ['stated', 'held'] : first.shares.map(({ confidence }) => `held at ${confidence}`);
  const heads = [...names, ...columns, 'error', 'no bound', 'samples'];
  return [
    '',
    `## ${table}`,
    '',
    PROMISED[first.experiment.promise],
    '',
    `| ${heads.join(' | ')} |`,
    `| ${heads.map(() => '---').join(' | ')} |`,
    ...outcomes.map(({ experiment, shares, notEvaluated, replicates }) => {
      const held = shares.flatMap(({ confidence, held }) =>
        own ? [confidence.toFixed(4), held.toFixed(4)] : [held.toFixed(4)],
      );
      const error = Math.max(...shares.map((share) => share.error));
      const cells = [
        ...names.map((name) => experiment.row[name]),
        ...held,
        error.toFixed(4),
        notEvaluated.toFixed(3),
        replicates,
      ];
      return `| ${cells.join(' | ')} |`;
    }),
  ];
}

function rowInWords({ experiment: { row } }: Outcome): string {
  return Object.entries(row)
    .map(([name, value]) => `${name} ${value}`)
    .join(', ');
}
