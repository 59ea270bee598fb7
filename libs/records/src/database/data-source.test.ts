import net from 'node:net';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { openDataSource } from './data-source.js';

/**
 * PostgreSQL 18, 54.7 Message Formats: ErrorResponse is 'E', its length, fields of a letter and a text, and a zero.
 * 57P01 is what a server sends that was told to end, or whose postmaster is gone.
 */
const FATAL = message('E', 'SFATAL\0VFATAL\0C57P01\0Mterminating connection due to unexpected postmaster exit\0\0');
/** The same page: ReadyForQuery, idle. It ends what a server says as a connection begins. */
const READY = message('Z', 'I');

let database: TestDatabase;
let server: DyingServer;
let dataSource: DataSource;
beforeAll(async () => {
  database = await testDatabase();
  server = await DyingServer.before(`${database.owner.host}/.s.PGSQL.${database.owner.port}`);
  dataSource = await openDataSource({ ...database.service, host: '127.0.0.1', port: server.port }, 2);
});
afterAll(async () => {
  await dataSource.destroy();
  await server.close();
  await database.close();
});

describe('openDataSource', () => {
  // Were the last words of the server heard by nobody, Node would end this process, and the test run would fail by that.
  it('outlives a server that dies in the moment in which it has taken a connection', async () => {
    const first = dataSource.createQueryRunner();
    await first.connect(); // So that the next query needs a new connection.
    server.dies = true;
    await expect(dataSource.query('select 1')).rejects.toThrow();
    expect(server.died).toBe(1);
    server.dies = false;
    expect(await dataSource.query('select 1 as one')).toEqual([{ one: 1 }]);
    await first.release();
  });
});

/** Stands before a server and hands everything on; while it dies, a connection that has just begun ends at once. */
class DyingServer {
  dies = false;
  died = 0;

  private constructor(
    private readonly server: net.Server,
    readonly port: number,
  ) {}

  static async before(socket: string): Promise<DyingServer> {
    const listener = net.createServer();
    await new Promise<void>((resolve) => listener.listen(0, '127.0.0.1', resolve));
    const dying = new DyingServer(listener, (listener.address() as net.AddressInfo).port);
    listener.on('connection', (client) => dying.#serve(client, net.connect(socket)));
    return dying;
  }

  close(): Promise<void> {
    return new Promise((resolve) => this.server.close(() => resolve()));
  }

  #serve(client: net.Socket, behind: net.Socket): void {
    const doomed = this.dies;
    let greeting = Buffer.alloc(0);
    client.pipe(behind);
    client.on('error', () => behind.destroy());
    behind.on('error', () => client.destroy());
    if (!doomed) {
      behind.pipe(client);
      return;
    }
    behind.on('data', (piece: Buffer) => {
      greeting = Buffer.concat([greeting, piece]);
      if (!greeting.subarray(-READY.length).equals(READY)) return;
      this.died += 1;
      // In one piece, as the last words of a killed server arrive: its reader has no moment between the two.
      client.end(Buffer.concat([greeting, FATAL]));
      behind.destroy();
    });
  }
}

function message(kind: string, content: string): Buffer {
  const length = Buffer.alloc(4);
  length.writeInt32BE(4 + Buffer.byteLength(content));
  return Buffer.concat([Buffer.from(kind), length, Buffer.from(content)]);
}
