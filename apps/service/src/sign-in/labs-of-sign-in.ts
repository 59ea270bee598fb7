import { Refusal } from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Injectable } from '@nestjs/common';

/** The labs of an installation, as far as whoever is not signed in yet may know of them: whether there are several. */
@Injectable()
export class LabsOfSignIn {
  constructor(private readonly records: Records) {}

  async several(): Promise<boolean> {
    return (await this.records.labs()).length > 1;
  }

  /**
   * Where a name is looked up. A lab that is not there has nobody: the name is looked up, and its tries counted, in the
   * first lab under a name that nobody can have, so that the answer and its time say nothing of which labs there are.
   */
  async whereSignsIn(lab: string | undefined, person: string): Promise<{ labId: string; person: string }> {
    const labs = await this.records.labs();
    const [first] = labs;
    if (!first)
      throw new Refusal({
        code: 'auth.failed',
        detail: 'There is no lab in this installation yet, and so nobody in it.',
      });
    if (lab === undefined && labs.length > 1)
      throw new Refusal({
        code: 'body.missing-field',
        pointer: '/lab',
        detail: 'There are several labs in this installation. Name the one you work in.',
      });
    const named = lab === undefined ? first : labs.find(({ key }) => key === lab);
    return named ? { labId: named.id, person } : { labId: first.id, person: `${lab}/${person}` };
  }
}
