import type { RunJudgement } from '@breakbook/lab';
import { linesOf } from '../../content/judged-lot.js';
import { listedKeys } from '../../content/run-lists.js';
import type { Block, Section } from '../../parts/blocks.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { numberOf } from '../lot-test-report/head.js';
import type { CertificateContent } from './content.js';
import { MESSAGES } from './messages.js';

/** Every run of the lot by what became of it, with the reasons of those that make no claim. */
export function runsSection(content: CertificateContent, printing: Printing): Section {
  const { runs } = MESSAGES[printing.language];
  const deviating = content.bundle.runs.filter(({ deviations }) => deviations.length > 0).length;
  return {
    heading: runs.heading,
    blocks: [
      {
        block: 'list',
        items: [
          ...linesOf(content).map(
            ({ line, result }) =>
              `${runs.counts({ line: line.title, runs: result.counts.runs, planned: result.planned, inClaim: result.counts.inClaim })} ${groupsOf(content, line.line, printing)}.`,
          ),
          ...strays(content, printing),
          deviating === 0 ? runs.noDeviations : runs.deviations(deviating, numberOf(content.report, printing)),
        ],
      } satisfies Block,
    ],
  };
}

type Fate = RunJudgement['validity'] | 'refused' | 'outside';

const ORDER: readonly Fate[] = [
  'valid',
  'valid with deviation',
  'outside',
  'invalid',
  'not decided',
  'void',
  'refused',
];

/** "Valid 8 (161 to 168); invalid 1 (170: rig fault)". */
function groupsOf(content: CertificateContent, line: string, printing: Printing): string {
  const { runs: words } = MESSAGES[printing.language];
  const groups = new Map<Fate, { run: string; because: string }[]>();
  for (const run of content.bundle.runs.filter(({ planLine }) => planLine === line)) {
    const { fate, because } = fateOf(content, run, printing);
    groups.set(fate, [...(groups.get(fate) ?? []), { run: run.run, because }]);
  }
  const said = ORDER.flatMap((fate) => {
    const all = groups.get(fate) ?? [];
    // Runs that were invalid are told even where there is none: that is what a reader looks for.
    if (all.length === 0 && fate !== 'invalid') return [];
    const word = fate === 'refused' ? words.refused : fate === 'outside' ? words.outside : termIn(printing, fate);
    return [words.list({ word, count: all.length, runs: withReasons(all, words.to) })];
  });
  const text = said.join('; ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function fateOf(
  { refused, lot }: CertificateContent,
  { run, validity }: CertificateContent['bundle']['runs'][number],
  printing: Printing,
): { fate: Fate; because: string } {
  if (refused.some((one) => one.run === run)) return { fate: 'refused', because: '' };
  if (!validity) return { fate: 'not decided', because: '' };
  const entry = lot.lines.flatMap(({ entries }) => entries).find((one) => one.run === run);
  if (validity.validity === 'invalid' || validity.validity === 'void')
    return {
      fate: validity.validity,
      because: validity.reason === undefined ? '' : termIn(printing, validity.reason),
    };
  if (entry && !entry.inClaim) return { fate: 'outside', because: printing.told(entry.because) };
  return { fate: validity.validity, because: '' };
}

/** Runs with one reason stand together before it. */
function withReasons(runs: readonly { run: string; because: string }[], to: string): string {
  const reasons = [...new Set(runs.map(({ because }) => because))];
  return reasons
    .map((reason) => {
      const keys = listedKeys(
        runs.filter(({ because }) => because === reason).map(({ run }) => run),
        to,
      );
      return reason === '' ? keys : `${keys}: ${reason}`;
    })
    .join('; ');
}

function strays(content: CertificateContent, printing: Printing): string[] {
  const { runs } = MESSAGES[printing.language];
  const lines = new Set(content.bundle.plan.lines.map(({ line }) => line));
  const others = content.bundle.runs.filter(({ planLine }) => !lines.has(planLine)).map(({ run }) => run);
  return others.length === 0 ? [] : [`${listedKeys(others, runs.to)}: ${runs.unjudged}`];
}
