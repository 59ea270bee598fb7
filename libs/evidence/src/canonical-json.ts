/**
 * The one way a value is written before it is hashed or signed (RFC 8785, JSON Canonicalization
 * Scheme): members sorted by the UTF-16 code units of their names, no white space, numbers and
 * strings as ECMAScript writes them.
 *
 * A member whose value is undefined is left out, as JSON.stringify leaves it out, so that a value
 * has one digest before and after it was stored. Everything else that JSON cannot hold is refused,
 * with the place named: a digest of something guessed proves nothing.
 */
export function canonicalJson(value: unknown): string {
  return write(value, '', new Set());
}

/** Reads what `canonicalJson` wrote, and nothing else: the same value written another way is refused. */
export function parseCanonicalJson(text: string): unknown {
  const value: unknown = JSON.parse(text);
  if (canonicalJson(value) !== text) {
    throw new Error('This JSON is not in the canonical form of RFC 8785, so it is not what was hashed.');
  }
  return value;
}

function write(value: unknown, path: string, within: Set<object>): string {
  switch (typeof value) {
    case 'string':
      return writeString(value, path);
    case 'number':
      return writeNumber(value, path);
    case 'boolean':
      return String(value);
    case 'object':
      return value === null ? 'null' : writeNested(value, path, within);
    default:
      throw cannot(path, `a value of type ${typeof value}`, 'text, a number, true, false, null, a list or an object');
  }
}

function writeNested(value: object, path: string, within: Set<object>): string {
  if (within.has(value)) throw cannot(path, 'a value that contains itself', 'a value that ends');
  within.add(value);
  const text = Array.isArray(value) ? writeList(value, path, within) : writeObject(value, path, within);
  within.delete(value);
  return text;
}

function writeList(list: unknown[], path: string, within: Set<object>): string {
  // Array.from, because map passes over the holes of a sparse list.
  return `[${Array.from(list, (item, index) => write(item, `${path}/${index}`, within)).join(',')}]`;
}

function writeObject(value: object, path: string, within: Set<object>): string {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) {
    throw cannot(
      path,
      `an instance of ${value.constructor.name}`,
      'a plain object, or this value turned into text first',
    );
  }
  const members = Object.entries(value)
    .filter(([, member]) => member !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, member]) => {
      const place = `${path}/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`;
      return `${writeString(name, place)}:${write(member, place, within)}`;
    });
  return `{${members.join(',')}}`;
}

function writeString(text: string, path: string): string {
  // Encoded as UTF-8 a lone surrogate becomes U+FFFD: what is hashed would not be what was sent.
  if (/\p{Surrogate}/u.test(text)) throw cannot(path, 'text with half of a surrogate pair', 'well-formed Unicode text');
  return JSON.stringify(text);
}

function writeNumber(number: number, path: string): string {
  if (!Number.isFinite(number)) throw cannot(path, String(number), 'a finite number');
  return JSON.stringify(number);
}

function cannot(path: string, found: string, expected: string): TypeError {
  return new TypeError(`Canonical JSON cannot hold ${found} at "${path}" (JSON Pointer); expected ${expected}.`);
}
