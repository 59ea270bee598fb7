import fs from 'node:fs';
import path from 'node:path';
import {
  chanceInWords,
  percent,
  planDesigns,
  planFrom,
  planRisks,
  planTemplates,
  shareInWords,
  whatCanShow,
} from '@breakbook/acceptance';
import {
  type Design,
  type Designs,
  DesignsAsked,
  EXIT,
  isNotEvaluated,
  Limit,
  Lot,
  Method,
  Plan,
  type PlanRisks,
  Refusal,
  readJson,
  type Showable,
  ShowableAsked,
  schemaProblems,
  TemplateFilling,
  TemplateName,
} from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import { table, wrapped } from '../terminal.js';

/** As the command line gives them: texts, until they are read. */
export interface PlanOptions {
  n?: string;
  limit?: string;
  unit?: string;
  coverage: string;
  confidence: string;
  lotSize?: string;
  mean?: string;
  cv?: string;
  power?: string;
  good?: string;
  bad?: string;
  stages?: string;
  distribution?: string;
  loadRatio?: string;
  shape?: string;
  shapeSource?: string;
  perSpecimen?: string;
  currency?: string;
  rigHours?: string;
  template?: string;
  risks?: string;
  json?: boolean;
}

/**
 * What a test would need and risk, before anything is broken: designs side by side, what n specimens can show, a draft from
 * a template, or the risks of a plan.
 */
export function planCommand(file: string | undefined, options: PlanOptions): number {
  if (options.template !== undefined) return templateDraft(options.template, file);
  if (options.risks !== undefined) return risks(options.risks, options);
  if (options.n !== undefined) return showable(options);
  const asked = file === undefined ? designsFrom(options) : parsed(DesignsAsked, documentIn(file), file);
  const designs = planDesigns(asked);
  console.log(options.json ? JSON.stringify(designs, null, 2) : designsPage(designs));
  return designs.designs.every(isNotEvaluated) ? EXIT.undecided : EXIT.done;
}

function designsFrom(options: PlanOptions): DesignsAsked {
  for (const [name, example] of [
    ['limit', '1500'],
    ['unit', 'kPa'],
    ['mean', '1900'],
    ['cv', '0.06'],
  ] as const)
    if (options[name] === undefined)
      throw refused(
        `--${name} is missing, such as --${name} ${example}. Or name a JSON file with the whole question, or ask --n 5.`,
      );
  const number = reader(options);
  const raised = options.loadRatio !== undefined || options.shape !== undefined || options.shapeSource !== undefined;
  const cost = {
    ...optional('perSpecimen', number('perSpecimen')),
    ...optional('currency', options.currency),
    ...optional('rigHoursPerRun', number('rigHours')),
  };
  const asked = {
    limit: { value: number('limit'), unit: options.unit },
    coverage: number('coverage'),
    confidence: number('confidence'),
    ...optional('lotSize', number('lotSize')),
    guess: { mean: number('mean'), cv: number('cv') },
    ...optional('power', number('power')),
    ...optional('good', number('good')),
    ...optional('bad', number('bad')),
    ...optional(
      'stages',
      options.stages?.split(',').map((one) => numberIn(one, 'stages')),
    ),
    ...optional('distribution', options.distribution),
    ...(raised
      ? {
          raised: {
            ...optional('loadRatio', number('loadRatio')),
            ...optional('shape', number('shape')),
            ...optional('shapeSource', options.shapeSource),
          },
        }
      : {}),
    ...(Object.keys(cost).length > 0 ? { cost } : {}),
  };
  return parsed(DesignsAsked, asked, 'options');
}

function showable(options: PlanOptions): number {
  const number = reader(options);
  const [mean, limit] = [number('mean'), number('limit')];
  const asked = parsed(
    ShowableAsked,
    {
      n: number('n'),
      coverage: number('coverage'),
      confidence: number('confidence'),
      ...optional('lotSize', number('lotSize')),
      ...optional('cv', number('cv')),
      ...optional('meanOverLimit', mean === undefined || limit === undefined ? undefined : mean / limit),
      ...optional('power', number('power')),
      ...optional('shape', number('shape')),
    },
    'options',
  );
  const found = whatCanShow(asked);
  console.log(options.json ? JSON.stringify(found, null, 2) : showablePage(found));
  return found.answers.every(isNotEvaluated) ? EXIT.undecided : EXIT.done;
}

function risks(at: string, options: PlanOptions): number {
  const folder = fs.existsSync(at) && fs.statSync(at).isDirectory();
  const file = folder ? path.join(at, 'plan.json') : at;
  const beside = (name: string) => path.join(path.dirname(file), name);
  const plan = parsed(Plan, documentIn(file), file);
  const lotSize = reader(options)('lotSize') ?? sizeBeside(beside('lot.json'));
  const found = planRisks({
    plan,
    methods: parsed(Method.array(), documentIn(beside('methods.json')), beside('methods.json')),
    limits: parsed(Limit.array(), documentIn(beside('limits.json')), beside('limits.json')),
    lotSize,
  });
  console.log(options.json ? JSON.stringify(found, null, 2) : risksPage(found));
  return found.lines.some(({ criteria }) => criteria.some(isNotEvaluated)) ? EXIT.undecided : EXIT.done;
}

/** The lot folder holds the lot beside its plan; a plan alone has none yet. */
function sizeBeside(file: string): number | undefined {
  if (!fs.existsSync(file)) return undefined;
  const document = documentIn(file);
  const lot = typeof document === 'object' && document !== null && 'lot' in document ? document.lot : undefined;
  return parsed(Lot, typeof lot === 'object' ? lot : document, file).size;
}

/** The draft, filled where a file fills it; without one, what it asks for. */
function templateDraft(asked: string, file: string | undefined): number {
  const name = TemplateName.safeParse(asked);
  if (!name.success)
    throw refused(
      `--template is "${asked.slice(0, 100)}", and there is none of that name. There are ${TemplateName.options.map((one) => `"${one}"`).join(', ')}.`,
    );
  const draft =
    file === undefined
      ? planTemplates().find(({ template }) => template === name.data)
      : planFrom(name.data, parsed(TemplateFilling, documentIn(file), file));
  console.log(JSON.stringify(draft, null, 2));
  return EXIT.done;
}

function designsPage({ asked, guess, designs, notes }: Designs): string {
  const { limit, coverage, confidence, lotSize } = asked;
  return [
    wrapped(
      `Claim: at least ${percent(coverage)} of the ${lotSize === undefined ? 'process' : `lot of ${lotSize}`} holds ${limit.value} ${limit.unit}, with ${percent(confidence)} confidence. Expected: mean ${printSignificant(guess.mean, 4)} ${limit.unit}, scatter ${percent(Number(guess.cv.toPrecision(3)))} (${guess.from}).`,
    ),
    '',
    table(
      [
        { head: 'design' },
        { head: 'specimens', side: 'right' },
        { head: 'cost', side: 'right' },
        { head: 'rig hours', side: 'right' },
        { head: 'good lot passes', side: 'right' },
        { head: 'bad lot passes', side: 'right' },
        { head: 'keeps', side: 'right' },
      ],
      designs.map(designRow),
    ),
    '',
    ...designs.map((one) =>
      wrapped(
        isNotEvaluated(one)
          ? `${one.design}: not evaluated: ${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`
          : `${one.design}: ${one.sentence} ${one.notes.join(' ')}`.trimEnd(),
      ),
    ),
    '',
    ...notes.map((note) => wrapped(note)),
  ].join('\n');
}

function designRow(one: Design): string[] {
  if (isNotEvaluated(one)) return [one.design, 'not evaluated', '', '', '', '', ''];
  const { design, n, expected, cost, good, bad, keeps } = one;
  const money =
    cost?.specimens === undefined ? '' : `${printSignificant(cost.specimens, 4)} ${cost.currency ?? ''}`.trim();
  return [
    design,
    expected ? `${n} (${printSignificant(expected.good, 2)} on average)` : String(n),
    money,
    cost?.rigHours === undefined ? '' : printSignificant(cost.rigHours, 3),
    chanceInWords(good.chance),
    chanceInWords(bad.chance),
    percent(Number(keeps.toFixed(3))),
  ];
}

function showablePage({ answers }: Showable): string {
  return answers
    .flatMap((one) => [
      one.question,
      wrapped(
        isNotEvaluated(one)
          ? `Not evaluated: ${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`
          : one.answer,
        96,
        '  ',
      ),
    ])
    .join('\n');
}

/** Shares for which the terminal prints the chance; the whole curve is in the JSON. */
const PRINTED = [0.01, 0.05, 0.1, 0.2, 0.4];

function risksPage({ plan, revision, lotSize, lines, sentence }: PlanRisks): string {
  return [
    wrapped(
      `What plan ${plan} rev. ${revision} risks${lotSize === undefined ? '' : `, for a lot of ${lotSize}`}. ${sentence}`,
    ),
    ...lines.flatMap(({ line, title, criteria, together }) => [
      '',
      `Line ${line}: ${title}`,
      ...criteria.flatMap((one) => [
        wrapped(
          isNotEvaluated(one)
            ? `${one.criterion} (${one.kind}): not evaluated: ${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`
            : `${one.criterion} (${one.kind}): ${one.sentence}${one.keeps === undefined ? '' : ` It keeps ${percent(Number(one.keeps.toFixed(3)))}.`}`,
          96,
          '  ',
        ),
        ...(isNotEvaluated(one) || one.curve.length === 0 ? [] : [wrapped(curveSaid(one.curve), 96, '    ')]),
      ]),
      wrapped(
        isNotEvaluated(together)
          ? `Together: not evaluated: ${together.notEvaluated.because}.`
          : `Together: ${together.sentence}`,
        96,
        '  ',
      ),
    ]),
  ].join('\n');
}

function curveSaid(curve: readonly { share: number; chance: number }[]): string {
  const points = PRINTED.flatMap((share) => {
    const point = curve.find((one) => one.share >= share - 1e-9);
    return point ? [point] : [];
  });
  const once = [...new Map(points.map((one) => [one.share, one])).values()];
  return `share below the limit and chance to pass: ${once.map(({ share, chance }) => `${shareInWords(share)} → ${chanceInWords(chance)}`).join(', ')}`;
}

function reader(options: PlanOptions) {
  return (name: Exclude<keyof PlanOptions, 'json'>): number | undefined => {
    const text = options[name];
    return text === undefined ? undefined : numberIn(text, name);
  };
}

function numberIn(text: string, name: string): number {
  const flag = name.replaceAll(/[A-Z]/g, (one) => `-${one.toLowerCase()}`);
  const number = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(number))
    throw refused(`--${flag} is "${text.slice(0, 100)}"; it must be a number, with a point as its decimal sign.`);
  return number;
}

function optional<Name extends string, Value>(name: Name, value: Value | undefined): Record<string, Value> {
  return value === undefined ? {} : { [name]: value };
}

function documentIn(file: string): unknown {
  if (!fs.existsSync(file) || fs.statSync(file).isDirectory())
    throw new Refusal({ code: 'file.missing', file, detail: `There is no file ${file}. Give a JSON file.` });
  return readJson(fs.readFileSync(file), path.basename(file));
}

interface Schema<T> {
  safeParse: (
    value: unknown,
  ) => { success: true; data: T } | { success: false; error: Parameters<typeof schemaProblems>[0] };
}

/** What a schema describes; options of the call are named as such, not as places of a document. */
function parsed<T>(schema: Schema<T>, value: unknown, where: string): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  throw new Refusal(schemaProblems(result.error, value, where === 'options' ? undefined : path.basename(where)));
}

function refused(detail: string): Refusal {
  return new Refusal({ code: 'query.invalid', detail });
}
