import net from 'node:net';

const LOOPBACK = /^(localhost|127\.\d+\.\d+\.\d+|::1|::ffff:127\.\d+\.\d+\.\d+)$/;

/**
 * Notes every connection that this process opens to another machine, until it is stopped. Whatever opens one, fetch and
 * TLS among them, comes through `connect` of a socket. `opened` counts all there were, so that one sees the watch works.
 */
export function watchConnections(): { outgoing: string[]; opened(): number; stop(): void } {
  const { connect } = net.Socket.prototype;
  const outgoing: string[] = [];
  let opened = 0;
  net.Socket.prototype.connect = function (this: net.Socket, ...given: unknown[]) {
    const host = hostOf(given);
    opened += 1;
    if (host !== undefined && !LOOPBACK.test(host)) outgoing.push(host);
    return Reflect.apply(connect, this, given);
  } as typeof connect;
  return {
    outgoing,
    opened: () => opened,
    stop: () => {
      net.Socket.prototype.connect = connect;
    },
  };
}

/** Where to: the ways of calling `connect`, and the one in which Node calls it itself. Undefined for a socket file. */
function hostOf(given: readonly unknown[]): string | undefined {
  const [first, second] = Array.isArray(given[0]) ? given[0] : given;
  if (typeof first === 'object' && first !== null) {
    const { host, path } = first as { host?: string; path?: unknown };
    return typeof path === 'string' ? undefined : (host ?? 'localhost');
  }
  if (typeof first === 'string' && !/^\d+$/.test(first)) return undefined;
  return typeof second === 'string' ? second : 'localhost';
}
