import { randomInt } from 'node:crypto';
import { wordlist } from '@scure/bip39/wordlists/english.js';

/** Each word is one of 2048, which is 11 bits; seven are 77, more than anybody can try. */
const WORDS = 7;

/** A passphrase that nobody chose: seven words drawn at random, to be typed by a person. */
export function drawPassphrase(): string {
  return Array.from({ length: WORDS }, () => wordlist[randomInt(wordlist.length)]).join(' ');
}
