import { type MarginStripInput, type TracePlotInput, type WeibullPlotInput } from '@breakbook/figures';
import {
  type Duty,
  type Lot,
  type LotBundle,
  type LotOutcome,
  type LotResult,
  type NotEvaluated,
  type Problem,
  type Reading,
  type Run,
  type RunJudgement,
  type Specimen,
} from '@breakbook/lab';

/** The answers of the service, as its addresses give them. */

/** Who is signed in. */
export interface Myself {
  lab: { lab: string; name: string };
  person: string;
  name: string;
  role: string;
  duties: Duty[];
  /** The passphrase was given by somebody else; until an own one is chosen nothing else is open. */
  givenPassphrase: boolean;
}

/** A piece of a list, and where the next begins. */
export interface PageOf<T> {
  items: T[];
  next: string | null;
}

export interface LotInList {
  lot: string;
  kind: Lot['kind'];
  size: number;
  product: { product: string; name: string };
  /** Closed to further specimens and runs. */
  closed: boolean;
  /** What the last evaluation came to. */
  evaluation: LotStanding | NotEvaluated;
}

export interface LotStanding {
  plan: { plan: string; revision: number };
  outcome: LotOutcome;
  sentence: string;
  strip?: MarginStripInput;
}

export interface LotAnswer {
  bundle: LotBundle;
  lot: LotResult;
  judgements: RunJudgement[];
  readings: Reading[];
  /** Runs whose files were refused, with what was wrong in them. */
  refusals: { run: string; problems: Problem[] }[];
  figures: LineFigures[];
}

export interface LineFigures {
  line: string;
  marginStrip: MarginStripInput | null;
  probabilityPlot: WeibullPlotInput | null;
}

export interface RunAnswer {
  run: Run;
  /** Missing where the run's files were refused. */
  reading: Reading | null;
  judgement: RunJudgement | null;
  specimen: Specimen;
  trace: TracePlotInput | null;
}
