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
  return write(value, { names: [], within: [] });
}

/** Reads what `canonicalJson` wrote, and nothing else: the same value written another way is refused. */
export function parseCanonicalJson(text: string): unknown {
  const value: unknown = JSON.parse(text);
  if (canonicalJson(value) !== text) {
    throw new Error('This JSON is not in the canonical form of RFC 8785, so it is not what was hashed.');
  }
  return value;
}

/** Where in the value we are: put together to a JSON Pointer only where something has to be said of it. */
interface Place {
  /** Of the members and places in lists that lead here. */
  names: (string | number)[];
  /** The objects that hold this value. */
  within: object[];
}

function write(value: unknown, place: Place): string {
  switch (typeof value) {
    case 'string':
      return writeString(value, place);
    case 'number':
      return writeNumber(value, place);
    case 'boolean':
      return String(value);
    case 'object':
      return value === null ? 'null' : writeNested(value, place);
    default:
      throw cannot(place, `a value of type ${typeof value}`, 'text, a number, true, false, null, a list or an object');
  }
}

function writeNested(value: object, place: Place): string {
  if (place.within.includes(value)) throw cannot(place, 'a value that contains itself', 'a value that ends');
  place.within.push(value);
  const text = Array.isArray(value) ? writeList(value, place) : writeObject(value as Record<string, unknown>, place);
  place.within.pop();
  return text;
}

function writeList(list: unknown[], place: Place): string {
  let text = '';
  // By number, because most other ways pass over the holes of a sparse list.
  for (let index = 0; index < list.length; index += 1) {
    place.names.push(index);
    text += `${index === 0 ? '' : ','}${write(list[index], place)}`;
    place.names.pop();
  }
  return `[${text}]`;
}

function writeObject(value: Record<string, unknown>, place: Place): string {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) {
    throw cannot(
      place,
      `an instance of ${value.constructor.name}`,
      'a plain object, or this value turned into text first',
    );
  }
  let text = '';
  // Without a function to compare them, texts are sorted by their UTF-16 code units.
  for (const name of Object.keys(value).sort()) {
    const member = value[name];
    if (member === undefined) continue;
    place.names.push(name);
    text += `${text === '' ? '' : ','}${writeString(name, place)}:${write(member, place)}`;
    place.names.pop();
  }
  return `{${text}}`;
}

function writeString(text: string, place: Place): string {
  // Encoded as UTF-8 a lone surrogate becomes U+FFFD: what is hashed would not be what was sent.
  if (!text.isWellFormed()) throw cannot(place, 'text with half of a surrogate pair', 'well-formed Unicode text');
  return JSON.stringify(text);
}

function writeNumber(number: number, place: Place): string {
  if (!Number.isFinite(number)) throw cannot(place, String(number), 'a finite number');
  return JSON.stringify(number);
}

function cannot({ names }: Place, found: string, expected: string): TypeError {
  const pointer = names.map((name) => `/${String(name).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
  return new TypeError(`Canonical JSON cannot hold ${found} at "${pointer}" (JSON Pointer); expected ${expected}.`);
}
