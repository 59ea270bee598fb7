import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, parseCanonicalJson } from './canonical-json.js';

function double(bits: bigint): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, bits);
  return view.getFloat64(0);
}

describe('canonicalJson', () => {
  // RFC 8785, section 3.2.2 (input) and 3.2.4 (the bytes expected, in hexadecimal).
  it('gives the bytes of the sample object of RFC 8785', () => {
    const input: unknown = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    const expected = `7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72
      75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a
      5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31
      65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37
      5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30
      30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d`.replaceAll(/\s/g, '');
    expect(Buffer.from(canonicalJson(input)).toString('hex')).toBe(expected);
  });

  // RFC 8785, section 3.2.3: names sorted by UTF-16 code units, so the emoji comes before U+FB33.
  it('sorts names as RFC 8785 sorts them', () => {
    const input: unknown = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`);
    expect([...canonicalJson(input).matchAll(/:"([^"]*)"/g)].map((match) => match[1])).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  // Test data named by RFC 8785, appendix I: testdata/{input,output} of cyberphone/json-canonicalization.
  it.each([
    [
      '{"1": {"f": {"f": "hi","F": 5} ,"\\n": 56.0}, "10": { }, "": "empty", "a": { }, "111": [ { } ], "A": { }}',
      '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{}],"A":{},"a":{}}',
    ],
    [
      '{"</script>": "Browser Challenge", "\\u0080": "Control\\u007f"}',
      '{"</script>":"Browser Challenge","\u0080":"Control\u007f"}',
    ],
  ])('writes %s canonically', (input, expected) => {
    expect(canonicalJson(JSON.parse(input))).toBe(expected);
  });

  // RFC 8785, appendix B, every finite row.
  it.each([
    [0x0000000000000000n, '0'],
    [0x8000000000000000n, '0'],
    [0x0000000000000001n, '5e-324'],
    [0x8000000000000001n, '-5e-324'],
    [0x7fefffffffffffffn, '1.7976931348623157e+308'],
    [0xffefffffffffffffn, '-1.7976931348623157e+308'],
    [0x4340000000000000n, '9007199254740992'],
    [0xc340000000000000n, '-9007199254740992'],
    [0x4430000000000000n, '295147905179352830000'],
    [0x44b52d02c7e14af5n, '9.999999999999997e+22'],
    [0x44b52d02c7e14af6n, '1e+23'],
    [0x44b52d02c7e14af7n, '1.0000000000000001e+23'],
    [0x444b1ae4d6e2ef4en, '999999999999999700000'],
    [0x444b1ae4d6e2ef4fn, '999999999999999900000'],
    [0x444b1ae4d6e2ef50n, '1e+21'],
    [0x3eb0c6f7a0b5ed8cn, '9.999999999999997e-7'],
    [0x3eb0c6f7a0b5ed8dn, '0.000001'],
    [0x41b3de4355555553n, '333333333.3333332'],
    [0x41b3de4355555554n, '333333333.33333325'],
    [0x41b3de4355555555n, '333333333.3333333'],
    [0x41b3de4355555556n, '333333333.3333334'],
    [0x41b3de4355555557n, '333333333.33333343'],
    [0xbecbf647612f3696n, '-0.0000033333333333333333'],
    [0x43143ff3c1cb0959n, '1424953923781206.2'],
  ])('writes the double %s as %s', (bits, expected) => {
    expect(canonicalJson(double(bits))).toBe(expected);
  });

  it('writes numbers so that they read back as the same double', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (number) => {
        expect(JSON.parse(canonicalJson(number))).toBe(number === 0 ? 0 : number);
      }),
    );
  });

  // RFC 8785, sections 3.2.2.2 and 3.2.2.3 and appendix B, last rows: these must end in an error.
  it.each([
    ['half a surrogate pair', { name: 'Dunlin \ud83d' }, 'half of a surrogate pair at "/name"'],
    ['half a surrogate pair in a name', { 'a\udc00': 1 }, 'half of a surrogate pair'],
    ['NaN', { peak: [1, Number.NaN] }, 'cannot hold NaN at "/peak/1"'],
    ['infinity', double(0x7ff0000000000000n), 'cannot hold Infinity'],
    ['undefined in a list', [undefined], 'type undefined at "/0"'],
    ['a hole in a list', new Array(1), 'type undefined at "/0"'],
    ['a bigint', { 'a/b': 1n }, 'type bigint at "/a~1b"'],
    ['a function', () => 1, 'type function'],
    ['a date', new Date(0), 'an instance of Date'],
    ['a map', new Map(), 'an instance of Map'],
  ])('refuses %s', (_, value, message) => {
    expect(() => canonicalJson(value)).toThrow(message);
  });

  it('refuses a value that contains itself, but not one that comes twice', () => {
    const circle: { itself?: unknown } = {};
    circle.itself = circle;
    expect(() => canonicalJson(circle)).toThrow('contains itself at "/itself"');
    const part = { a: 1 };
    expect(canonicalJson([part, part])).toBe('[{"a":1},{"a":1}]');
  });

  it('gives one text for a value however its members are ordered, and leaves out undefined ones', () => {
    expect(canonicalJson({ b: 1, a: { d: 2, c: undefined } })).toBe(canonicalJson({ a: { d: 2 }, b: 1 }));
  });
});

describe('parseCanonicalJson', () => {
  it('reads what canonicalJson wrote', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value);
        expect(canonicalJson(parseCanonicalJson(text))).toBe(text);
      }),
    );
  });

  it.each(['{"b":1,"a":2}', '{"a":1.0}', '{"a": 1}', '{"a":1,"a":1}', '"\\u0041"', ' 1'])('refuses %s', (text) => {
    expect(() => parseCanonicalJson(text)).toThrow('not in the canonical form');
  });
});
