import { nearDuplicate, type Reading, withFlags } from '@breakbook/lab';

/** The same runs, each with a flag where another one's file holds the same numbers in other bytes. */
export function flagNearDuplicates<T extends { reading: Reading }>(runs: readonly T[]): T[] {
  return runs.map((one) => {
    const others = runs.filter(({ reading }) => reading.run !== one.reading.run);
    const found = one.reading.files.flatMap(({ name, numbers }) =>
      others.flatMap(({ reading }) =>
        reading.files
          .filter((file) => numbers !== undefined && file.numbers === numbers)
          .map((file) => nearDuplicate(name, { run: reading.run, file: file.name })),
      ),
    );
    return { ...one, reading: withFlags(one.reading, found) };
  });
}
