import type { LotBundle } from '../../lot-bundle.js';
import type { Specimen } from '../../lots.js';
import { type Problem, type ProblemCode, shown } from '../../problems.js';

export interface LotOf {
  folder: string;
  bundle: LotBundle;
}

/** What is wrong at one place of the comparison's document. */
export type Say = (code: ProblemCode, pointer: string, sentence: string, found?: string) => Problem;

/** What the names of a comparison can lead to. */
export interface Known {
  lots: readonly LotOf[];
  specimens: ReadonlyMap<string, Specimen>;
  people: ReadonlySet<string>;
}

export function knownIn(lots: readonly LotOf[]): Known {
  return {
    lots,
    specimens: new Map(lots.flatMap(({ bundle }) => bundle.specimens.map((one) => [one.specimen, one]))),
    people: new Set(lots.flatMap(({ bundle }) => bundle.people.map(({ person }) => person))),
  };
}

export function sayIn(file: string): Say {
  return (code, pointer, sentence, found) => ({
    code,
    file,
    pointer,
    detail: `${file}, ${pointer}: ${sentence}`,
    ...(found === undefined ? {} : { found: shown(found) }),
  });
}

export function noSpecimen(say: Say, at: string, specimen: string): Problem {
  return say(
    'meta.unknown',
    at,
    `there is no specimen ${specimen} in the lots of lots/. Correct the key, or put its lot folder there.`,
    specimen,
  );
}

export function noFeature(say: Say, at: string, feature: string, declared: ReadonlySet<string>): Problem {
  const list = declared.size === 0 ? 'none' : [...declared].join(', ');
  return say(
    'meta.unknown',
    at,
    `feature ${shown(feature)} is not declared. Declared are ${list}; what is looked at besides needs a new revision.`,
    feature,
  );
}
