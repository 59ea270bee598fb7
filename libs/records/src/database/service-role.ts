import type pg from 'pg';
import { DatabaseUnusable } from './database-unusable.js';

/**
 * The role the service works under. It owns nothing: migrations, run by the owner, grant it to read and to add rows,
 * and nothing more, so that no fault of the service can alter evidence.
 */
export const SERVICE_ROLE = 'breakbook_service';

/**
 * Makes the role where it is missing. It belongs to the server, not to one database, and so is no migration.
 *
 * On the embedded server the service signs in as this role. On an external server it signs in as the owner named in
 * DATABASE_URL and takes the role on with every connection, for which the owner must be a member of it.
 */
export async function ensureServiceRole(client: pg.ClientBase, signsIn: boolean): Promise<void> {
  try {
    await client.query(`do $$ begin
      if not exists (select from pg_roles where rolname = '${SERVICE_ROLE}') then
        create role ${SERVICE_ROLE} ${signsIn ? 'login' : 'nologin'};
      end if;
      if not pg_has_role(current_user, '${SERVICE_ROLE}', case when current_setting('server_version_num')::int < 160000 then 'member' else 'set' end) then
        grant ${SERVICE_ROLE} to current_user;
      end if;
    exception
      -- Another database of this server was made ready in the same moment.
      when duplicate_object or unique_violation then null;
    end $$`);
  } catch (error) {
    if ((error as pg.DatabaseError).code !== '42501') throw error;
    const { rows } = await client.query<{ owner: string }>('select current_user as owner');
    throw new DatabaseUnusable(
      `The database user ${rows[0]?.owner} may not create the role ${SERVICE_ROLE}, under which the service works so ` +
        'that it cannot alter evidence. Have an administrator of the server run, once: ' +
        `create role ${SERVICE_ROLE} nologin; grant ${SERVICE_ROLE} to "${rows[0]?.owner}";`,
      { cause: error },
    );
  }
}
