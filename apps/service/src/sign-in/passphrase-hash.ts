import { hash, type Options, verify } from '@node-rs/argon2';

/**
 * argon2id (the library's own choice) with 19 MiB, two passes and one lane: the first of the settings that the OWASP Password Storage Cheat Sheet
 * names as the least. Raised here, every passphrase is hashed anew when its owner next signs in.
 */
const COST: Required<Pick<Options, 'memoryCost' | 'timeCost' | 'parallelism'>> = {
  memoryCost: 19 * 1024,
  timeCost: 2,
  parallelism: 1,
};

/** One passphrase, whichever way its letters were composed by the keyboard (SP 800-63B: NFKC before hashing). */
function composed(passphrase: string): string {
  return passphrase.normalize('NFKC');
}

/** A passphrase as it is kept: with its salt and costs, in the PHC string format. */
export function hashPassphrase(passphrase: string): Promise<string> {
  return hash(composed(passphrase), COST);
}

/** Is this the passphrase that was hashed? */
export function isPassphrase(kept: string, passphrase: string): Promise<boolean> {
  return verify(kept, composed(passphrase));
}

/** Was this hash made at a lower cost than is asked for now? */
export function isOutdated(kept: string): boolean {
  const costs = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$/.exec(kept);
  if (!costs) return true;
  const [, memory, passes, lanes] = costs.map(Number) as [number, number, number, number];
  return memory < COST.memoryCost || passes < COST.timeCost || lanes !== COST.parallelism;
}
