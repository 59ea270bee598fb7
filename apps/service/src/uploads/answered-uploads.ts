import { digestOf } from '@breakbook/evidence';
import { Refusal, shown } from '@breakbook/lab';
import { type Actor, Records, type Rows } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import type { Upload } from './read-upload.js';

/** Whoever sends an upload gives it a key, so that sending it again makes nothing new. */
export interface UploadKey {
  by: Actor;
  key: string;
}

const KEY = /^[A-Za-z0-9._~:-]{8,128}$/;

/** The key of an upload, from its header. */
export function uploadKeyOf(by: Actor, header: string | string[] | undefined): UploadKey {
  const expected = 'Idempotency-Key: 8 to 128 letters, digits or . _ ~ : -';
  const action = 'Make up a new one, such as a UUID, for each run, and use it again only to send the same run again.';
  if (header === undefined)
    throw new Refusal({ code: 'idempotency.key-missing', detail: 'An upload needs a key.', expected, action });
  if (typeof header !== 'string' || !KEY.test(header))
    throw new Refusal({
      code: 'idempotency.key-invalid',
      detail: 'This is no key of an upload.',
      found: shown(String(header)),
      expected,
      action,
    });
  return { by, key: header };
}

/** The first answer to each upload: whoever did not hear it sends the same again. */
@Injectable()
export class AnsweredUploads {
  /** Uploads of this process that are not answered yet. Another process finds out at its commit. */
  readonly #underWay = new Set<string>();

  constructor(private readonly records: Records) {}

  /** Lets one upload at a time in under a key; the others are told that it is under way. */
  async alone<T>(key: UploadKey, work: () => Promise<T>): Promise<T> {
    const name = `${key.by.labId} ${key.by.personId} ${key.key}`;
    if (this.#underWay.has(name))
      throw new Refusal({
        code: 'idempotency.in-progress',
        detail: 'An upload under this key is being read.',
        action: 'Send it again in a few seconds to hear its answer.',
      });
    this.#underWay.add(name);
    try {
      return await work();
    } finally {
      this.#underWay.delete(name);
    }
  }

  /** The answer that was given to this upload before; refused where the key stood for another one. */
  async before<T>({ by, key }: UploadKey, digest: string): Promise<T | undefined> {
    const [known] = await this.records
      .read(by.labId)
      .manager.query<{ body_sha256: string; answer: T }[]>(
        'select body_sha256, answer from answered_upload where lab_id = $1 and person_id = $2 and key = $3',
        [by.labId, by.personId, key],
      );
    if (!known || known.body_sha256 === digest) return known?.answer;
    throw new Refusal({
      code: 'idempotency.mismatch',
      detail: 'Another run was sent under this key before.',
      action: 'Use a new key for each run. If this is the same run with a change in it, look at what was kept first.',
    });
  }

  /** Keeps an answer in the change that it tells of. */
  async keep(rows: Rows, { by, key }: UploadKey, digest: string, answer: object): Promise<void> {
    await rows.manager.query(
      'insert into answered_upload (lab_id, person_id, key, body_sha256, answer) values ($1, $2, $3, $4, $5)',
      [by.labId, by.personId, key, digest, JSON.stringify(answer)],
    );
  }
}

/** Of the description and of each file with its name, so that no other upload has it. */
export function digestOfUpload({ description, files }: Upload): string {
  return digestOf({ description, files: files.map(({ name, sha256 }) => ({ name, sha256 })) });
}
