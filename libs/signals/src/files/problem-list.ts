import { type Problem, type ProblemCode, Refusal, shown } from '@breakbook/lab';

/** Where in a file something stands: physical line and field, both from 1. */
export interface Place {
  line?: number;
  column?: number;
  channel?: string;
}

/** What is said of it: one sentence, what was found, what was expected, what to do. */
export interface Said {
  sentence: string;
  found?: string;
  expected?: string;
  action?: string;
}

const KEPT = 100;

/** What is wrong, or doubtful, in one file: the first hundred in full, the rest counted. */
export class ProblemList {
  readonly first: Problem[] = [];
  count = 0;

  constructor(private readonly file: string) {}

  /** The words are asked for only while they will be kept: a file may hold millions of bad cells. */
  add(code: ProblemCode, place: Place, said: () => Said): void {
    this.count++;
    if (this.first.length < KEPT) this.first.push(problemOf(this.file, code, place, said()));
  }

  throwIfAny(): void {
    if (this.count > 0) throw new Refusal(this.first, this.count);
  }

  /** For what makes reading on pointless. */
  refuse(code: ProblemCode, place: Place, said: Said): never {
    this.add(code, place, () => said);
    throw new Refusal(this.first, this.count);
  }
}

function problemOf(file: string, code: ProblemCode, place: Place, said: Said): Problem {
  const { line, column, channel } = place;
  const where = [
    shown(file),
    ...(line === undefined ? [] : [`line ${line}`]),
    ...(column === undefined ? [] : [`column ${column}${channel === undefined ? '' : ` (${shown(channel)})`}`]),
  ].join(', ');
  return {
    code,
    detail: `${where}: ${said.sentence}`,
    file: shown(file),
    ...place,
    ...(said.found === undefined ? {} : { found: shown(said.found) }),
    ...(said.expected === undefined ? {} : { expected: said.expected }),
    ...(said.action === undefined ? {} : { action: said.action }),
  };
}
