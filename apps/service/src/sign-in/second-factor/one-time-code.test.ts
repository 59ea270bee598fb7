import { describe, expect, it } from 'vitest';
import { base32 } from './base32.js';
import { codeOf, stepAt, stepOfCode } from './one-time-code.js';

const ascii = (text: string) => new TextEncoder().encode(text);

describe('codeOf', () => {
  // RFC 4226, appendix D.
  const PUBLISHED = '755224 287082 359152 969429 338314 254676 287922 162583 399871 520489';
  it.each(PUBLISHED.split(' ').map((code, counter) => ({ counter, code })))(
    'gives for counter $counter the published $code',
    ({ counter, code }) => {
      expect(codeOf(ascii('12345678901234567890'), counter)).toBe(code);
    },
  );

  // RFC 6238, appendix B: the same secret, repeated to the length of each hash.
  const SECRETS = { sha1: 20, sha256: 32, sha512: 64 };
  it.each([
    [59, '94287082', '46119246', '90693936'],
    [1_111_111_109, '07081804', '68084774', '25091201'],
    [1_111_111_111, '14050471', '67062674', '99943326'],
    [1_234_567_890, '89005924', '91819424', '93441116'],
    [2_000_000_000, '69279037', '90698825', '38618901'],
    [20_000_000_000, '65353130', '77737706', '47863826'],
  ])('gives %d seconds after 1970 the published codes', (seconds, ...codes) => {
    for (const [n, [hash, length]] of Object.entries(SECRETS).entries())
      expect(codeOf(ascii('1234567890'.repeat(7).slice(0, length)), stepAt(seconds * 1000), { digits: 8, hash })).toBe(
        codes[n],
      );
  });
});

describe('stepOfCode', () => {
  const secret = ascii('12345678901234567890');
  const now = 1_234_567_890_000;
  it('takes the code of this half minute and of the two beside it, and no other', () => {
    for (const beside of [-3, -2, -1, 0, 1, 2, 3]) {
      const step = stepAt(now) + beside;
      expect(stepOfCode(secret, codeOf(secret, step), now)).toBe(Math.abs(beside) <= 1 ? step : undefined);
    }
  });

  it.each(['', '00590', '0059244', 'abcdef', '００５９２４'])('does not take %j', (typed) => {
    expect(stepOfCode(secret, typed, now)).toBeUndefined();
  });
});

// RFC 4648, 10; written without padding, as key addresses of code generators want it.
it.each([
  ['', ''],
  ['f', 'MY'],
  ['fo', 'MZXQ'],
  ['foo', 'MZXW6'],
  ['foob', 'MZXW6YQ'],
  ['fooba', 'MZXW6YTB'],
  ['foobar', 'MZXW6YTBOI'],
])('base32 of %j is %j', (text, written) => {
  expect(base32(ascii(text))).toBe(written);
});
