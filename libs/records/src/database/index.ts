export * from './data-source.js';
export * from './database-unusable.js';
export * from './embedded.js';
export * from './look-into.js';
export * from './open-database.js';
export { SERVICE_ROLE } from './service-role.js';
