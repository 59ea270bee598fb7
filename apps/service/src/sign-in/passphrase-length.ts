/** Characters of a passphrase that somebody chooses. */
export const SHORTEST = 15;
export const LONGEST = 256;
