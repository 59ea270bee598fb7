import fs from 'node:fs';
import { EXIT, Refusal, readJson } from '@breakbook/lab';
import { compute, listMethods, methodSchema } from '@breakbook/statistics';
import { wrapped } from '../terminal.js';

export interface ComputeOptions {
  list?: boolean;
  schema?: boolean;
}

type Answer = ReturnType<typeof compute>;

/**
 * One JSON object in, one out; or one per line. The status says how all of them went: 0 when each gave a result,
 * 3 when some could not be evaluated, 2 when some input was bad.
 */
export function computeCommand(request: string | undefined, options: ComputeOptions): number {
  if (options.list) {
    console.log(methodList());
    return EXIT.done;
  }
  if (options.schema) {
    console.log(JSON.stringify(methodSchema(), null, 2));
    return EXIT.done;
  }
  const answers = requestsIn(request ?? fs.readFileSync(0, 'utf8')).map(answerTo);
  for (const answer of answers) console.log(JSON.stringify(answer));
  return statusOf(answers);
}

/** One document, or one per line where the whole is not one document. */
function requestsIn(input: string): string[] {
  try {
    JSON.parse(input);
    return [input];
  } catch {
    return input.split('\n').filter((line) => line.trim() !== '');
  }
}

function answerTo(text: string): Answer {
  try {
    return compute(readJson(new TextEncoder().encode(text), 'input'));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { method: '', error: { code: error.code, message: error.message, pointer: '' } };
  }
}

function statusOf(answers: Answer[]): number {
  if (answers.some((answer) => 'error' in answer)) return EXIT.badInput;
  return answers.some((answer) => 'notEvaluated' in answer) ? EXIT.undecided : EXIT.done;
}

function methodList(): string {
  return listMethods()
    .map(({ method, question, inputs, result, assumptions, source }) =>
      [
        method,
        wrapped(question, 96, '  '),
        '  in',
        ...inputs.map(({ name, required, description }) => field(required ? name : `${name}?`, description)),
        '  out',
        ...result.map(({ name, description }) => field(name, description)),
        '  assumes',
        ...assumptions.map((one) => wrapped(one, 96, '    ')),
        wrapped(`source: ${source}`, 96, '  '),
      ].join('\n'),
    )
    .join('\n\n');
}

function field(name: string, description: string): string {
  return wrapped(`${name}: ${description}`, 96, '    ');
}
