import { isNotEvaluated, type NotEvaluated, type ProblemCode, schemaProblems, shown } from '@breakbook/lab';
import { computeMethods } from './registry.js';

/** What is wrong with a request: a code of the closed list, a sentence, and where it stands (RFC 6901). */
export interface ComputeError {
  code: ProblemCode;
  message: string;
  pointer: string;
}

/** One of three answers, under the name of the method asked for (left out where none was named). */
export type ComputeReply =
  | { method: string; result: object }
  | { method: string; notEvaluated: NotEvaluated['notEvaluated'] }
  | { method?: string; error: ComputeError };

const byName = new Map(computeMethods.map((method) => [method.method, method]));

/**
 * Answers one calculation asked for as plain data: `{ method, ...inputs }`. Inputs are read by the
 * method's own schema; nothing is guessed, and an input it does not know is refused. Never throws.
 */
export function compute(request: unknown): ComputeReply {
  if (typeof request !== 'object' || request === null || Array.isArray(request))
    return {
      error: {
        code: 'body.not-object',
        message: 'a request is one object: {"method": "<name>", ...inputs}. Put the inputs beside the name.',
        pointer: '',
      },
    };
  const { method: name, ...given } = request as Record<string, unknown>;
  if (typeof name !== 'string')
    return {
      error: {
        code: name === undefined ? 'body.missing-field' : 'body.type',
        message: `/method: the name of a method is needed here, as text. Known are ${[...byName.keys()].join(', ')}.`,
        pointer: '/method',
      },
    };
  const method = byName.get(name);
  if (method === undefined)
    return {
      method: name,
      error: {
        code: 'body.enum',
        message: `/method: "${shown(name)}" is not known here. Known are ${[...byName.keys()].join(', ')}.`,
        pointer: '/method',
      },
    };

  const read = method.inputs.safeParse(given);
  if (!read.success) {
    const [first] = schemaProblems(read.error, given);
    return {
      method: name,
      error: {
        code: first?.code ?? 'body.range',
        message: first?.detail ?? 'the inputs do not fit this method',
        pointer: first?.pointer ?? '',
      },
    };
  }
  try {
    const answer = method.run(read.data);
    if (isNotEvaluated(answer)) return { method: name, ...answer };
    const unsayable = placeOfNoNumber(answer);
    if (unsayable !== undefined) throw new Error(`${name} gave no number at ${unsayable}`);
    return { method: name, result: answer };
  } catch (thrown) {
    return { method: name, error: errorFrom(thrown) };
  }
}

function errorFrom(thrown: unknown): ComputeError {
  if (thrown instanceof RangeError) return { code: 'body.range', message: thrown.message, pointer: '' };
  return {
    code: 'internal',
    message: `this is a fault of the calculator, not of your input: ${thrown instanceof Error ? thrown.message : 'no cause known'}`,
    pointer: '',
  };
}

/** JSON has no word for NaN and infinity; where one slipped in the answer is withheld. */
function placeOfNoNumber(answer: unknown, place = ''): string | undefined {
  if (typeof answer === 'number') return Number.isFinite(answer) ? undefined : place;
  if (typeof answer !== 'object' || answer === null) return undefined;
  for (const [key, part] of Object.entries(answer)) {
    const found = placeOfNoNumber(part, `${place}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}
