import type { LotBundle, Run } from '@breakbook/lab';

export interface Entry {
  /** Calendar day in the lab's zone. */
  on: string;
  what: string;
  /** Keys of the people who did it. */
  people: string[];
}

/** The history of a lot as its records tell it: plan, making, draw, receipt, runs and validity, day by day. */
export function historyOf({ lab, lot, plan, specimens, runs }: LotBundle): Entry[] {
  const dayOf = (instant: string) => labDay(instant, lab.zone);
  const entries: Entry[] = [
    { on: plan.approvedOn, what: `Plan ${plan.plan} rev. ${plan.revision} approved`, people: [plan.approvedBy] },
    { on: lot.madeTo, what: `Lot of ${lot.size} made`, people: [] },
    ...(lot.sampling
      ? [
          {
            on: lot.sampling.drawnOn,
            what: `Specimens drawn. ${lot.sampling.rule.replace(/\.$/, '')}`,
            people: [lot.sampling.drawnBy],
          },
        ]
      : []),
    ...grouped(specimens, ({ receivedAt }) => dayOf(receivedAt)).map(([on, received]) => ({
      on,
      what: `${counted(received.length, 'specimen')} received`,
      people: [],
    })),
    ...grouped(runs, ({ startedAt }) => dayOf(startedAt)).map(([on, made]) => ({
      on,
      what: `${counted(made.length, 'run')} made: ${names(made)}`,
      people: distinct(made.map(({ operator }) => operator)),
    })),
    ...grouped(
      runs.filter(({ validity }) => validity),
      ({ validity }) => dayOf(validity?.at ?? ''),
    ).map(([on, decided]) => ({
      on,
      what: `Validity decided of ${counted(decided.length, 'run')}: ${names(decided)}`,
      people: distinct(decided.flatMap(({ validity }) => (validity ? [validity.person] : []))),
    })),
  ];
  return entries.sort((a, b) => a.on.localeCompare(b.on));
}

/** The calendar day on the lab's clock. */
function labDay(instant: string, zone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { dateStyle: 'short', timeZone: zone }).format(new Date(instant));
}

function grouped<T>(things: readonly T[], key: (thing: T) => string): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const thing of things) groups.set(key(thing), [...(groups.get(key(thing)) ?? []), thing]);
  return [...groups];
}

function names(runs: readonly Run[]): string {
  return runs.map(({ run }) => run).join(', ');
}

function counted(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}

function distinct(people: readonly string[]): string[] {
  return [...new Set(people)];
}
