import { type Problem, pointerTo, Refusal } from '@breakbook/lab';

/**
 * Refuses text that cannot be kept letter by letter, wherever it stands in a document: PostgreSQL holds no U+0000, and a
 * lone surrogate changes when it is encoded, so that what is hashed would differ from what was sent. A member named
 * `__proto__` would be dropped without a word on its way.
 */
export function refuseUnfitText(document: unknown): void {
  const problems: Problem[] = [];
  look(document, [], problems);
  if (problems.length > 0) throw new Refusal(problems);
}

function look(value: unknown, path: readonly (string | number)[], problems: Problem[]): void {
  if (typeof value === 'string') {
    const fault = faultOf(value);
    if (fault) problems.push(at(path, fault));
  } else if (Array.isArray(value)) {
    // Without a copy of the path for each of a million numbers.
    for (const [index, one] of value.entries()) if (typeof one !== 'number') look(one, [...path, index], problems);
  } else if (typeof value === 'object' && value !== null) {
    for (const [name, one] of Object.entries(value)) {
      const fault = name === '__proto__' ? 'this name is not taken' : faultOf(name);
      if (fault) problems.push(at(path, `the name of a member: ${fault}`));
      look(one, [...path, name], problems);
    }
  }
}

function faultOf(text: string): string | undefined {
  if (text.includes('\0')) return 'holds the character U+0000, which cannot be kept';
  return text.isWellFormed() ? undefined : 'holds a lone surrogate, which cannot be kept';
}

function at(path: readonly (string | number)[], fault: string): Problem {
  const pointer = pointerTo(path).toWellFormed().replaceAll('\0', '\u2400');
  return {
    code: 'body.text-invalid',
    pointer,
    detail: `${pointer === '' ? 'the document' : pointer}: ${fault}. Remove it.`,
  };
}
