/**
 * The rooms that reckon and lay out. They and the libraries behind them are a third of all the files that the service
 * can load, and none is needed to answer that it is there; so each is loaded when it is first asked for, and a service
 * that was killed is back the sooner. A program that serves loads them all as soon as it listens.
 */
export const acceptance = () => import('@breakbook/acceptance');
export const reports = () => import('@breakbook/reports');
export const signals = () => import('@breakbook/signals');
export const statistics = () => import('@breakbook/statistics');

/** Loads what the first requests would otherwise wait for; what every upload is checked by comes first. */
export async function loadArithmetic(): Promise<void> {
  await acceptance();
  await reports();
}
