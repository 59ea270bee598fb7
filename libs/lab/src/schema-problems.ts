import type { z } from 'zod';
import { PROBLEM_CODES, type Problem, type ProblemCode, shown } from './problems.js';

/** What a failed schema means in the words of the closed list, with a JSON Pointer to each place. */
export function schemaProblems(error: z.ZodError, input: unknown, file?: string): Problem[] {
  return error.issues
    .flatMap((issue) => problemsOf(issue, input))
    .map((problem) => (file ? { ...problem, file, detail: `${file}, ${problem.detail}` } : problem));
}

function problemsOf(issue: z.core.$ZodIssue, input: unknown): Problem[] {
  const pointer = pointerTo(issue.path);
  const where = pointer === '' ? 'the document' : pointer;
  const found = valueAt(input, issue.path);
  const one = (code: ProblemCode, sentence: string, expected?: string): Problem => ({
    code,
    pointer,
    detail: `${where}: ${sentence}`,
    ...(found === undefined
      ? {}
      : { found: shown(typeof found === 'string' ? found : (JSON.stringify(found) ?? String(found))) }),
    ...(expected === undefined ? {} : { expected }),
  });

  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        code: 'body.unknown-field',
        pointer: `${pointer}/${escaped(key)}`,
        detail: `${pointer}/${escaped(key)}: this field is not known here. Remove it, or check its spelling.`,
      }));
    case 'invalid_type':
      return found === undefined
        ? [
            one(
              'body.missing-field',
              `${withArticle(issue.expected)} is needed here and nothing was found.${taught(issue.message)}`,
              issue.expected,
            ),
          ]
        : [one('body.type', `must be ${withArticle(issue.expected)}.`, issue.expected)];
    case 'too_small':
    case 'too_big':
      return [one(issue.origin === 'string' ? 'body.text-invalid' : 'body.range', `${sentence(issue.message)}.`)];
    case 'invalid_value': {
      const expected = issue.values.map((value) => JSON.stringify(value)).join(', ');
      return [
        found === undefined
          ? one('body.missing-field', `one of ${expected} is needed here and nothing was found.`, expected)
          : one('body.enum', `must be one of ${expected}.`, expected),
      ];
    }
    case 'invalid_union':
      return found === undefined
        ? [one('body.missing-field', `a value is needed here and nothing was found.${taught(issue.message)}`)]
        : [
            one(
              'discriminator' in issue && issue.discriminator ? 'body.enum' : 'body.type',
              `fits none of the forms that are taken here.${taught(issue.message)}`,
            ),
          ];
    case 'invalid_format':
      return [one('body.format', `${sentence(issue.message)}.`)];
    case 'custom': {
      const named = issue.params?.code;
      return [one(isProblemCode(named) ? named : 'body.range', `${issue.message}.`)];
    }
    default:
      return [one('body.range', `${sentence(issue.message)}.`)];
  }
}

/** What the schema itself has to say, as a sentence more; nothing where it says no more than that the input is invalid. */
function taught(message: string): string {
  if (message.startsWith('Invalid ')) return '';
  return ` ${message.charAt(0).toUpperCase()}${message.slice(1).replace(/\.$/, '')}.`;
}

function withArticle(type: string): string {
  return `${/^[aeiou]/.test(type) ? 'an' : 'a'} ${type}`;
}

function isProblemCode(value: unknown): value is ProblemCode {
  return typeof value === 'string' && (PROBLEM_CODES as readonly string[]).includes(value);
}

function sentence(message: string): string {
  return message.replace(/^Invalid (input|string): /, '').replace(/\.$/, '');
}

/** RFC 6901. */
export function pointerTo(path: readonly PropertyKey[]): string {
  return path.map((part) => `/${escaped(String(part))}`).join('');
}

function escaped(part: string): string {
  return part.replaceAll('~', '~0').replaceAll('/', '~1');
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let here = input;
  for (const part of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, part)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[part];
  }
  return here;
}
