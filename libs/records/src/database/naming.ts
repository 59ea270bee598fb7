import { DefaultNamingStrategy } from 'typeorm';

/** Tables and columns are named in snake case: sampling_record.drawn_by_id is SamplingRecord.drawnById. */
export class SnakeCase extends DefaultNamingStrategy {
  override tableName(className: string, given?: string): string {
    return given ?? snakeCase(className);
  }

  override columnName(property: string, given?: string): string {
    return given ?? snakeCase(property);
  }
}

function snakeCase(name: string): string {
  return name.replaceAll(/(?<=[a-z0-9])[A-Z]/g, (letter) => `_${letter}`).toLowerCase();
}
