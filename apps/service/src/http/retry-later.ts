import { type Problem, Refusal } from '@breakbook/lab';

/** A refusal that holds for a while only, and says how long. */
export class RetryLater extends Refusal {
  constructor(
    readonly seconds: number,
    problem: Problem,
  ) {
    super(problem);
  }
}
