import type { SignedInCaller } from '../service.ts';

/** One who decides waits so long, in ms, before they look whether it was heard. */
const PAUSE = 100;

/** A decision as whoever made it knows it. */
export interface Decided {
  run: string;
  /** No two are alike: it is what a decision is known by. */
  note: string;
  /** Whether it was heard of, in an answer or by looking again. */
  acknowledged: boolean;
}

/** Decides again and again about runs, one after another on each, as a reviewer does who hears no answer: they look. */
export class Decider {
  readonly decided: Decided[] = [];
  /** Answers that no kill explains. */
  readonly unexpected: string[] = [];
  /** How often nobody answered. */
  brokenOff = 0;
  #stopped = false;
  #lines: Promise<void>[] = [];

  constructor(private readonly reviewer: SignedInCaller) {}

  /** One decision at a time about each of these runs, until `stop`. */
  start(runs: readonly string[]): void {
    this.#stopped = false;
    this.#lines = runs.map((run) => this.#line(run));
  }

  /** Lets what is under way be heard of, and begins nothing new. */
  async stop(): Promise<void> {
    this.#stopped = true;
    await Promise.all(this.#lines);
  }

  async #line(run: string): Promise<void> {
    while (!this.#stopped && this.unexpected.length === 0) {
      const one: Decided = { run, note: `look ${this.decided.length + 1}`, acknowledged: false };
      this.decided.push(one);
      while (!one.acknowledged && this.unexpected.length === 0) {
        await this.#attempt(one).catch(() => {
          this.brokenOff += 1;
        });
        if (!one.acknowledged) await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
  }

  async #attempt(one: Decided): Promise<void> {
    const address = `/api/runs/${one.run}`;
    const seen = await this.reviewer.ask('GET', address);
    if (seen.status === 200 && JSON.stringify(seen.body).includes(`"${one.note}"`)) {
      one.acknowledged = true;
      return;
    }
    const { status, body } =
      seen.status === 200
        ? await this.reviewer.ask('POST', `${address}/validity`, {
            headers: { 'if-match': seen.headers.get('etag') ?? '' },
            body: { validity: 'valid with deviation', note: one.note },
          })
        : seen;
    if (status === 201) one.acknowledged = true;
    else if (status !== 503) this.unexpected.push(`${one.run}: ${status} ${JSON.stringify(body)}`);
  }
}
