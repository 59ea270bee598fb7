/**
 * Counts the parts of a form as its bytes go by: occurrences of the delimiter at the start of a line, up to the closing
 * one (RFC 2046, 5.1.1). A reader of forms passes over a part whose head it cannot read, without a word; a file of a
 * destroyed wheel must not vanish so.
 */
export class PartCount {
  parts = 0;
  #closed = false;
  /** The end of what went by, where a delimiter may have begun. */
  #held: Buffer = Buffer.from('\r\n');
  readonly #delimiter: Buffer;

  constructor(boundary: string) {
    this.#delimiter = Buffer.from(`\r\n--${boundary}`, 'latin1');
  }

  take(chunk: Buffer): void {
    if (this.#closed) return;
    const bytes = Buffer.concat([this.#held, chunk]);
    let from = 0;
    for (;;) {
      const at = bytes.indexOf(this.#delimiter, from);
      const after = at + this.#delimiter.length;
      // The two bytes behind a delimiter tell whether it is the closing one.
      if (at < 0 || bytes.length < after + 2) {
        const kept = at < 0 ? Math.max(from, bytes.length - this.#delimiter.length + 1) : at;
        this.#held = bytes.subarray(kept);
        return;
      }
      if (bytes[after] === 0x2d && bytes[after + 1] === 0x2d) {
        this.#closed = true;
        return;
      }
      this.parts += 1;
      from = after;
    }
  }
}

/** The boundary that a content type names. */
export function boundaryOf(contentType: string): string | undefined {
  const found = /;\s*boundary=(?:"([^"]{1,200})"|([^\s;"]{1,200}))/i.exec(contentType);
  return found?.[1] ?? found?.[2];
}
