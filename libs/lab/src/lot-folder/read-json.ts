import { type Problem, Refusal } from '../problems.js';

/**
 * Reads one JSON document. `JSON.parse` alone takes doubled keys silently and turns 1e400 into Infinity;
 * both would let a number be read that nobody wrote.
 */
export function readJson(bytes: Uint8Array, file: string): unknown {
  const text = decoded(bytes, file);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Refusal(syntaxProblem(text, file, error));
  }
  new Walker(text, file).document();
  return value;
}

function decoded(bytes: Uint8Array, file: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal({ code: 'json.encoding', file, detail: `${file} is not UTF-8. Save it as UTF-8 and try again.` });
  }
}

function syntaxProblem(text: string, file: string, error: unknown): Problem {
  const message = error instanceof Error ? error.message : '';
  const position = Number(/position (\d+)/.exec(message)?.[1] ?? text.length);
  const { line, column } = placeOf(text, position);
  return {
    code: 'json.syntax',
    file,
    line,
    column,
    detail: `${file}, line ${line}, character ${column}: this is not JSON from here on. Check the comma, quote or bracket before it.`,
  };
}

function placeOf(text: string, position: number): { line: number; column: number } {
  const before = text.slice(0, position);
  return { line: before.split('\n').length, column: position - before.lastIndexOf('\n') };
}

const DEEPEST = 64;

/** A second look at a document known to be JSON: doubled keys, depth, and numbers beyond a double. */
class Walker {
  private at = 0;

  constructor(
    private readonly text: string,
    private readonly file: string,
  ) {}

  document(): void {
    this.value(0);
  }

  private value(depth: number): void {
    this.blanks();
    const first = this.text[this.at];
    if (depth === DEEPEST && (first === '{' || first === '['))
      this.refuse('json.too-deep', `nested more than ${DEEPEST} levels deep. Flatten it.`);
    if (first === '{') this.object(depth);
    else if (first === '[') this.array(depth);
    else if (first === '"') this.string();
    else this.scalar();
    this.blanks();
  }

  private object(depth: number): void {
    const keys = new Set<string>();
    this.at++;
    for (this.blanks(); this.text[this.at] !== '}'; this.blanks()) {
      if (this.text[this.at] === ',') {
        this.at++;
        this.blanks();
      }
      const key = this.string();
      if (keys.has(key))
        this.refuse('json.duplicate-key', `the key ${JSON.stringify(key)} stands twice in one object. Keep one.`);
      keys.add(key);
      this.blanks();
      this.at++;
      this.value(depth + 1);
    }
    this.at++;
  }

  private array(depth: number): void {
    this.at++;
    for (this.blanks(); this.text[this.at] !== ']'; this.blanks()) {
      if (this.text[this.at] === ',') this.at++;
      this.value(depth + 1);
    }
    this.at++;
  }

  private string(): string {
    const start = this.at;
    for (this.at++; this.text[this.at] !== '"'; this.at++) if (this.text[this.at] === '\\') this.at++;
    this.at++;
    return JSON.parse(this.text.slice(start, this.at)) as string;
  }

  private scalar(): void {
    const start = this.at;
    while (this.at < this.text.length && !',]} \t\r\n'.includes(this.text[this.at] ?? '')) this.at++;
    const word = this.text.slice(start, this.at);
    if (/^-?\d/.test(word) && !Number.isFinite(Number(word)))
      this.refuse('number.not-finite', `${word} is larger than any number kept here.`);
  }

  private blanks(): void {
    while (' \t\r\n'.includes(this.text[this.at] ?? 'x')) this.at++;
  }

  private refuse(code: Problem['code'], sentence: string): never {
    const { line, column } = placeOf(this.text, this.at);
    throw new Refusal({ code, file: this.file, line, column, detail: `${this.file}, line ${line}: ${sentence}` });
  }
}
