/**
 * Runs the steps once, whichever way the end comes: Ctrl-C, a service manager's signal, or the parent's death.
 * `npm start` does not pass signals on to this process, so the parent is watched too.
 */
export function onShutdown(steps: () => Promise<void>): void {
  let ending = false;
  const end = () => {
    if (ending) return;
    ending = true;
    steps().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error('breakbook: could not stop cleanly:', error);
        process.exit(70);
      },
    );
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end);
  if (process.env.npm_lifecycle_event !== 'start') return;
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) end();
  }, 500).unref();
}
