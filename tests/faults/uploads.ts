import { createHash, randomUUID } from 'node:crypto';
import { burstFile, burstRun, formOf } from '../sent-runs.ts';

/** A sender waits so long, in ms, before it tries again. */
const PAUSE = 200;

/** One upload as its sender knows it. */
export interface Sent {
  run: string;
  key: string;
  sha256: string;
  /** The answer, once it was heard. */
  acknowledged?: { number: number };
  /** How often it was sent before it was answered. */
  attempts: number;
}

/** Sends runs as a rig's computer does: under a key of its own each, again and again until it is answered. */
export class Sender {
  readonly sent: Sent[] = [];
  /** Answers that no kill explains. */
  readonly unexpected: string[] = [];
  #stopped = false;
  readonly #underWay = new Set<Promise<void>>();

  constructor(
    private readonly url: string,
    private readonly cookie: string,
    private readonly nextSpecimen: () => string,
  ) {}

  /** So many at once, each followed by another, until `stop`. */
  start(atOnce: number): void {
    this.#stopped = false;
    for (let n = 0; n < atOnce; n++) {
      const line = this.#line();
      this.#underWay.add(line);
      void line.finally(() => this.#underWay.delete(line));
    }
  }

  /** Lets what is under way be answered, and begins nothing new. */
  async stop(): Promise<void> {
    this.#stopped = true;
    await Promise.all(this.#underWay);
  }

  /** One run, sent so many times at once under one key, each until it is answered: with one and the same run. */
  async crowd(atOnce: number): Promise<void> {
    const { sent, specimen, file } = this.#next();
    const heard = Array.from({ length: atOnce }, () => ({ ...sent }));
    await Promise.all(heard.map((one) => this.#untilAnswered(one, specimen, file)));
    const numbers = new Set(heard.map(({ acknowledged }) => acknowledged?.number));
    if (numbers.size !== 1)
      this.unexpected.push(`${sent.run}, under one key, was answered as ${[...numbers].join(', ')}`);
    Object.assign(sent, heard[0]);
  }

  async #line(): Promise<void> {
    while (!this.#stopped && this.unexpected.length === 0) {
      const { sent, specimen, file } = this.#next();
      await this.#untilAnswered(sent, specimen, file);
    }
  }

  #next(): { sent: Sent; specimen: string; file: string } {
    const specimen = this.nextSpecimen();
    const file = burstFile(specimen);
    const sha256 = createHash('sha256').update(file).digest('hex');
    const sent: Sent = { run: `run-${specimen}`, key: randomUUID(), sha256, attempts: 0 };
    this.sent.push(sent);
    return { sent, specimen, file };
  }

  async #untilAnswered(sent: Sent, specimen: string, file: string): Promise<void> {
    while (!sent.acknowledged && this.unexpected.length === 0) await this.#attempt(sent, specimen, file);
  }

  async #attempt(sent: Sent, specimen: string, file: string): Promise<void> {
    sent.attempts += 1;
    try {
      const answer = await fetch(`${this.url}/api/runs`, {
        method: 'POST',
        body: formOf(burstRun(specimen), { 'log.csv': file }),
        headers: { cookie: this.cookie, 'idempotency-key': sent.key },
      });
      const body = (await answer.json()) as { number: number; code?: string };
      if (answer.status === 201) {
        sent.acknowledged = body;
        return;
      }
      // Under way, or the database is away: what any client meets, and waits for.
      if (answer.status !== 503 && body.code !== 'idempotency.in-progress')
        this.unexpected.push(`${sent.run}: ${answer.status} ${JSON.stringify(body)}`);
    } catch {
      // Nobody answered.
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
}
