import type { Actor, Noun, Records, Version } from '@breakbook/records';
import type { Kept } from './kept.js';
import type { Kind } from './kind.js';
import { keptAs } from './read-kind.js';
import { addRevision, define, revise } from './write-kind.js';

/** One change that defines a new thing. */
export function defined<C extends object, N extends Noun, V extends Version>(
  records: Records,
  by: Actor,
  kind: Kind<C, N, V>,
  content: C,
): Promise<Kept<C>> {
  return records.change(by, `${kind.word} defined`, async (rows) =>
    keptAs(rows, kind, await define(rows, kind, content)),
  );
}

/** One change that says something else of a thing, with its reason. */
export function revised<C extends object, N extends Noun, V extends Version>(
  records: Records,
  by: Actor,
  kind: Kind<C, N, V>,
  key: string,
  { content, reason }: { content: C; reason: string },
  follows: number,
): Promise<Kept<C>> {
  return records.change(by, `${kind.word} changed`, reason, async (rows) =>
    keptAs(rows, kind, await revise(rows, kind, key, content, follows)),
  );
}

/** One change that adds the next revision of a thing whose revisions never change. */
export function revisionAdded<C extends { revision: number }, N extends Noun, V extends Version & { content: C }>(
  records: Records,
  by: Actor,
  kind: Kind<C, N, V>,
  key: string,
  { content, reason }: { content: C; reason: string },
): Promise<Kept<C>> {
  return records.change(by, `${kind.word} revised`, reason, async (rows) =>
    keptAs(rows, kind, await addRevision(rows, kind, key, content)),
  );
}
