import fs from 'node:fs';
import path from 'node:path';
import { type WhatIfChange, whatIf } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import {
  type ChangedLimit,
  EXIT,
  type LotBundle,
  limitName,
  Plan,
  Refusal,
  readJson,
  schemaProblems,
  shown,
} from '@breakbook/lab';
import { openLotFolder } from '../lot-folder.js';
import { lotSheet } from '../lot-sheet.js';
import { STATUS } from '../lot-status.js';
import { Progress } from '../terminal.js';

export interface WhatIfOptions {
  out: string;
  /** A plan revision (JSON) in place of the folder's. */
  whatIfPlan?: string;
  /** Limits at other values, each as KEY=VALUE. */
  whatIfLimit?: string[];
}

/** A lot folder under another plan or limit: marked as a what-if wherever it is told, with no report and no result of the lot. */
export function whatIfCommand(folder: string, options: WhatIfOptions): number {
  const { bundle, filesOf } = openLotFolder(folder);
  const change = changeOf(bundle, options);
  const progress = new Progress('reading runs');
  const onProgress = ({ done, of, share }: { done: number; of: number; share: number }) =>
    progress.report(done + share, of);
  const found = whatIf(bundle, change, { filesOf, onProgress });
  progress.end();

  console.log(lotSheet(bundle, found));
  const file = path.join(options.out, bundle.lot.lot, 'what-if.json');
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, `${canonicalJson(found)}\n`);
  console.log(`\nWhat-if  ${file}`);
  return found.refused.length > 0 ? EXIT.badInput : STATUS[found.result.outcome];
}

function changeOf(bundle: LotBundle, { whatIfPlan, whatIfLimit }: WhatIfOptions): WhatIfChange {
  const plan = whatIfPlan === undefined ? undefined : planIn(whatIfPlan);
  return {
    ...(plan ? { plan: { plan } } : {}),
    ...(whatIfLimit ? { limits: whatIfLimit.map((one) => limitIn(one, plan ?? bundle.plan)) } : {}),
  };
}

function planIn(file: string): Plan {
  if (!fs.existsSync(file))
    throw new Refusal({
      code: 'file.missing',
      file,
      detail: `There is no file ${shown(file)}. Give a plan as plan.json of a lot folder holds it.`,
    });
  const value = readJson(fs.readFileSync(file), file);
  const parsed = Plan.safeParse(value);
  if (parsed.success) return parsed.data;
  throw new Refusal(schemaProblems(parsed.error, value, file));
}

const NUMBER = String.raw`[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?`;
const CHANGE = new RegExp(`^([^=@]+)(?:@(\\d+))?=(${NUMBER})(?:\\.\\.(${NUMBER}))?$`);

/** `BP-INT=1400`, `BP-INT@2=1400` where the plan names several revisions, `WIDTH=17..23` for one with two sides. */
function limitIn(text: string, plan: Plan): ChangedLimit {
  const refuse = (detail: string) =>
    new Refusal({ code: 'query.invalid', detail: `--what-if-limit ${shown(text)}: ${detail}` });
  const [, limit = '', revision, first, second] = CHANGE.exec(text) ?? [];
  if (first === undefined)
    throw refuse(
      'write it as KEY=VALUE in the unit of the limit, such as BP-INT=1400, or KEY=LOWER..UPPER for a limit with two sides.',
    );
  const all = plan.lines.flatMap((line) => line.limits);
  const names = [...new Set(all.map(limitName))];
  const revisions = [...new Set(all.filter((one) => one.limit === limit).map((one) => one.revision))];
  const [only, ...others] = revision === undefined ? revisions : [Number(revision)];
  if (only === undefined) throw refuse(`the plan names no such limit. It names ${names.join(', ')}.`);
  if (others.length > 0)
    throw refuse(
      `the plan names revisions ${revisions.join(' and ')} of it. Say which, such as ${limit}@${only}=${first}.`,
    );
  return second === undefined
    ? { limit, revision: only, value: Number(first) }
    : { limit, revision: only, lower: Number(first), upper: Number(second) };
}
