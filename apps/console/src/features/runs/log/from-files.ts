import type { Method } from '@breakbook/lab';
import { clockIn } from '../../../parts/zoned.js';
import type { Draft, PassageDraft } from './draft.js';

/** What a rig's file says of itself, by name. */
type Head = ReadonlyMap<string, string>;

/** Names a form has its own fields for, or that tell the files of one run apart: no conditions of the run. */
const OWN_FIELDS = new Set(['specimen', 'rig', 'started', 'passage', 'strike', 'layout']);

/** What the file says of itself fills in what nobody has typed yet. */
export function fromHead(draft: Draft, head: Head, zone: string): Partial<Draft> {
  const [specimen, rig, began] = [head.get('specimen'), head.get('rig'), startIn(head, zone)];
  const named = new Set(draft.conditions.map(({ name }) => name));
  const conditions = [...head]
    .filter(([name]) => !OWN_FIELDS.has(name) && !named.has(name))
    .map(([name, value]) => ({ id: crypto.randomUUID(), name, value, unit: '' }));
  return {
    ...(draft.specimen === '' && specimen !== undefined ? { specimen } : {}),
    ...(draft.rig === '' && rig !== undefined ? { rig } : {}),
    ...(draft.startedAt === '' && began !== '' ? { startedAt: began } : {}),
    ...(conditions.length > 0 ? { conditions: [...draft.conditions, ...conditions] } : {}),
  };
}

/** Each file of an impact run is the record of one strike, which began when its own file says. */
export function strikesOf(
  before: readonly PassageDraft[],
  files: readonly { name: string; head: Head | undefined }[],
  zone: string,
): PassageDraft[] {
  const place = before.at(-1)?.place ?? '';
  return [
    ...before,
    ...files.map(({ name, head }, index) => ({
      ...emptyPassage('impact'),
      title: `Strike ${before.length + index + 1}`,
      file: name,
      place,
      startedAt: head ? startIn(head, zone) : '',
    })),
  ];
}

/** The next passage to be typed: the first begins with the run, a later one is at the place of the one before. */
export function freshPassage(test: Method['test'] | undefined, { passages, startedAt }: Draft): PassageDraft {
  const last = passages.at(-1);
  return {
    ...emptyPassage(test),
    ...(last ? { place: last.place, targetUnit: last.targetUnit } : { startedAt }),
  };
}

function emptyPassage(test: Method['test'] | undefined): PassageDraft {
  return {
    id: crypto.randomUUID(),
    kind: test === 'impact' ? 'strike' : test === 'heat' ? 'stage' : 'step',
    title: '',
    startedAt: '',
    place: '',
    file: '',
    target: '',
    targetUnit: test === 'heat' ? 'W' : 'J',
    found: '',
  };
}

/** When a file says it began, on the clock of the lab; empty where it does not say so. */
function startIn(head: Head, zone: string): string {
  const started = head.get('started');
  return started === undefined || Number.isNaN(Date.parse(started)) ? '' : clockIn(zone, started);
}
