import { type Problem, type ProblemCode, Refusal, shown } from '@breakbook/lab';
import { type Noun, type Reader, type Table, tables } from '@breakbook/records';

/**
 * Looks up what a body names. What is not there is noted by its place, so that one answer tells all of it; nothing is
 * written before `refuse`.
 */
export class Names {
  private readonly problems: Problem[] = [];

  constructor(
    readonly reader: Reader,
    /** Where in the body the content begins. */
    private readonly at: string,
  ) {}

  /** The id of the thing of this name. Where there is none that is noted, and the answer is empty. */
  async idOf<T extends Noun>(table: Table<T>, key: string, pointer: string): Promise<string> {
    return (await this.of(table, key, pointer))?.id ?? '';
  }

  async of<T extends Noun>(table: Table<T>, key: string, pointer: string): Promise<T | undefined> {
    try {
      return await this.reader.named(table, key);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      this.note('body.not-found', pointer, `${error.message} Add it first, or correct the name.`, key);
      return undefined;
    }
  }

  /** Ids of the lots named, and of those whose runs are. */
  async lotsOf({ lots, runs }: { lots: readonly string[]; runs: readonly string[] }): Promise<Set<string>> {
    const ids = new Set<string>();
    for (const [index, key] of lots.entries()) ids.add(await this.idOf(tables.Lot, key, `/lots/${index}`));
    for (const [index, key] of runs.entries()) {
      const run = await this.of(tables.Run, key, `/runs/${index}`);
      if (run) ids.add((await this.reader.one(tables.Specimen, run.specimenId)).lotId);
    }
    return ids;
  }

  /** A person of the lab; a program signs nothing. */
  async person(key: string, pointer: string): Promise<string> {
    const person = await this.of(tables.Person, key, pointer);
    if (person?.kind === 'program')
      this.note('body.not-found', pointer, `${key} is a program. Name the person who did it.`, key);
    return person?.id ?? '';
  }

  /** Where a place in the content is in the body. */
  place(pointer: string): string {
    return `${this.at}${pointer}`;
  }

  /** Notes problems found elsewhere, whose places are those of the body. */
  take(problems: readonly Problem[]): void {
    this.problems.push(...problems);
  }

  note(code: ProblemCode, pointer: string, sentence: string, found?: string | number): void {
    const place = this.place(pointer);
    const what = found === undefined ? {} : { found: shown(String(found)) };
    this.problems.push({ code, pointer: place, detail: `${place}: ${sentence}`, ...what });
  }

  /** Refuses what was noted. */
  refuse(): void {
    if (this.problems.length > 0) throw new Refusal(this.problems);
  }
}
