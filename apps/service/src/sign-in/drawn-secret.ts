import { createHash, randomBytes } from 'node:crypto';

/** 256 random bits, as text that fits a header. */
export function drawSecret(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a drawn secret. It cannot be guessed, so a plain digest tells nothing of it. */
export function digestOfSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}
