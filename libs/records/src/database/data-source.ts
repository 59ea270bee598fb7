import 'reflect-metadata';
import type pg from 'pg';
import { DataSource } from 'typeorm';
import { ENTITIES } from '../entities/index.js';
import { SnakeCase } from './naming.js';

/**
 * The service's pool of connections. Tables come from the migrations alone, and parameters are never logged: they hold
 * what people wrote. What is asked on a connection is sent at once, behind what is not answered yet: between an entry of
 * the ledger and its commit, for which others wait, lies no way there and back.
 */
export function openDataSource(connection: pg.ClientConfig, poolSize = 10): Promise<DataSource> {
  return new DataSource({
    type: 'postgres',
    entities: ENTITIES,
    namingStrategy: new SnakeCase(),
    synchronize: false,
    migrationsRun: false,
    installExtensions: false,
    logging: false,
    poolSize,
    extra: { ...connection, application_name: 'breakbook', pipeline: true, onConnect: hearErrors },
  }).initialize();
}

/**
 * A connection that breaks says so by an event, and one that nobody hears ends the process. Between taking a connection
 * out of the pool and listening on it TypeORM waits a moment; a server that dies in it would take the service along.
 * The query that follows fails, which is all that is to be known of it.
 */
function hearErrors(client: pg.Client): void {
  client.on('error', () => {});
}
