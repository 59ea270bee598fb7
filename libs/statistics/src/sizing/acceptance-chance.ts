import { noncentralT } from '../distributions/noncentral-t.js';
import { normalQuantile } from '../distributions/normal.js';

/**
 * The chance that a variables plan accepts, mean - k s >= limit for a sample of n normal values, when the limit lies
 * `score` standard deviations below the mean of the population:
 *
 *     P(T >= k sqrt n),     T noncentral t with n - 1 degrees of freedom and shift score sqrt n
 *
 * Source: Lieberman and Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457-516; ISO 3951-1:2013.
 */
export function variablesAcceptance(n: number, k: number, score: number): number {
  return noncentralT(k * Math.sqrt(n), n - 1, score * Math.sqrt(n)).above;
}

/** How many standard deviations below the mean a limit lies that this share of a normal population lies below. */
export function scoreOfShareBelow(share: number): number {
  return -normalQuantile(share);
}
