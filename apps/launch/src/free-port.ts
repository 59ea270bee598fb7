import net from 'node:net';

/** The port asked for, or the next free one above it within fifty. */
export async function freePort(wanted: number, host: string): Promise<number> {
  for (let port = wanted; port < wanted + 50; port++) if (await isFree(port, host)) return port;
  throw new Error(`No free port between ${wanted} and ${wanted + 49} on ${host}. Set PORT to one that is free.`);
}

function isFree(port: number, host: string): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = net.createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, host, () => probe.close(() => resolve(true)));
  });
}
