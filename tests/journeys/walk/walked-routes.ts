import { type LedgerEntry, parseEntry } from '@breakbook/evidence';
import { type Records, tables } from '@breakbook/records';
import { expect } from 'vitest';
import type { Answer, Asking, SignedInCaller, TestService } from '../../service.ts';

/** Clock of the test and of the database are one machine's; a change takes this long at most, in ms. */
const MAY_TAKE = 60_000;

/** Calls state-changing routes one by one, and looks at what each left in the ledger. */
export class WalkedRoutes {
  readonly walked = new Set<string>();
  /** What each route wrote, by table; with the state it came to, where a row of the table has one. */
  readonly written = new Map<string, Set<string>>();
  readonly #routes: Set<string>;
  readonly #records: Records;
  readonly #labId: string;

  constructor(
    service: TestService,
    /** Routes that change no evidence, so that nothing of them is in the ledger. */
    private readonly leavesNothing: Record<string, string>,
  ) {
    this.#records = service.records;
    this.#labId = service.lab.labId;
    this.#routes = new Set(
      service.routes.filter(({ method }) => !/^(GET|HEAD)$/.test(method)).map(({ method, url }) => `${method} ${url}`),
    );
  }

  /** State-changing routes of the running service that were not called, and so are unknown. */
  get missing(): string[] {
    return [...this.#routes].filter((route) => !this.walked.has(route));
  }

  /**
   * Calls a route, which must take what it is given, waits for the job where it begins one, and requires the one entry
   * that it leaves (or two, where the second rests on the first): by whom, when, why where a reason was given, and which rows, as they were before and as they are.
   */
  async call(
    by: SignedInCaller,
    route: string,
    names: Record<string, string | number> = {},
    {
      query = '',
      leftBy = by.personId,
      leaves = 1,
      ...asking
    }: Asking & { query?: string; leftBy?: string; leaves?: number } = {},
  ): Promise<Answer> {
    expect(this.#routes, 'state-changing routes of the running service').toContain(route);
    const [method = '', url = ''] = route.split(' ');
    const path = url.replaceAll(/:([a-zA-Z]+)/g, (_, name) => encodeURIComponent(String(names[name])));
    const before = await this.#entriesAfter(0);
    const began = Date.now();
    const answer = await by.ask(method, `${path}${query}`, asking);
    expect(answer.status, `${route}: ${JSON.stringify(answer.body)}`).toBeLessThan(300);
    if (answer.status === 202) await (await by.fetch(`${answer.headers.get('location')}/events`)).text();
    const left = (await this.#entriesAfter(before.length)).map(({ text }) => parseEntry(text));
    this.walked.add(route);
    expect(
      left.map(({ action }) => action),
      route,
    ).toHaveLength(route in this.leavesNothing ? 0 : leaves);
    const kinds = this.written.get(route) ?? new Set();
    this.written.set(route, kinds);
    for (const entry of left) {
      for (const { table, after } of entry.rows)
        kinds.add(typeof after.state === 'string' ? `${table} ${after.state}` : table);
      expect(entry.by, route).toBe(leftBy);
      expect(Math.abs(Date.parse(entry.at) - began), route).toBeLessThan(MAY_TAKE);
      const { reason } = (asking.body ?? {}) as { reason?: string };
      if (reason !== undefined) expect(JSON.stringify(entry), route).toContain(JSON.stringify(reason));
      expectWhole(entry, route);
    }
    return answer;
  }

  /** Says something else of a thing: follows the version that is shown, and gives a reason. */
  async put(
    by: SignedInCaller,
    route: string,
    names: Record<string, string | number>,
    // biome-ignore lint/suspicious/noExplicitAny: a content as the service shows it, whatever it is of.
    change: (content: any) => object,
  ): Promise<Answer> {
    const path = (route.split(' ')[1] ?? '').replaceAll(/:([a-zA-Z]+)/g, (_, name) => String(names[name]));
    const { headers, body } = await by.ask('GET', path);
    return this.call(by, route, names, {
      headers: { 'if-match': headers.get('etag') ?? '' },
      body: { reason: 'for the sake of a walk', content: change(body.content) },
    });
  }

  #entriesAfter(sequence: number): Promise<tables.LedgerEntry[]> {
    return this.#records
      .read(this.#labId)
      .manager.find(tables.LedgerEntry, { where: { labId: this.#labId }, order: { sequence: 'asc' } })
      .then((entries) => entries.slice(sequence));
  }
}

/** A row says what it is; a later version, what it was before and is now. */
function expectWhole({ rows }: LedgerEntry, route: string): void {
  for (const { table, version, before, after } of rows) {
    if (version !== undefined && version > 1) expect(before, `${route}: ${table}, version ${version}`).toBeDefined();
    else {
      expect(before, `${route}: ${table}`).toBeUndefined();
      expect(Object.keys(after).length, `${route}: ${table}`).toBeGreaterThan(0);
    }
  }
}
