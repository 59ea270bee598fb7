import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../../../../tests/database.js';

describe('Records.change', () => {
  let database: TestDatabase;
  beforeAll(async () => {
    database = await testDatabase();
  });
  afterAll(() => database.close());
  it('runs', () => expect(database).toBeDefined());
});
