import type { ComparisonResult as ComparisonResultContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** SHA-256 of the canonical JSON of each part that a comparison rests on. */
export interface ComparisonBasis {
  declaration: string;
  reference?: string;
  alternative?: string;
  observations: string;
  custody: string;
  consents: string;
  setAside: string;
  /** Each run with its reading, as it stood. */
  runs: { run: string; sha256: string }[];
}

/** What a comparison came to by one revision, from the records as they stood. */
@Entity()
export class ComparisonResult extends Numbered {
  @Column('uuid')
  comparisonId!: string;

  @Column('uuid')
  revisionId!: string;

  /** The case it was worked out from, as canonical JSON. */
  @Column('uuid')
  recordsId!: string;

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  restsOn!: ComparisonBasis;

  @Column('jsonb', { transformer: computed })
  content!: ComparisonResultContent;
}
