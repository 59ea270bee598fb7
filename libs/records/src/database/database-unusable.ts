/** The database cannot be used as it is; the message says why and what to do, for a person at a terminal. */
export class DatabaseUnusable extends Error {
  override name = 'DatabaseUnusable';
}
