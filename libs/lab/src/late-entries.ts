/** A day: what is entered later than that after it happened is no record of the moment (common practice, no source). */
const LATE_AFTER_MS = 24 * 60 * 60 * 1000;

/** Was this entered late? Both times stay beside it either way. */
export function isLateEntry(happenedAt: string, enteredAt: string): boolean {
  return Date.parse(enteredAt) - Date.parse(happenedAt) > LATE_AFTER_MS;
}
