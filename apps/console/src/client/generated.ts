// Made from docs/openapi.json by "npm run openapi", and never edited.
import type { ComparisonResult } from '@breakbook/lab';
import type {
  ComparisonInput,
  LotHistoryInput,
  MarginStripInput,
  ProbabilityPlotInput,
  StaircaseInput,
  TracePlotInput,
} from '@breakbook/figures';

export type AskedPhotos = { of: Line; least: number };
export type AttemptsOfLine = {
  line: Key;
  planned: number;
  runs: number;
  valid: number;
  invalid: number;
  void: number;
  notDecided: number;
  inClaim: number;
  unplanned: Key[];
};
export type Blocker = { what: string; action: string };
export type BuildVariants = { list: Paragraph; checkedBy: Key; features: { [name: string]: Line[] } };
export type BurstMedium = 'water' | 'oil' | 'air' | 'nitrogen';
export type BurstParameters = {
  despikeSamples: number;
  spikeShare: Fraction;
  failureFall: Fraction;
  failureWindow: Quantity;
  rampRate: { from: Quantity; to: Quantity };
  rampShareInBand: Fraction;
  zeroDriftShare: Fraction;
  zeroTime: Quantity;
  rangeShare: Fraction;
  gapPeriods: number;
  redundantShare: Fraction;
  holds: Hold[];
  rampBy?: 'crossings' | 'parts';
  medium?: BurstMedium;
  filledVolume?: Quantity;
  roomPressure?: Quantity;
  widthAt?: Quantity;
  compliance?: { from: Fraction; to: Fraction; departure: Fraction };
  temperature?: { from: Quantity; to: Quantity };
  airBleed?: { least: Quantity; from: Fraction; to: Fraction };
  tyreOff?: { rest: Fraction; within: Quantity; width: Quantity };
};
export type Calibration = {
  calibration: Key;
  sensor: Key;
  date: Day;
  due: Day;
  unit: UnitCode;
  asFound: LinearRelation;
  asLeft: LinearRelation;
  expandedUncertainty: number;
  k: number;
  tolerance: number;
  certificate: Line;
  traceableTo: Paragraph;
  by: Line;
};
export type CertificateState = 'in force' | 'on hold' | 'superseded' | 'withdrawn';
export type ChangedLimit = { limit: Key; revision: Revision; value?: number; lower?: number; upper?: number };
export type ChannelName = string;
export type Characteristic = {
  characteristic: string;
  title: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  value: CharacteristicValue | NotEvaluated;
  ifBroken?: CharacteristicValue | NotEvaluated;
  caution?: string;
  uncertainty?: { expanded: number; k: number; coverage?: number; components: { name: string; u: number }[] };
  source: 'trace' | 'keyed';
  steps: Step[];
};
export type CharacteristicValue =
  | { kind: 'exact' | 'atLeast' | 'atMost'; value: number }
  | { kind: 'between'; lower: number; upper: number };
export type Check = {
  check: string;
  question: string;
  outcome: 'pass' | 'flag' | 'fail' | 'not evaluated';
  finding: string;
  action?: string;
  place?: { channel: string; from: number; to: number };
  passage?: number;
};
export type ClaimEntry = { run: string; specimen: string; inClaim: boolean; because: string; result?: Result };
export type ClockZone = string;
export type ComparedGroup = { title: Line; lots: Key[] };
export type Comparison = {
  comparison: Key;
  revision: Revision;
  title: Line;
  product: Key;
  question: Paragraph;
  compared:
    | { what: 'items with a reference'; reference: ReferenceRef; items: Key[] }
    | { what: 'two groups'; first: ComparedGroup; second: ComparedGroup };
  characteristics: DeclaredCharacteristic[];
  features: Feature[];
  confidence: Share;
  correction: 'Holm' | 'Bonferroni' | 'none';
  power: Share;
  notExamined: Line[];
  blind?: { blinded: Key[]; listKeptBy: Key };
  mayGoToCourt: boolean;
  alternative?: { statement: Paragraph; reference: ReferenceRef };
  seed: number;
  declaredBy: Key;
  declaredAt: Instant;
  reason?: Paragraph;
};
export type ComparisonTool =
  | { kind: 'prediction'; distribution: Distribution; of: 'each' | 'mean'; side: Side; lots: LotsTaken }
  | { kind: 'two groups'; test: 'Welch' | 'Mann-Whitney' | 'permutation'; side: Side; unit: 'specimens' | 'lot means' }
  | { kind: 'failure modes' }
  | { kind: 'equivalence'; margin: [number, number]; unit: 'specimens' | 'lot means' }
  | { kind: 'non-inferiority'; better: 'higher' | 'lower'; margin: number; unit: 'specimens' | 'lot means' };
export type CompetenceLevel = 'trained' | 'observed' | 'authorised' | 'withdrawn';
export type Concession = {
  kind: ConcessionKind;
  lot: Key;
  limit?: LimitRef;
  departure: Paragraph;
  bounds: ConcessionBounds;
  until: Day;
  reason: Paragraph;
  risk: Paragraph;
};
export type ConcessionBounds = { quantity: number } | { serials: Line[] };
export type ConcessionKind = 'concession' | 'deviation permit';
export type ConcessionState = 'requested' | 'granted' | 'refused' | 'withdrawn';
export type ConsentOrNotice = {
  kind: 'consent' | 'notice';
  party: Line;
  about: Paragraph;
  at: Instant;
  recordedBy: Key;
};
export type ControlMode = 'constant force' | 'constant power' | 'constant lever weight';
export type CountLook = { accept: number; reject: number };
export type Criterion =
  | { kind: 'every specimen'; criterion: Key; limit: LimitRef }
  | { kind: 'failures at most'; criterion: Key; limit: LimitRef; allowed: number; looks?: CountLook[] }
  | {
      kind: 'tolerance bound';
      criterion: Key;
      limit: LimitRef;
      distribution: Distribution;
      coverage: Share;
      confidence: Share;
    }
  | {
      kind: 'zero failures';
      criterion: Key;
      limit: LimitRef;
      reliability: Share;
      confidence: Share;
      raised?: RaisedLoad;
    }
  | {
      kind: 'response energy';
      criterion: Key;
      limit: LimitRef;
      share: Share;
      confidence: Share;
      levels?: number[];
      step?: number;
    }
  | { kind: 'mean'; criterion: Key; limit: LimitRef; confidence: Share };
export type CriterionOutcome = 'met' | 'not met' | 'not yet decidable' | 'not evaluated';
export type CriterionResult = {
  criterion: string;
  kind: string;
  statement: string;
  outcome: CriterionOutcome;
  limit: LimitRef;
  external: boolean;
  unit: string;
  limitValue: number;
  numbers: { [name: string]: number | string };
  bound?: {
    value: number;
    estimate: number;
    coverage: number;
    confidence: number;
    technique: string;
    achievedConfidence: number;
  };
  boundAllModes?: { value: number } | NotEvaluated;
  pooled?: PooledLots;
  because?: string;
  possibleIf?: string;
  steps: Step[];
};
export type CriterionRisk = {
  criterion: string;
  kind: string;
  limit: string;
  atLimit?: CurvePoint;
  keeps?: number;
  curve: CurvePoint[];
  schedule?: { looks: number[]; perStageConfidence?: number; unadjusted?: number; expected?: number };
  simulation?: { replicates: number; seed: number; error: number };
  assumes: string;
  sentence: string;
};
export type CriterionRiskUnknown = {
  notEvaluated: { because: string; possibleIf: string };
  criterion: string;
  kind: string;
  limit: string;
};
export type CurvePoint = { share: number; chance: number };
export type CustodyStep =
  | 'received'
  | 'handed over'
  | 'seal opened'
  | 'sealed'
  | 'examined'
  | 'tested'
  | 'stored'
  | 'given out';
export type Customer = { name: Line; contact: Line };
export type Day = string;
export type DecisionRule = { rule: 'simple' } | { rule: 'guarded'; r: number } | { rule: 'four zones'; r: number };
export type DeclaredCharacteristic = {
  name: Key;
  title: Line;
  source: ValueSource;
  unit?: UnitCode;
  tool: ComparisonTool;
  differenceThatMatters?: number;
  betweenRigs?: { u: number; from: Paragraph };
};
export type Design = DesignFound | DesignNotHad;
export type DesignFound = {
  design: DesignName;
  n: number;
  expected?: { good: number; bad: number };
  allowed?: number;
  loadRatio?: number;
  k?: number;
  stages?: number[];
  perStageConfidence?: number;
  population: 'process' | 'lot';
  cost?: { specimens?: number; currency?: string; rigHours?: number };
  good: CurvePoint;
  bad: CurvePoint;
  keeps: number;
  curve: CurvePoint[];
  lowerShapes?: { shape: number; reliability: number }[];
  simulation?: { replicates: number; seed: number; error: number };
  assumes: string;
  sentence: string;
  notes: string[];
};
export type DesignName =
  | 'zero failures'
  | 'failures at most'
  | 'zero failures, raised load'
  | 'normal bound'
  | 'lognormal bound'
  | 'Weibull bound'
  | 'staged bound'
  | 'staircase';
export type DesignNotHad = { notEvaluated: { because: string; possibleIf: string }; design: DesignName };
export type Designs = {
  asked: DesignsAsked;
  guess: { mean: number; cv: number; from: string };
  designs: Design[];
  notes: string[];
};
export type DesignsAsked = {
  limit: { value: number; unit: UnitCode };
  coverage: Share;
  confidence: Share;
  lotSize?: number;
  guess?: { mean: number; cv: number };
  earlier?: number[][];
  power?: Share;
  good?: Share;
  bad?: Share;
  minimumSpecimens?: number;
  distribution?: 'normal' | 'lognormal' | 'weibull';
  stages?: number[];
  raised?: RaisedGuess;
  cost?: { perSpecimen?: number; currency?: Line; rigHoursPerRun?: number };
};
export type DisposalDone = { how: Paragraph; place: Line; at: Instant; by: Line };
export type DisposalObstacle = {
  kind: 'legal hold' | 'keep-until' | 'nonconformity' | 'safety flag' | 'undecided';
  what: string;
  action: string;
};
export type DisposalState = 'asked for' | 'authorised' | 'refused' | 'withdrawn' | 'carried out';
export type Disposition = {
  number: number;
  lot: Key;
  evaluation: number;
  outcome: DispositionOutcome;
  state: DispositionState;
  reason: Paragraph;
  deciders: number;
  replaces?: number;
  signatures: Signature[];
};
export type DispositionOutcome = 'accepted' | 'accepted on concession' | 'not accepted';
export type DispositionSheet = {
  sheet: 'disposition 1';
  lot: Key;
  product: Line;
  size: number;
  plan: PlanRef;
  use: Line;
  evaluation?: {
    number: number;
    outcome: LotOutcome;
    sentence: string;
    at: Instant;
    software: string;
    notes: string[];
    criteria: { line: Key; criterion: Key; statement: string; outcome: string }[];
  };
  runs: RunOnDisposition[];
  untested: Key[];
  attempts?: LotAttempts;
  retests: { number: number; line: Key; runs: number; used: Key[]; reason: Paragraph; by: Key }[];
  nonconformities: { number: number; title: Line; source: NonconformitySource; state: NonconformityState; due?: Day }[];
  concessions: {
    number: number;
    kind: ConcessionKind;
    state: ConcessionState;
    expired: boolean;
    limit?: LimitRef;
    departure: Paragraph;
    bounds: ConcessionBounds;
    until: Day;
    risk: Paragraph;
    requestedBy: Key;
    by: Key;
  }[];
  safetyFlags?: SafetyFlagShown[];
  keeping?: { recordsUntil: Day; remnantsUntil: Day };
  legalHolds?: { number: number; reference: Line }[];
  opinions?: OpinionShown[];
  missing: Blocker[];
  outcomes: OutcomeOffered[];
  dispositions: Disposition[];
};
export type DispositionState = 'waits for a second decider' | 'in force' | 'replaced';
export type Distribution = 'normal' | 'lognormal' | 'weibull' | 'distribution-free';
export type DraftAsked = {
  plan: Key;
  product: Key;
  approvedBy: Key;
  approvedOn: Day;
  use: Line;
  method: Key;
  methodRevision: Revision;
  limits: { place: Line; limit: Key; revision: Revision }[];
  specimens?: number;
  coverage?: Share;
  confidence?: Share;
  population?: 'process' | 'lot';
  shownBy?: ShownBy;
  template: TemplateName;
};
export type Duty =
  | 'define'
  | 'draw'
  | 'record'
  | 'calibrate'
  | 'review'
  | 'decide'
  | 'issue'
  | 'trace'
  | 'compare'
  | 'audit'
  | 'administer'
  | 'send';
export type EarlierSample = {
  lot: Key;
  madeTo: Day;
  line: Key;
  method: Key;
  methodRevision: Revision;
  characteristic: ChannelName;
  unit: UnitCode;
  sample: Sample;
  missing?: number;
  evaluation?: string;
};
export type EndReason = 'something broke' | 'rig limit reached' | 'programme ended' | 'stopped early' | 'rig fault';
export type Examination = {
  endReason: EndReason;
  modes: { code: string; place?: Line }[];
  partSound: 'sound' | 'not sound' | 'not examined';
  note?: Paragraph;
  withoutPhotos?: Line;
  person: Key;
  at: Instant;
};
export type FailureMode = {
  code: FailureModeCode;
  meaning: Line;
  countsAs: { [name: string]: 'failure' | 'at least' | 'none' };
  loss?: LossOfPressure;
  photos?: AskedPhotos[];
};
export type FailureModeCode = string;
export type Feature = { feature: Key; title: Line; kind: FeatureKind; howRead: Paragraph; changesItem: boolean };
export type FeatureKind =
  | 'marking'
  | 'label text'
  | 'dimension'
  | 'mass'
  | 'drilling'
  | 'shape'
  | 'ply count and order'
  | 'laboratory finding';
export type Forecast = {
  remaining: number;
  probability: number;
  error: number;
  seed: number;
  replicates: number;
  assumptions: string[];
  sentence: string;
};
export type Fraction = number;
export type GlassTransition = { dry: Quantity; wet?: Quantity; source: Line };
export type HeatParameters = {
  control: ControlMode;
  stages: HeatStage[];
  offPower: Quantity;
  powerBand: Fraction;
  powerShareInBand: Fraction;
  speedBand: Fraction;
  airSpeedBand: Fraction;
  interruptions: { most: number; longest: Quantity };
  longestGap: Quantity;
  temperatureWindow: Quantity;
  thresholds: Quantity[];
  pressureFall: Fraction;
  pressureFallTime: Quantity;
  room: { from: Quantity; to: Quantity };
  startAtMost: Quantity;
  trackDifference: { most: Quantity; longest: Quantity };
  detachedRate: number;
  tyrePressure: { at: Quantity; band: Fraction };
  steadyState?: { window: Quantity; slopeAtMost: number };
  infraredDifference?: { most: Quantity; longest: Quantity };
  recorded?: ('pads' | 'pad mass' | 'pads after' | 'tube')[];
  glassTransition?: GlassTransition;
};
export type HeatStage = { name: Line; power: Quantity; duration: Quantity; speed: Quantity; airSpeed: Quantity };
export type Hold = { name: Line; pressure: Quantity; below: number; above: number; duration: Quantity };
export type ImpactParameters = {
  series: 'single strike' | 'several points' | 'rising energy';
  mass: Quantity;
  targetEnergy: Quantity;
  energyBand: Fraction;
  gateDistance: Quantity;
  gateAboveContact?: Quantity;
  gravity: Quantity;
  baseline: Quantity;
  contactShare: Fraction;
  lowPass: Quantity;
  onsetFall: Fraction;
  guideEfficiency: Fraction;
  momentumShare: Fraction;
  secondStrike: Quantity;
  forceShareOfFullScale: Fraction;
  setUp?: ImpactSetUp;
};
export type ImpactSetUp = {
  strikePoint?: { offset: Quantity; angle: Quantity };
  pad?: { hardness: { from: Quantity; to: Quantity }; goodFor: Quantity };
  spokeTension?: { from: Quantity; to: Quantity };
  runOutAtMost?: { lateral: Quantity; radial: Quantity };
  massBand?: Fraction;
  boltTorque?: { from: Quantity; to: Quantity };
  notStruckBefore?: true;
};
export type Inspection = { method: Line; detects: Paragraph };
export type Instant = string;
export type InvalidReason =
  | 'rig fault'
  | 'sensor fault'
  | 'wrong mounting'
  | 'profile outside the method'
  | 'specimen damaged before the run'
  | 'wrong specimen'
  | 'record incomplete';
export type Key = string;
export type Lab = { lab: Key; name: Line; address: Paragraph; zone: string; secondFactor?: 'everyone' };
export type LabelCode = 'data matrix' | 'qr';
export type LabelGridName =
  | 'A4, 24 of 70 × 37 mm'
  | 'A4, 21 of 70 × 42.3 mm'
  | 'A4, 10 of 105 × 57 mm'
  | 'A4, 40 of 52.5 × 29.7 mm'
  | 'Letter, 30 of 66.7 × 25.4 mm'
  | 'Letter, 20 of 101.6 × 25.4 mm'
  | 'Letter, 14 of 101.6 × 33.9 mm'
  | 'Letter, 10 of 101.6 × 50.8 mm';
export type Language = 'en' | 'de';
export type Layout = {
  layout: Key;
  revision: Revision;
  rig: Key;
  form: 'layout 1';
  text?: LayoutText;
  header?: LayoutHeader;
  unitNames?: { written: Line; unit: UnitCode; reference?: 'gauge' | 'absolute' }[];
  time: LayoutTime;
  columns: LayoutColumn[];
  requiredMetadata: Line[];
  metadata?: 'none';
  clockZone?: ClockZone;
};
export type LayoutColumn = {
  column: Line;
  channel: ChannelName;
  scale?: number;
  noReading?: string[];
  sampledEvery?: Quantity;
};
export type LayoutHeader =
  | { kind: 'name and unit'; brackets: 'square' | 'round' }
  | { kind: 'units in the next row' }
  | { kind: 'none'; columns: { column: Line; unit?: UnitCode }[] };
export type LayoutText = {
  encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1' | 'windows-1252';
  delimiter?: 'comma' | 'semicolon' | 'tab';
  decimalMark?: 'point' | 'comma';
  thousandsMark?: 'point' | 'comma' | 'apostrophe' | 'space';
  lineEnds?: 'CR';
  commentMark?: string;
  preambleLines?: number;
  gzipUpTo?: number;
};
export type LayoutTime =
  | { column: Line; repeatedStamps?: 'spread evenly'; gapsExpected?: true; beginsBeforeZero?: true; kind: 'time' }
  | {
      column: Line;
      repeatedStamps?: 'spread evenly';
      gapsExpected?: true;
      beginsBeforeZero?: true;
      kind: 'sample number';
      rate: Quantity;
    }
  | {
      column: Line;
      repeatedStamps?: 'spread evenly';
      gapsExpected?: true;
      beginsBeforeZero?: true;
      kind: 'epoch';
      unit: 's' | 'ms' | 'us' | 'ns';
    }
  | {
      column: Line;
      repeatedStamps?: 'spread evenly';
      gapsExpected?: true;
      beginsBeforeZero?: true;
      kind: 'date-time';
      clockColumn?: Line;
      form: string;
      zone: ClockZone;
    };
export type Limit =
  | {
      bound: 'at least';
      limit: Key;
      revision: Revision;
      title: Line;
      characteristic: ChannelName;
      basis: 'governing body' | 'standard' | 'regulation' | 'customer' | 'internal';
      appliesTo: Line;
      source: Paragraph;
      edition: Line;
      inForceFrom: Day;
      approvedBy: Key;
      standing: 'confirmed by the lab' | 'example to be confirmed';
      decisionRule: DecisionRule;
      value: number;
      unit: UnitCode;
    }
  | {
      bound: 'at most';
      limit: Key;
      revision: Revision;
      title: Line;
      characteristic: ChannelName;
      basis: 'governing body' | 'standard' | 'regulation' | 'customer' | 'internal';
      appliesTo: Line;
      source: Paragraph;
      edition: Line;
      inForceFrom: Day;
      approvedBy: Key;
      standing: 'confirmed by the lab' | 'example to be confirmed';
      decisionRule: DecisionRule;
      value: number;
      unit: UnitCode;
    }
  | {
      bound: 'between';
      limit: Key;
      revision: Revision;
      title: Line;
      characteristic: ChannelName;
      basis: 'governing body' | 'standard' | 'regulation' | 'customer' | 'internal';
      appliesTo: Line;
      source: Paragraph;
      edition: Line;
      inForceFrom: Day;
      approvedBy: Key;
      standing: 'confirmed by the lab' | 'example to be confirmed';
      decisionRule: DecisionRule;
      lower: number;
      upper: number;
      unit: UnitCode;
    }
  | {
      bound: 'absent';
      limit: Key;
      revision: Revision;
      title: Line;
      characteristic: ChannelName;
      basis: 'governing body' | 'standard' | 'regulation' | 'customer' | 'internal';
      appliesTo: Line;
      source: Paragraph;
      edition: Line;
      inForceFrom: Day;
      approvedBy: Key;
      standing: 'confirmed by the lab' | 'example to be confirmed';
      decisionRule: { rule: 'simple' };
      signs: FailureModeCode[];
      inspection: Inspection;
      unit: '1';
    };
export type LimitRef = { limit: Key; revision: Revision };
export type Line = string;
export type LineCurvePoint = { share: number; atLeast: number; atMost: number };
export type LineResult = {
  line: string;
  characteristic: string;
  title: string;
  unit: string;
  planned: number;
  counts: {
    runs: number;
    valid: number;
    withDeviation: number;
    invalid: number;
    notDecided: number;
    void: number;
    inClaim: number;
  };
  entries: ClaimEntry[];
  weibull: WeibullSummary | NotEvaluated;
  summary: { n: number; mean: number; sd: number; min: number; max: number } | NotEvaluated;
  criteria: CriterionResult[];
  outliers?: OutlierFinding[];
  stages?: StageResult[];
  forecast?: Forecast | NotEvaluated;
  outcome: LotOutcome;
};
export type LineRisk = {
  line: string;
  title: string;
  specimens: number;
  criteria: (CriterionRisk | CriterionRiskUnknown)[];
  together: { curve: LineCurvePoint[]; sentence: string } | NotEvaluated;
};
export type LinearRelation = { gain: number; offset: number };
export type LossOfPressure = 'burst' | 'leak' | 'tyre off';
export type Lot = {
  lot: Key;
  product: Key;
  kind: 'pre-production' | 'production' | 'purchased';
  size: number;
  madeFrom: Day;
  madeTo: Day;
  note?: Paragraph;
  sampling?: SamplingRecord;
};
export type LotAttempts = { lines: AttemptsOfLine[]; repeated: { specimen: Key; runs: Key[] }[]; marks: string[] };
export type LotBundle = {
  lab: Lab;
  customer: Customer;
  people: Person[];
  product: Product;
  lot: Lot;
  specimens: Specimen[];
  plan: Plan;
  limits: Limit[];
  methods: Method[];
  layouts: Layout[];
  rigs: Rig[];
  sensors: Sensor[];
  calibrations: Calibration[];
  runs: Run[];
  earlier?: EarlierSample[];
};
export type LotKeeping = { recordsUntil: Day; remnantsUntil: Day; note: Paragraph };
export type LotOutcome = 'meets the plan' | 'does not meet the plan' | 'undecided';
export type LotResult = {
  lot: string;
  plan: { plan: string; revision: number };
  outcome: LotOutcome;
  sentence: string;
  lines: LineResult[];
  notes: string[];
  whatIf?: { changed: string[] };
  software: string;
};
export type LotsTaken = 'vary' | 'alike';
export type Measurement = {
  of: string;
  quantity: Quantity;
  place?: Line;
  passage?: number;
  instrument: Line;
  givenBy?: 'customer' | 'outside provider';
  person: Key;
  at: Instant;
};
export type Method =
  | {
      test: 'burst';
      method: Key;
      revision: Revision;
      title: Line;
      basis: Paragraph;
      inForceFrom: Day;
      approvedBy: Key;
      channels: MethodChannel[];
      characteristics: MethodCharacteristic[];
      failureModes: FailureMode[];
      minimumSpecimens: number;
      readiness: Paragraph[];
      parameters: BurstParameters;
    }
  | {
      test: 'heat';
      method: Key;
      revision: Revision;
      title: Line;
      basis: Paragraph;
      inForceFrom: Day;
      approvedBy: Key;
      channels: MethodChannel[];
      characteristics: MethodCharacteristic[];
      failureModes: FailureMode[];
      minimumSpecimens: number;
      readiness: Paragraph[];
      parameters: HeatParameters;
    }
  | {
      test: 'impact';
      method: Key;
      revision: Revision;
      title: Line;
      basis: Paragraph;
      inForceFrom: Day;
      approvedBy: Key;
      channels: MethodChannel[];
      characteristics: MethodCharacteristic[];
      failureModes: FailureMode[];
      minimumSpecimens: number;
      readiness: Paragraph[];
      parameters: ImpactParameters;
    }
  | {
      test: 'table';
      method: Key;
      revision: Revision;
      title: Line;
      basis: Paragraph;
      inForceFrom: Day;
      approvedBy: Key;
      channels: MethodChannel[];
      characteristics: MethodCharacteristic[];
      failureModes: FailureMode[];
      minimumSpecimens: number;
      readiness: Paragraph[];
      parameters: Record<string, never>;
    };
export type MethodChannel = {
  channel: ChannelName;
  kind: QuantityKindName;
  required: boolean;
  reference?: 'gauge' | 'absolute';
  minimumRate?: Quantity;
};
export type MethodCharacteristic = {
  characteristic: ChannelName;
  title: Line;
  kind: QuantityKindName;
  unit: UnitCode;
  reference?: 'gauge' | 'absolute';
  definition: Paragraph;
  uncertainty?: UncertaintyBudget;
};
export type MovableInstant = 'failure' | 'contact begins' | 'contact ends';
export type MovedInstant = {
  instant: MovableInstant;
  passage?: number;
  at: number;
  loss?: LossOfPressure;
  reason: Line;
  person: Key;
  movedAt: Instant;
};
export type NewCompetence = { method: Key; revision: Revision; level: CompetenceLevel; until?: Day; note: Paragraph };
export type NewDisposal = { specimens: Key[]; reason: Paragraph; how: Paragraph; exception?: Paragraph };
export type NewLegalHold = { reference: Line; reason: Paragraph; lots: Key[]; specimens: Key[] };
export type NewRetest = { line: Key; runs: number; ground: RetestGround; reason: Paragraph };
export type Nonconformity = {
  title: Line;
  source: NonconformitySource;
  found: Paragraph;
  lots: Key[];
  runs: Key[];
  specimens: Key[];
  cause?: Paragraph;
  containment?: Paragraph;
  correctiveAction?: Paragraph;
  due?: Day;
};
export type NonconformitySource = 'failed verdict' | 'lab error' | 'found by a person';
export type NonconformityState = 'open' | 'closed';
export type NotEvaluated = { notEvaluated: { because: string; possibleIf: string } };
export type Observation = {
  specimen: Key;
  feature: Key;
  seen?: Line;
  quantity?: Quantity;
  instrument?: Line;
  givenBy?: 'customer' | 'outside provider';
  provider?: Line;
  note?: Paragraph;
  photos?: string[];
  by: Key;
  at: Instant;
};
export type Opinion = { text: Paragraph; basis: Paragraph; spoken?: { to: Line; on: Day } };
export type OpinionShown = {
  text: Paragraph;
  basis: Paragraph;
  spoken?: { to: Line; on: Day };
  number: number;
  version: number;
  lot: Key;
  run?: Key;
  evaluation?: number;
  by: Key;
  name: Line;
  role: Line;
  at: string;
};
export type OpinionState = 'given' | 'withdrawn';
export type Origin = 'drawn at random' | 'hand-picked' | 'field return' | 'suspect';
export type OutcomeOffered = { outcome: DispositionOutcome; possible: boolean; because: string; deciders: number };
export type OutlierFinding = {
  run: string;
  specimen: string;
  value: number;
  side: 'low' | 'high';
  statistic: number;
  critical: number;
  level: number;
  bounds: { criterion: string; with: number; without: number | NotEvaluated }[];
  sentence?: string;
};
export type Paragraph = string;
export type PassageReading = { passage: number; title: string; file?: string; characteristics: Characteristic[] };
export type Person = { person: Key; name: Line; role: Line; duties: Duty[] };
export type Photo = {
  caption: Paragraph;
  shows?: Line;
  takenBy: Key;
  device: Line;
  takenAt: Instant;
  triggerOffset?: number;
};
export type Plan = {
  plan: Key;
  revision: Revision;
  title: Line;
  product: Key;
  approvedBy: Key;
  approvedOn: Day;
  claim: {
    statement: Paragraph;
    use: Line;
    population: 'process' | 'lot';
    modeSet: Line;
    censoring: Line;
    pooling: Pooling;
  };
  lines: PlanLine[];
};
export type PlanInWords = { claim: string[]; lines: { line: string; title: string; says: string[] }[] };
export type PlanLine = {
  line: Key;
  title: Line;
  method: Key;
  methodRevision: Revision;
  specimens: number;
  stages?: number[];
  retained?: number;
  witnesses?: number;
  limits: LimitRef[];
  criteria: Criterion[];
  combination?: { rule: 'all' } | { rule: 'any'; jointRisk: number };
  survivorsOf?: Key[];
  characteristic: ChannelName;
};
export type PlanRef = { plan: Key; revision: Revision };
export type PlanRisks = { plan: string; revision: number; lotSize?: number; lines: LineRisk[]; sentence: string };
export type PlanTemplate = {
  template: TemplateName;
  title: Line;
  about: Paragraph;
  characteristic: string;
  limits: { place: string; about: string; needed: boolean; characteristic: string }[];
  specimens: number;
  coverage: number;
  confidence: number;
  claims: string[];
};
export type PooledLots = {
  lots: { lot: string; n: number; evaluation?: string }[];
  n: number;
  test: { name: string; statistic: number; critical: number; level: number; p: number; same: boolean } | NotEvaluated;
  power: { shift: number; probability: number; error: number; seed: number; replicates: number } | NotEvaluated;
  used: boolean;
  because: string;
  sentence?: string;
};
export type Pooling =
  | 'none'
  | {
      rule: 'earlier lots';
      lots: number;
      test: 'k-sample Anderson-Darling';
      level: 0.25 | 0.1 | 0.05 | 0.025 | 0.01;
      shiftThatMatters: Share;
    };
export type PrintUnits = {
  pressure?: 'kPa' | 'bar' | '[psi]';
  temperature?: 'Cel' | '[degF]';
  energy?: 'J' | '[ft_i].[lbf_av]';
  force?: 'N' | '[lbf_av]';
  length?: 'mm' | '[in_i]';
  mass?: 'g' | '[oz_av]';
};
export type Problem = {
  code: ProblemCode;
  detail: string;
  file?: string;
  line?: number;
  column?: number;
  channel?: string;
  pointer?: string;
  parameter?: string;
  found?: string;
  expected?: string;
  action?: string;
};
export type ProblemAnswer = {
  type: string;
  title: string;
  status: number;
  code: ProblemCode;
  detail: string;
  file?: string;
  line?: number;
  column?: number;
  channel?: string;
  pointer?: string;
  parameter?: string;
  found?: string;
  expected?: string;
  action?: string;
  instance: string;
  errors?: Problem[];
  errorCount?: number;
  stored?: false | 'unread';
  unreadFileId?: string;
};
export type ProblemCode =
  | 'specimen.destroyed'
  | 'state.conflict'
  | 'unread.quota'
  | 'unread.closed'
  | 'file.missing'
  | 'file.empty'
  | 'file.too-large'
  | 'file.type-mismatch'
  | 'file.compressed'
  | 'file.encoding'
  | 'file.nul-byte'
  | 'file.control-char'
  | 'file.no-final-newline'
  | 'file.truncated'
  | 'file.name-invalid'
  | 'request.too-many-parts'
  | 'request.not-found'
  | 'request.malformed'
  | 'request.method'
  | 'request.not-acceptable'
  | 'request.no-length'
  | 'request.too-long'
  | 'csv.line-ending'
  | 'csv.delimiter'
  | 'csv.row-width'
  | 'csv.blank-line'
  | 'csv.quote'
  | 'csv.line-too-long'
  | 'csv.too-many-columns'
  | 'csv.too-many-rows'
  | 'header.duplicate-row'
  | 'header.missing'
  | 'header.no-data'
  | 'header.duplicate-channel'
  | 'header.name-invalid'
  | 'header.unknown-channel'
  | 'header.missing-channel'
  | 'run.duplicate'
  | 'run.near-duplicate'
  | 'run.too-short'
  | 'unit.missing'
  | 'unit.unknown'
  | 'unit.wrong-dimension'
  | 'unit.ambiguous'
  | 'signal.out-of-range'
  | 'signal.saturated'
  | 'signal.spike'
  | 'signal.dropout'
  | 'signal.stuck'
  | 'signal.open-circuit'
  | 'signal.below-absolute-zero'
  | 'signal.negative-pressure'
  | 'signal.swapped-channels'
  | 'signal.repeated-block'
  | 'signal.too-smooth'
  | 'signal.resolution'
  | 'signal.step'
  | 'signal.misaligned'
  | 'signal.no-event'
  | 'meta.missing'
  | 'meta.duplicate'
  | 'meta.text-invalid'
  | 'meta.too-many'
  | 'meta.date'
  | 'meta.unknown'
  | 'number.decimal-comma'
  | 'number.thousands'
  | 'number.syntax'
  | 'number.missing'
  | 'number.not-finite'
  | 'number.out-of-range'
  | 'time.duplicate'
  | 'time.not-increasing'
  | 'time.gap'
  | 'time.rate-change'
  | 'time.jitter'
  | 'time.range'
  | 'time.negative'
  | 'json.syntax'
  | 'json.encoding'
  | 'json.too-deep'
  | 'json.duplicate-key'
  | 'body.empty'
  | 'body.not-object'
  | 'body.too-large'
  | 'body.media-type'
  | 'body.missing-field'
  | 'body.unknown-field'
  | 'body.type'
  | 'body.range'
  | 'body.enum'
  | 'body.format'
  | 'body.text-invalid'
  | 'body.not-found'
  | 'query.invalid'
  | 'auth.required'
  | 'auth.forbidden'
  | 'auth.again'
  | 'auth.failed'
  | 'rate.limited'
  | 'token.revoked'
  | 'token.expired'
  | 'idempotency.key-missing'
  | 'idempotency.key-invalid'
  | 'idempotency.in-progress'
  | 'idempotency.mismatch'
  | 'version.required'
  | 'version.stale'
  | 'duty.conflict'
  | 'service.unavailable'
  | 'service.busy'
  | 'storage.full'
  | 'internal';
export type Product = {
  product: Key;
  name: Line;
  description: Paragraph;
  beadStyle: 'hooked' | 'hookless';
  brakeKind: 'rim' | 'disc';
  markedMaximum: Quantity;
  innerWidth?: Quantity;
  glassTransition?: GlassTransition;
};
export type Quantity = { value: number; unit: UnitCode; entered?: { text: string; unit: string } };
export type QuantityKindName =
  | 'pressure'
  | 'pressure rate'
  | 'pressure-time'
  | 'stress'
  | 'force'
  | 'torque'
  | 'impulse'
  | 'energy'
  | 'power'
  | 'temperature'
  | 'temperature-time'
  | 'temperature difference'
  | 'speed'
  | 'length'
  | 'mass'
  | 'time'
  | 'frequency'
  | 'acceleration'
  | 'angle'
  | 'thermal resistance'
  | 'heat capacity'
  | 'volume'
  | 'flow'
  | 'pressure per volume'
  | 'stiffness'
  | 'voltage'
  | 'hardness'
  | 'ratio'
  | 'count';
export type RaisedGuess = { loadRatio: number; shape: number; shapeSource: Paragraph; lowerShapes?: number[] };
export type RaisedLoad = {
  loadRatio: number;
  shape: number;
  shapeSource: Paragraph;
  lowerShapes: number[];
  modes: FailureModeCode[];
};
export type Reading = {
  run: string;
  method: { method: string; revision: number };
  software: string;
  files: { name: string; sha256: string; bytes: number; rows: number; numbers?: string }[];
  calibrations: { channel: string; sensor: string; calibration: string; validOnDay: boolean }[];
  flags: Problem[];
  checks: Check[];
  characteristics: Characteristic[];
  passages?: PassageReading[];
  events: TraceEvent[];
  proposedValidity: 'valid' | 'invalid' | 'needs a look';
};
export type Reference = {
  reference: Key;
  revision: Revision;
  title: Line;
  product: Key;
  madeFrom: Day;
  madeTo: Day;
  choice: Paragraph;
  units: ReferenceUnit[];
  variants?: BuildVariants;
  chosenBy: Key;
  frozenAt: Instant;
};
export type ReferenceRef = { reference: Key; revision: Revision };
export type ReferenceUnit = { specimen: Key; lot: Key; serial?: Line };
export type Result = {
  characteristic: string;
  title: string;
  unit: string;
  reference?: 'gauge' | 'absolute';
  value: CharacteristicValue | NotEvaluated;
  uncertainty?: { expanded: number; k: number };
  because: string;
  mode?: string;
  cautious?: true;
};
export type RetestGround =
  | 'invalid run'
  | 'assignable cause found'
  | 'asked for from outside'
  | 'for information, outside the claim';
export type Revision = number;
export type Rig = { rig: Key; name: Line; location: Line; placements: SensorPlacement[]; rigLimit?: Quantity };
export type RisksAsked = { plan: Plan; lotSize?: number };
export type Run = {
  run: Key;
  specimen: Key;
  planLine: Key;
  method: Key;
  methodRevision: Revision;
  rig?: Key;
  layoutRevision?: Revision;
  operator: Key;
  startedAt: Instant;
  receivedAt?: Instant;
  conditions: { [name: string]: Line | Quantity };
  passages?: RunPassage[];
  files: RunFile[];
  measurements: Measurement[];
  instants?: MovedInstant[];
  examination?: Examination;
  photos?: Photo[];
  validity?: ValidityDecision;
  readiness?: { confirmedBy: Key; at: Instant };
  deviations: Paragraph[];
};
export type RunFile = { name: string; sha256?: string };
export type RunJudgement = {
  run: string;
  specimen: string;
  planLine: string;
  validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
  validityReason?: string;
  results: Result[];
  verdicts: Verdict[];
};
export type RunOnDisposition = {
  run: Key;
  specimen: Key;
  line: Key;
  startedAt: Instant;
  operator: Key;
  validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
  validityReason?: string;
  decidedBy?: Key;
  reviewedBy?: Key;
  inClaim: boolean;
  because: string;
  verdicts: { limit: LimitRef; outcome: VerdictOutcome; external: boolean }[];
  attempt: number;
};
export type RunPassage = {
  passage: number;
  kind: 'strike' | 'stage' | 'step';
  title: Line;
  startedAt: Instant;
  place?: Line;
  file?: string;
  target?: Quantity;
  found?: 'whole' | 'damaged' | 'not examined';
};
export type SafetyFlag = {
  title: Line;
  reason: Paragraph;
  seen: Paragraph;
  doneAtOnce: Paragraph;
  lots: Key[];
  runs: Key[];
  nonconformities: number[];
  serials: Line[];
};
export type SafetyFlagShown = {
  number: number;
  title: Line;
  state: SafetyFlagState;
  raisedBy: Key;
  raisedAt: Instant;
  decision?: Paragraph;
};
export type SafetyFlagState = 'open' | 'closed';
export type Sample = { exact?: number[]; atLeast?: number[]; atMost?: number[]; between?: [number, number][] };
export type SamplingRecord = { drawnBy: Key; drawnOn: Day; rule: Paragraph; seed?: string; place: Line };
export type Sensor = { sensor: Key; description: Line; serial: Line };
export type SensorPlacement = { channel: ChannelName; sensor: Key; from: Day; to?: Day; fullScale: Quantity };
export type SetAside = { specimen: Key; because: Paragraph; by: Key; at: Instant };
export type Share = number;
export type SheetKind = 'run sheet' | 'specimen record' | 'label sheet';
export type Showable = {
  asked: ShowableAsked;
  answers: (Step | { notEvaluated: { because: string; possibleIf: string }; question: string })[];
};
export type ShowableAsked = {
  n: number;
  coverage: Share;
  confidence: Share;
  lotSize?: number;
  cv?: number;
  meanOverLimit?: number;
  power?: Share;
  shape?: number;
};
export type ShownBy =
  | { kind: 'tolerance bound'; distribution: 'normal' | 'lognormal' | 'weibull'; stages?: number[] }
  | { kind: 'zero failures'; raised?: RaisedLoad }
  | { kind: 'failures at most'; allowed: number }
  | { kind: 'response energy'; step: number };
export type Side = 'below' | 'above' | 'either';
export type Signature = { person: Key; name: Line; role: Line; at: Instant; meaning: Paragraph; shown: string };
export type Specimen = {
  specimen: Key;
  lot: Key;
  serial?: Line;
  noSerialReason?: Line;
  origin: Origin;
  receivedAt: Instant;
  condition: Paragraph;
  mass?: Quantity;
  build?: { [name: string]: Line };
};
export type SpecimenKeeping = { until: Day; note: Paragraph };
export type StageResult = {
  stage: number;
  planned: number;
  inClaim: number;
  complete: boolean;
  criteria: {
    criterion: string;
    outcome: CriterionOutcome;
    bound?: number;
    perStageConfidence?: number;
    failures?: number;
  }[];
  outcome: LotOutcome;
  sentence?: string;
};
export type Step = {
  question: string;
  numbers: { [name: string]: number | string };
  answer: string;
  formula?: string;
  source?: string;
};
export type TemplateName = 'burst' | 'brake heat' | 'impact';
export type ToldValidity = 'valid' | 'valid with deviation' | 'invalid' | 'unknown';
export type TraceEvent = {
  name: string;
  time: number;
  value: number;
  channel: string;
  passage?: number;
  loss?: LossOfPressure;
  moved?: { by: Key; proposed?: number };
};
export type UncertaintyBudget = {
  k?: number;
  coverage?: Fraction;
  components: UncertaintyComponent[];
  correlations?: { between: [Line, Line]; r: number }[];
};
export type UncertaintyComponent =
  | { from: 'calibration'; name: Line; channel: ChannelName }
  | {
      from: 'half width';
      name: Line;
      halfWidth: number;
      unit: UnitCode;
      distribution: 'rectangular' | 'triangular' | 'u-shaped';
    }
  | {
      from: 'relative half width';
      name: Line;
      halfWidth: Fraction;
      distribution: 'rectangular' | 'triangular' | 'u-shaped';
    }
  | { from: 'standard'; name: Line; u: number; unit: UnitCode };
export type UnitCode = string;
export type Validity = 'valid' | 'valid with deviation' | 'invalid' | 'void';
export type ValidityDecision = {
  validity: Validity;
  reason?: InvalidReason;
  note?: Paragraph;
  person: Key;
  at: Instant;
};
export type ValueSource =
  | { from: 'runs'; method: Key; methodRevision: Revision; characteristic: ChannelName }
  | { from: 'examination'; feature: Key };
export type Verdict = {
  limit: LimitRef;
  characteristic: string;
  outcome: VerdictOutcome;
  external: boolean;
  value?: CharacteristicValue;
  uncertainty?: { expanded: number; k: number };
  unit: string;
  limitValue: { lower?: number; upper?: number };
  acceptance: { lower?: number; upper?: number };
  guardBand: number;
  margin?: number;
  zone?: Zone;
  probabilityOfConformance?: number | NotEvaluated;
  inspection?: Inspection;
  sentence: string;
  because?: string;
  possibleIf?: string;
  steps?: Step[];
};
export type VerdictOutcome =
  | 'conforms'
  | 'conforms conditionally'
  | 'does not conform conditionally'
  | 'does not conform'
  | 'not evaluated';
export type WeibullSummary = {
  n: number;
  failures: number;
  shape: number;
  scale: number;
  shapeLimits: [number, number] | NotEvaluated;
  confidence: number;
};
export type WhatIfAsked = { plan?: PlanRef; limits?: ChangedLimit[] };
export type Zone =
  | 'inside the limit'
  | 'inside the limit, within the guard band'
  | 'outside the limit, within the guard band'
  | 'outside the limit';

/** What each method of each address takes, and what it answers. */
export interface Operations {
  'GET /api/attachments': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      lot?: Key;
      specimen?: Key;
      run?: Key;
      rig?: Key;
    };
    answer: {
      items: {
        number: number;
        of: { kind: 'lot' | 'specimen' | 'run' | 'rig'; key: Key };
        mediaType: 'image/png' | 'image/jpeg' | 'video/mp4' | 'video/quicktime' | 'application/pdf';
        width?: number;
        height?: number;
        recorded?: { local: string; zone?: string; said: 'EXIF DateTimeOriginal' | 'EXIF DateTime' | 'movie header' };
        bytes: number;
        sha256: string;
        version: number;
        at: Instant;
        by: Key;
        reason?: string;
        content: Photo;
      }[];
      next: string | null;
    };
  };
  'POST /api/attachments': {
    query: {
      lot?: Key;
      specimen?: Key;
      run?: Key;
      rig?: Key;
      caption: Paragraph;
      shows?: Line;
      takenBy: Key;
      device: Line;
      takenAt: Instant;
      triggerOffset?: number;
    };
    body: Blob;
    answer: {
      number: number;
      of: { kind: 'lot' | 'specimen' | 'run' | 'rig'; key: Key };
      mediaType: 'image/png' | 'image/jpeg' | 'video/mp4' | 'video/quicktime' | 'application/pdf';
      width?: number;
      height?: number;
      recorded?: { local: string; zone?: string; said: 'EXIF DateTimeOriginal' | 'EXIF DateTime' | 'movie header' };
      bytes: number;
      sha256: string;
      version: number;
      at: Instant;
      by: Key;
      reason?: string;
      content: Photo;
    };
  };
  'GET /api/attachments/{attachment}': {
    path: { attachment: string };
    answer: {
      number: number;
      of: { kind: 'lot' | 'specimen' | 'run' | 'rig'; key: Key };
      mediaType: 'image/png' | 'image/jpeg' | 'video/mp4' | 'video/quicktime' | 'application/pdf';
      width?: number;
      height?: number;
      recorded?: { local: string; zone?: string; said: 'EXIF DateTimeOriginal' | 'EXIF DateTime' | 'movie header' };
      bytes: number;
      sha256: string;
      version: number;
      at: Instant;
      by: Key;
      reason?: string;
      content: Photo;
    };
  };
  'PUT /api/attachments/{attachment}': {
    path: { attachment: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Photo };
    answer: {
      number: number;
      of: { kind: 'lot' | 'specimen' | 'run' | 'rig'; key: Key };
      mediaType: 'image/png' | 'image/jpeg' | 'video/mp4' | 'video/quicktime' | 'application/pdf';
      width?: number;
      height?: number;
      recorded?: { local: string; zone?: string; said: 'EXIF DateTimeOriginal' | 'EXIF DateTime' | 'movie header' };
      bytes: number;
      sha256: string;
      version: number;
      at: Instant;
      by: Key;
      reason?: string;
      content: Photo;
    };
  };
  'GET /api/attachments/{attachment}/file': { path: { attachment: string }; answer: Blob };
  'GET /api/attachments/{attachment}/photo': { path: { attachment: string }; answer: Blob };
  'GET /api/attachments/{attachment}/thumbnail': { path: { attachment: string }; answer: Blob };
  'GET /api/calibrations': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; sensor?: Key };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Calibration;
      }[];
      next: string | null;
    };
  };
  'POST /api/calibrations': {
    body: Calibration;
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Calibration;
    };
  };
  'GET /api/calibrations/{calibration}': {
    path: { calibration: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Calibration;
    };
  };
  'PUT /api/calibrations/{calibration}': {
    path: { calibration: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Calibration };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Calibration;
    };
  };
  'GET /api/calibrations/{calibration}/history': {
    path: { calibration: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Calibration }[];
      next: string | null;
    };
  };
  'GET /api/calibrations/{calibration}/runs': {
    path: { calibration: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { run: Key; number: number; startedAt: Instant; specimen: Key; lot: Key; channels: string[] }[];
      next: string | null;
    };
  };
  'GET /api/certificate-status/{token}': {
    path: { token: string };
    answer: {
      certificate: string;
      lab: string;
      product: string;
      lot: Key;
      issuedAt: Instant;
      sha256: string;
      state: CertificateState;
      since: Instant;
      reason?: string;
      replacedBy?: string;
      askedAt: Instant;
    };
  };
  'GET /api/certificates': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; lot?: Key };
    answer: {
      items: {
        number: number;
        certificate: string;
        lot: Key;
        disposition: number;
        document: number;
        state: CertificateState;
        issued: { by: Key; at: Instant };
        history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
        replacedBy?: number;
        sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
        statusPath: string;
      }[];
      next: string | null;
    };
  };
  'GET /api/certificates/{n}': {
    path: { n: string };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'POST /api/certificates/{n}/hold': {
    path: { n: string };
    body: { reason: Line };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'POST /api/certificates/{n}/release': {
    path: { n: string };
    body: { reason: Line };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'POST /api/certificates/{n}/sendings': {
    path: { n: string };
    body: { recipient: Paragraph; way: Paragraph };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'POST /api/certificates/{n}/withdrawal': {
    path: { n: string };
    body: { reason: Line };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'GET /api/comparisons': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; product?: Key; specimen?: Key };
    answer: {
      items: {
        comparison: Key;
        number: number;
        product: Key;
        title: Line;
        state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
        items?: number;
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      next: string | null;
    };
  };
  'POST /api/comparisons': {
    body: {
      comparison: Key;
      revision: Revision;
      title: Line;
      product: Key;
      question: Paragraph;
      compared:
        | { what: 'items with a reference'; reference: ReferenceRef; items: Key[] }
        | { what: 'two groups'; first: ComparedGroup; second: ComparedGroup };
      characteristics: DeclaredCharacteristic[];
      features: Feature[];
      confidence: Share;
      correction: 'Holm' | 'Bonferroni' | 'none';
      power: Share;
      notExamined: Line[];
      blind?: { blinded: Key[]; listKeptBy: Key };
      mayGoToCourt: boolean;
      alternative?: { statement: Paragraph; reference: ReferenceRef };
      seed: number;
    };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'GET /api/comparisons/{comparison}': {
    path: { comparison: string };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/comparisons/{comparison}/approval': {
    path: { comparison: string };
    body: { shown: string };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'GET /api/comparisons/{comparison}/codes': {
    path: { comparison: string };
    answer: { items: { codes: { code: Key; identity: Paragraph }[]; by: Key; at: Instant }[] };
  };
  'POST /api/comparisons/{comparison}/codes': {
    path: { comparison: string };
    body: { codes: { code: Key; identity: Paragraph }[] };
    answer: { items: { codes: { code: Key; identity: Paragraph }[]; by: Key; at: Instant }[] };
  };
  'POST /api/comparisons/{comparison}/conclusions': {
    path: { comparison: string };
    body: { result: number; shown: string; note?: Paragraph; replaces?: number; reason?: Paragraph };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/comparisons/{comparison}/consents': {
    path: { comparison: string };
    body: { kind: 'consent' | 'notice'; party: Line; about: Paragraph; at: Instant };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/comparisons/{comparison}/declining': {
    path: { comparison: string };
    body: { shown: string; because: Paragraph };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/comparisons/{comparison}/documents': {
    path: { comparison: string };
    body: { kind: 'comparison report'; paper?: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/comparisons/{comparison}/observations': {
    path: { comparison: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; specimen?: Key; feature?: Key };
    answer: {
      items: {
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Observation;
        attachments: number[];
        earlier: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Observation }[];
      }[];
      next: string | null;
    };
  };
  'POST /api/comparisons/{comparison}/observations': {
    path: { comparison: string };
    body: {
      specimen: Key;
      feature: Key;
      seen?: Line;
      quantity?: Quantity;
      instrument?: Line;
      givenBy?: 'customer' | 'outside provider';
      provider?: Line;
      note?: Paragraph;
      photos?: string[];
      at: Instant;
    };
    answer: {
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Observation;
      attachments: number[];
      earlier: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Observation }[];
    };
  };
  'PUT /api/comparisons/{comparison}/observations/{n}': {
    path: { comparison: string; n: string };
    headers: { 'if-match': string };
    body: {
      reason: Paragraph;
      content: {
        specimen: Key;
        feature: Key;
        seen?: Line;
        quantity?: Quantity;
        instrument?: Line;
        givenBy?: 'customer' | 'outside provider';
        provider?: Line;
        note?: Paragraph;
        photos?: string[];
        at: Instant;
      };
    };
    answer: {
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Observation;
      attachments: number[];
      earlier: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Observation }[];
    };
  };
  'GET /api/comparisons/{comparison}/result': {
    path: { comparison: string };
    answer: {
      number: number;
      comparison: Key;
      revision: Revision;
      at: Instant;
      by: Key;
      software: string;
      recordsSha256: string;
      restsOn: {
        declaration: string;
        reference?: string;
        alternative?: string;
        observations: string;
        custody: string;
        consents: string;
        setAside: string;
        runs: { run: Key; sha256: string }[];
      };
      changedSince: string[];
      declaredAfterResults: boolean;
      content: ComparisonResult;
      figures: { characteristic: Key; figure: ComparisonInput }[];
      sha256: string;
    };
  };
  'POST /api/comparisons/{comparison}/results': {
    path: { comparison: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/comparisons/{comparison}/results/{n}': {
    path: { comparison: string; n: string };
    answer: {
      number: number;
      comparison: Key;
      revision: Revision;
      at: Instant;
      by: Key;
      software: string;
      recordsSha256: string;
      restsOn: {
        declaration: string;
        reference?: string;
        alternative?: string;
        observations: string;
        custody: string;
        consents: string;
        setAside: string;
        runs: { run: Key; sha256: string }[];
      };
      changedSince: string[];
      declaredAfterResults: boolean;
      content: ComparisonResult;
      figures: { characteristic: Key; figure: ComparisonInput }[];
      sha256: string;
    };
  };
  'POST /api/comparisons/{comparison}/revisions': {
    path: { comparison: string };
    body: {
      reason: Paragraph;
      content: {
        comparison: Key;
        revision: Revision;
        title: Line;
        product: Key;
        question: Paragraph;
        compared:
          | { what: 'items with a reference'; reference: ReferenceRef; items: Key[] }
          | { what: 'two groups'; first: ComparedGroup; second: ComparedGroup };
        characteristics: DeclaredCharacteristic[];
        features: Feature[];
        confidence: Share;
        correction: 'Holm' | 'Bonferroni' | 'none';
        power: Share;
        notExamined: Line[];
        blind?: { blinded: Key[]; listKeptBy: Key };
        mayGoToCourt: boolean;
        alternative?: { statement: Paragraph; reference: ReferenceRef };
        seed: number;
      };
    };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'GET /api/comparisons/{comparison}/revisions/{revision}': {
    path: { comparison: string; revision: string };
    answer: {
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      content: Comparison;
      sha256: string;
    };
  };
  'POST /api/comparisons/{comparison}/set-aside': {
    path: { comparison: string };
    body: { specimen: Key; because: Paragraph };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/comparisons/{comparison}/withdrawal': {
    path: { comparison: string };
    body: { reason: Line };
    answer: {
      comparison: Key;
      number: number;
      product: Key;
      title: Line;
      state: 'declared' | 'approved' | 'declined' | 'concluded' | 'withdrawn';
      items?: number;
      revision: Revision;
      declaredBy: Key;
      declaredAt: Instant;
      reason?: Paragraph;
      before: { runs: number; observations: number };
      declaredAfterResults: boolean;
      decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      version: number;
      content: Comparison;
      sha256: string;
      inForce?: Revision;
      revisions: {
        revision: Revision;
        declaredBy: Key;
        declaredAt: Instant;
        reason?: Paragraph;
        before: { runs: number; observations: number };
        declaredAfterResults: boolean;
        decision?: { decision: 'approved' | 'declined'; by: Key; at: Instant; because?: Paragraph };
      }[];
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
      mayApprove: Key[];
      consents: ConsentOrNotice[];
      setAside: SetAside[];
      result?: number;
      conclusions: {
        conclusion: number;
        result: number;
        level: 'A' | 'B' | 'C' | 'D' | 'E';
        sentences: string[];
        signature: Signature;
        note?: Paragraph;
        replaces?: number;
        reason?: Paragraph;
        inForce: boolean;
      }[];
      hiddenFromYou: boolean;
      withdrawn?: { reason: Line; by: Key; at: Instant };
    };
  };
  'POST /api/compute': {
    body: { method: string } & { [name: string]: unknown };
    answer:
      | { method: string; result: { [name: string]: unknown } }
      | { method: string; notEvaluated: { because: string; possibleIf: string } };
  };
  'GET /api/compute/methods': {
    answer: {
      items: {
        method: string;
        question: string;
        inputs: { name: string; required: boolean; description: string }[];
        result: { name: string; description: string }[];
        assumptions: string[];
        source: string;
      }[];
    };
  };
  'GET /api/compute/schema': { answer: { [name: string]: unknown } };
  'GET /api/concessions': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; lot?: Key };
    answer: {
      items: {
        number: number;
        version: number;
        state: ConcessionState;
        expired: boolean;
        requestedBy: Key;
        requestedAt: Instant;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: Concession;
      }[];
      next: string | null;
    };
  };
  'POST /api/concessions': {
    body: Concession;
    answer: {
      number: number;
      version: number;
      state: ConcessionState;
      expired: boolean;
      requestedBy: Key;
      requestedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Concession;
    };
  };
  'GET /api/concessions/{n}': {
    path: { n: string };
    answer: {
      number: number;
      version: number;
      state: ConcessionState;
      expired: boolean;
      requestedBy: Key;
      requestedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Concession;
    };
  };
  'POST /api/concessions/{n}/grant': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph };
    answer: {
      number: number;
      version: number;
      state: ConcessionState;
      expired: boolean;
      requestedBy: Key;
      requestedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Concession;
    };
  };
  'GET /api/concessions/{n}/history': {
    path: { n: string };
    answer: { items: { version: number; state: ConcessionState; by: Key; at: Instant; reason?: Paragraph }[] };
  };
  'POST /api/concessions/{n}/refusal': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph };
    answer: {
      number: number;
      version: number;
      state: ConcessionState;
      expired: boolean;
      requestedBy: Key;
      requestedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Concession;
    };
  };
  'POST /api/concessions/{n}/withdrawal': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph };
    answer: {
      number: number;
      version: number;
      state: ConcessionState;
      expired: boolean;
      requestedBy: Key;
      requestedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Concession;
    };
  };
  'GET /api/disposals': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        number: number;
        version: number;
        state: DisposalState;
        askedBy: Key;
        askedAt: Instant;
        content: NewDisposal;
        done?: DisposalDone;
        obstacles: DisposalObstacle[];
        items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
      }[];
      next: string | null;
    };
  };
  'POST /api/disposals': {
    body: NewDisposal;
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'GET /api/disposals/{n}': {
    path: { n: string };
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'POST /api/disposals/{n}/authorisation': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'POST /api/disposals/{n}/carrying-out': {
    path: { n: string };
    headers: { 'if-match': string };
    body: DisposalDone;
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'POST /api/disposals/{n}/refusal': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'POST /api/disposals/{n}/withdrawal': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: DisposalState;
      askedBy: Key;
      askedAt: Instant;
      content: NewDisposal;
      done?: DisposalDone;
      obstacles: DisposalObstacle[];
      items: { state: DisposalState; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'GET /api/dispositions/{n}': {
    path: { n: string };
    answer: {
      number: number;
      lot: Key;
      evaluation: number;
      outcome: DispositionOutcome;
      state: DispositionState;
      reason: Paragraph;
      deciders: number;
      replaces?: number;
      signatures: Signature[];
      sheets: DispositionSheet[];
    };
  };
  'POST /api/dispositions/{n}/certificates': {
    path: { n: string };
    body: { report: number; shown: string; replaces?: { certificate: number; changed: Paragraph; because: Paragraph } };
    answer: {
      number: number;
      certificate: string;
      lot: Key;
      disposition: number;
      document: number;
      state: CertificateState;
      issued: { by: Key; at: Instant };
      history: { by: Key; at: Instant; state: CertificateState; reason?: Paragraph }[];
      replacedBy?: number;
      sent: { by: Key; at: Instant; state: CertificateState; recipient: string; way: string }[];
      statusPath: string;
    };
  };
  'POST /api/dispositions/{n}/signatures': {
    path: { n: string };
    body: { shown: string };
    answer: {
      number: number;
      lot: Key;
      evaluation: number;
      outcome: DispositionOutcome;
      state: DispositionState;
      reason: Paragraph;
      deciders: number;
      replaces?: number;
      signatures: Signature[];
      sheets: DispositionSheet[];
    };
  };
  'GET /api/document-batches/{n}': {
    path: { n: string };
    answer: {
      number: number;
      lot: Key;
      kind: SheetKind;
      at: Instant;
      by: Key;
      made: number;
      of: number;
      state: 'going on' | 'stopped' | 'complete';
      job: string | null;
      documents: number[];
    };
  };
  'POST /api/document-batches/{n}/resumption': {
    path: { n: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/document-batches/{n}/zip': { path: { n: string }; answer: Blob };
  'GET /api/documents': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      lot?: Key;
      run?: Key;
      specimen?: Key;
      comparison?: Key;
    };
    answer: {
      items: {
        number: number;
        kind: string;
        evaluation: number | null;
        lot: Key | null;
        run: Key | null;
        specimen: Key | null;
        comparison: Key | null;
        at: Instant;
        by: Key;
        software: string;
        sha256: string;
        size: number;
        signedWith: number | null;
        signedAs: number | null;
      }[];
      next: string | null;
    };
  };
  'GET /api/documents/{n}': {
    path: { n: string };
    answer: {
      number: number;
      kind: string;
      evaluation: number | null;
      lot: Key | null;
      run: Key | null;
      specimen: Key | null;
      comparison: Key | null;
      at: Instant;
      by: Key;
      software: string;
      sha256: string;
      size: number;
      signedWith: number | null;
      signedAs: number | null;
      content: unknown;
    };
  };
  'GET /api/documents/{n}.pdf': { path: { n: string }; answer: Blob };
  'POST /api/documents/{n}/signing': {
    path: { n: string };
    body: { shown: string; changed?: Paragraph; because?: Paragraph };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'POST /api/documents/check': {
    body: Blob;
    answer: {
      verdict: 'holds' | 'on-hold' | 'superseded' | 'withdrawn' | 'unknown-key' | 'altered' | 'not-recognised';
      sha256: string;
      findings: {
        asks: 'digest' | 'signature' | 'attachment' | 'ledger' | 'checkpoint';
        holds: boolean | null;
        says: string;
      }[];
      document?: { kind: string; number: string; revision: number; issuedAt: Instant };
      kept?: number;
      certificate?: { number: number; state: CertificateState };
      recomputed?: {
        numbers: number;
        since: { software: string; methods: string[] };
        now: string;
        filesRead: boolean;
        count: number;
        differences: { place: string; kept?: string; now?: string }[];
        pagesAlike: boolean;
      };
    };
  };
  'GET /api/evaluations/{n}': {
    path: { n: string };
    answer: {
      number: number;
      lot: Key;
      plan: PlanRef;
      outcome: LotOutcome;
      sentence: string;
      at: Instant;
      by: Key;
      software: string;
      documents: number[];
      result: LotResult;
      judgements: RunJudgement[];
      recordsSha256: string | null;
    };
  };
  'POST /api/evaluations/{n}/documents': {
    path: { n: string };
    body: { kind: 'lot test report'; paper?: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/jobs/{id}': {
    path: { id: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'POST /api/jobs/{id}/cancel': {
    path: { id: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/jobs/{id}/events': { path: { id: string }; answer: string };
  'GET /api/keeping': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        specimen: Key;
        lot: Key;
        origin: Origin | 'hidden until conclusions are locked';
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        keptUntil?: string;
        saidOf?: 'specimen' | 'lot';
        holds: number[];
        obstacles: DisposalObstacle[];
      }[];
      next: string | null;
    };
  };
  'GET /api/keys/{lab}': {
    path: { lab: string };
    answer: {
      form: 1;
      lab: { id: string; name: string };
      keys: {
        number: number;
        certificates: string[];
        data: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
        from: string;
        until?: string;
        revoked?: { at: string; because: string };
      }[];
      ledger: string[];
    };
  };
  'GET /api/labs': { answer: { items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Lab }[] } };
  'GET /api/labs/{lab}': {
    path: { lab: string };
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Lab };
  };
  'PUT /api/labs/{lab}': {
    path: { lab: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Lab };
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Lab };
  };
  'GET /api/labs/{lab}/history': {
    path: { lab: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Lab }[];
      next: string | null;
    };
  };
  'GET /api/layouts': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; standing?: 'last' | 'in force'; rig?: Key };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Layout;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/layouts': {
    body: Layout;
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Layout;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/layouts/{layout}': {
    path: { layout: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Layout;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/layouts/{layout}/revisions': {
    path: { layout: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Layout;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/layouts/{layout}/revisions': {
    path: { layout: string };
    body: { reason: Paragraph; content: Layout };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Layout;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/layouts/{layout}/revisions/{revision}': {
    path: { layout: string; revision: string };
    answer: {
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Layout;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'POST /api/layouts/proposals': {
    body: FormData;
    answer: {
      layout: { [name: string]: unknown };
      understood: { what: string; found: string }[];
      columns: { column: number; name: string; unit?: string; first: string[]; words: string[] }[];
      doubts: string[];
      toFill: string[];
    };
  };
  'POST /api/layouts/trials': {
    body: FormData;
    answer:
      | {
          read: true;
          bytes: number;
          sha256: string;
          rows: number;
          columns: {
            column: number;
            name: string;
            unit: string;
            channel?: string;
            readings: number;
            smallest?: number;
            largest?: number;
          }[];
          flags: Problem[];
          first: (number | null)[][];
        }
      | { read: false; problems: Problem[]; problemCount: number };
  };
  'GET /api/ledger': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { sequence: number; at: Instant; by: Key; action: string; reason?: string; hash: string }[];
      next: string | null;
    };
  };
  'GET /api/ledger/{sequence}': {
    path: { sequence: string };
    answer: {
      sequence: number;
      at: Instant;
      by: Key;
      action: string;
      reason?: string;
      hash: string;
      previous: string;
      text: string;
    };
  };
  'GET /api/ledger/{sequence}/proof': {
    path: { sequence: string };
    query?: { size?: number };
    answer: { text: string; hash: string; leaf: number; size: number; root: string; proof: string[] };
  };
  'GET /api/ledger/checkpoints': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: { items: { at: Instant; size: number; root: string; key: string; note: string }[]; next: string | null };
  };
  'POST /api/ledger/checkpoints': { answer: { at: Instant; size: number; root: string; key: string; note: string } };
  'POST /api/ledger/checkpoints/comparison': {
    body: { note: string; key: string };
    answer:
      | { holds: true; earlier: { size: number; root: string }; now: { size: number; root: string }; proof: string[] }
      | { holds: false; earlier: { size: number; root: string }; now: { size: number; root: string }; because: string };
  };
  'GET /api/ledger/consistency': {
    query: { from: number; to?: number };
    answer: { earlier: { size: number; root: string }; later: { size: number; root: string }; proof: string[] };
  };
  'GET /api/ledger/head': { answer: { lab: string; sequence: number; hash: string } };
  'GET /api/ledger/key': { answer: { origin: string; key: string } };
  'POST /api/ledger/verification': {
    answer:
      | {
          holds: true;
          entries: number;
          rows: number;
          files: number;
          checkpoints: number;
          head?: { lab: string; sequence: number; hash: string };
        }
      | { holds: false; sequence?: number; table?: string; id?: string; because: string };
  };
  'GET /api/legal-holds': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        number: number;
        state: 'in force' | 'lifted';
        reference: string;
        reason: Paragraph;
        lots: Key[];
        specimens: Key[];
        by: Key;
        at: Instant;
        lifted?: { by: Key; at: Instant; reason: Paragraph };
      }[];
      next: string | null;
    };
  };
  'POST /api/legal-holds': {
    body: NewLegalHold;
    answer: {
      number: number;
      state: 'in force' | 'lifted';
      reference: string;
      reason: Paragraph;
      lots: Key[];
      specimens: Key[];
      by: Key;
      at: Instant;
      lifted?: { by: Key; at: Instant; reason: Paragraph };
    };
  };
  'GET /api/legal-holds/{n}': {
    path: { n: string };
    answer: {
      number: number;
      state: 'in force' | 'lifted';
      reference: string;
      reason: Paragraph;
      lots: Key[];
      specimens: Key[];
      by: Key;
      at: Instant;
      lifted?: { by: Key; at: Instant; reason: Paragraph };
    };
  };
  'POST /api/legal-holds/{n}/lifting': {
    path: { n: string };
    body: { reason: Line };
    answer: {
      number: number;
      state: 'in force' | 'lifted';
      reference: string;
      reason: Paragraph;
      lots: Key[];
      specimens: Key[];
      by: Key;
      at: Instant;
      lifted?: { by: Key; at: Instant; reason: Paragraph };
    };
  };
  'GET /api/limits': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; standing?: 'last' | 'in force' };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Limit;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/limits': {
    body: Limit;
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Limit;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/limits/{limit}': {
    path: { limit: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Limit;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/limits/{limit}/revisions': {
    path: { limit: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Limit;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/limits/{limit}/revisions': {
    path: { limit: string };
    body: { reason: Paragraph; content: Limit };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Limit;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/limits/{limit}/revisions/{revision}': {
    path: { limit: string; revision: string };
    answer: {
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Limit;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/lots': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; product?: Key };
    answer: {
      items: {
        lot: Key;
        kind: 'pre-production' | 'production' | 'purchased';
        size: number;
        product: { product: Key; name: Line };
        closed: boolean;
        evaluation: { plan: PlanRef; outcome: LotOutcome; sentence: string; strip?: MarginStripInput } | NotEvaluated;
      }[];
      next: string | null;
    };
  };
  'POST /api/lots': {
    body: {
      lot: Key;
      product: Key;
      kind: 'pre-production' | 'production' | 'purchased';
      size: number;
      madeFrom: Day;
      madeTo: Day;
      note?: Paragraph;
      customer: Customer;
      sampling?: SamplingRecord;
    };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: {
        lot: Key;
        product: Key;
        kind: 'pre-production' | 'production' | 'purchased';
        size: number;
        madeFrom: Day;
        madeTo: Day;
        note?: Paragraph;
        customer: Customer;
      };
      closed: boolean;
      sampling?: SamplingRecord;
    };
  };
  'GET /api/lots/{lot}': {
    path: { lot: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: {
        lot: Key;
        product: Key;
        kind: 'pre-production' | 'production' | 'purchased';
        size: number;
        madeFrom: Day;
        madeTo: Day;
        note?: Paragraph;
        customer: Customer;
      };
      closed: boolean;
      sampling?: SamplingRecord;
    };
  };
  'PUT /api/lots/{lot}': {
    path: { lot: string };
    headers: { 'if-match': string };
    body: {
      reason: Paragraph;
      content: {
        lot: Key;
        product: Key;
        kind: 'pre-production' | 'production' | 'purchased';
        size: number;
        madeFrom: Day;
        madeTo: Day;
        note?: Paragraph;
        customer: Customer;
      };
    };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: {
        lot: Key;
        product: Key;
        kind: 'pre-production' | 'production' | 'purchased';
        size: number;
        madeFrom: Day;
        madeTo: Day;
        note?: Paragraph;
        customer: Customer;
      };
    };
  };
  'POST /api/lots/{lot}/closing': {
    path: { lot: string };
    body: { reason: Line };
    answer: { lot: Key; closed: boolean };
  };
  'GET /api/lots/{lot}/disposition': { path: { lot: string }; answer: { sheet: DispositionSheet; sha256: string } };
  'GET /api/lots/{lot}/dispositions': { path: { lot: string }; answer: { items: Disposition[] } };
  'POST /api/lots/{lot}/dispositions': {
    path: { lot: string };
    body: { outcome: DispositionOutcome; reason: Paragraph; shown: string; replaces?: number };
    answer: {
      number: number;
      lot: Key;
      evaluation: number;
      outcome: DispositionOutcome;
      state: DispositionState;
      reason: Paragraph;
      deciders: number;
      replaces?: number;
      signatures: Signature[];
      sheets: DispositionSheet[];
    };
  };
  'POST /api/lots/{lot}/document-batches': {
    path: { lot: string };
    body: {
      kind: SheetKind;
      paper?: 'A4' | 'Letter';
      language?: Language;
      units?: 'as kept' | PrintUnits;
      grid?: LabelGridName;
      code?: LabelCode;
    };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/lots/{lot}/document-batches': {
    path: { lot: string };
    answer: {
      items: {
        number: number;
        lot: Key;
        kind: SheetKind;
        at: Instant;
        by: Key;
        made: number;
        of: number;
        state: 'going on' | 'stopped' | 'complete';
        job: string | null;
      }[];
    };
  };
  'POST /api/lots/{lot}/documents': {
    path: { lot: string };
    body: {
      kind: 'label sheet';
      grid?: LabelGridName;
      code?: LabelCode;
      language?: Language;
      used?: number;
      specimens?: Key[];
    };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'POST /api/lots/{lot}/evaluations': {
    path: { lot: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/lots/{lot}/evaluations': {
    path: { lot: string };
    answer: {
      items: {
        number: number;
        lot: Key;
        plan: PlanRef;
        outcome: LotOutcome;
        sentence: string;
        at: Instant;
        by: Key;
        software: string;
        documents: number[];
      }[];
    };
  };
  'GET /api/lots/{lot}/history': {
    path: { lot: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: {
          lot: Key;
          product: Key;
          kind: 'pre-production' | 'production' | 'purchased';
          size: number;
          madeFrom: Day;
          madeTo: Day;
          note?: Paragraph;
          customer: Customer;
        };
      }[];
      next: string | null;
    };
  };
  'GET /api/lots/{lot}/keeping': {
    path: { lot: string };
    answer: {
      lot: Key;
      version: number;
      said: { recordsUntil: Day; remnantsUntil: Day; note: Paragraph; by: Key; at: Instant; reason?: Paragraph }[];
      proposal: {
        recordsUntil: Day;
        remnantsUntil: Day;
        rules: { of: string; years: number; from: string; why: string }[];
        caution: string;
      };
      specimens: {
        specimen: Key;
        lot: Key;
        origin: Origin | 'hidden until conclusions are locked';
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        keptUntil?: string;
        saidOf?: 'specimen' | 'lot';
        holds: number[];
        obstacles: DisposalObstacle[];
      }[];
    };
  };
  'PUT /api/lots/{lot}/keeping': {
    path: { lot: string };
    headers: { 'if-match': string };
    body: LotKeeping;
    answer: {
      lot: Key;
      version: number;
      said: { recordsUntil: Day; remnantsUntil: Day; note: Paragraph; by: Key; at: Instant; reason?: Paragraph }[];
      proposal: {
        recordsUntil: Day;
        remnantsUntil: Day;
        rules: { of: string; years: number; from: string; why: string }[];
        caution: string;
      };
      specimens: {
        specimen: Key;
        lot: Key;
        origin: Origin | 'hidden until conclusions are locked';
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        keptUntil?: string;
        saidOf?: 'specimen' | 'lot';
        holds: number[];
        obstacles: DisposalObstacle[];
      }[];
    };
  };
  'GET /api/lots/{lot}/old-results': {
    path: { lot: string };
    answer: {
      items: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
        table: number;
      }[];
    };
  };
  'POST /api/lots/{lot}/opening': {
    path: { lot: string };
    body: { reason: Line };
    answer: { lot: Key; closed: boolean };
  };
  'POST /api/lots/{lot}/packages': {
    path: { lot: string };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/lots/{lot}/packages': {
    path: { lot: string };
    answer: {
      items: {
        number: number;
        lot: Key;
        at: Instant;
        by: Key;
        software: string;
        ledgerSize: number;
        descriptorSha256: string;
        sha256: string;
        bytes: number;
        kept: boolean;
      }[];
    };
  };
  'GET /api/lots/{lot}/report.pdf': { path: { lot: string }; answer: Blob };
  'GET /api/lots/{lot}/retests': {
    path: { lot: string };
    answer: {
      items: {
        line: Key;
        runs: number;
        ground: RetestGround;
        reason: Paragraph;
        number: number;
        used: Key[];
        by: Key;
        at: Instant;
      }[];
    };
  };
  'POST /api/lots/{lot}/retests': {
    path: { lot: string };
    body: NewRetest;
    answer: {
      line: Key;
      runs: number;
      ground: RetestGround;
      reason: Paragraph;
      number: number;
      used: Key[];
      by: Key;
      at: Instant;
    };
  };
  'GET /api/lots/{lot}/runs/{run}': {
    path: { lot: string; run: string };
    answer: { run: Run; specimen: Specimen; reading: Reading; judgement: RunJudgement; trace: TracePlotInput | null };
  };
  'GET /api/lots/{lot}/sampling': {
    path: { lot: string };
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: SamplingRecord };
  };
  'POST /api/lots/{lot}/sampling': {
    path: { lot: string };
    body: SamplingRecord;
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: SamplingRecord };
  };
  'PUT /api/lots/{lot}/sampling': {
    path: { lot: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: SamplingRecord };
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: SamplingRecord };
  };
  'GET /api/lots/{lot}/sheet': {
    path: { lot: string };
    answer: {
      bundle: LotBundle;
      lot: LotResult;
      judgements: RunJudgement[];
      readings: Reading[];
      planInWords: PlanInWords;
      attempts: LotAttempts;
      refusals: { run: Key; problems: Problem[] }[];
      figures: {
        line: Key;
        marginStrip: MarginStripInput | null;
        probabilityPlot: ProbabilityPlotInput | null;
        strikes: StaircaseInput | null;
      }[];
    };
  };
  'POST /api/lots/{lot}/what-ifs': {
    path: { lot: string };
    body: WhatIfAsked;
    answer: {
      result: {
        lot: string;
        plan: { plan: string; revision: number };
        outcome: LotOutcome;
        sentence: string;
        lines: LineResult[];
        notes: string[];
        whatIf: { changed: string[] };
        software: string;
      };
      judgements: RunJudgement[];
    };
  };
  'GET /api/me': {
    answer: {
      lab: { lab: Key; name: Line };
      person: Key;
      name: Line;
      role: Line;
      duties: Duty[];
      givenPassphrase: boolean;
      secondFactor: 'none' | 'owed' | 'given';
      secondFactorNeeded: 'nothing' | 'signing' | 'everything';
    };
  };
  'POST /api/me/again': { body: { passphrase: string }; answer: undefined };
  'POST /api/me/code-generator': { answer: { secret: string; address: string } };
  'POST /api/me/code-generator/confirmation': { body: { code: string }; answer: { recoveryCodes: string[] } };
  'POST /api/me/code-generator/removal': { answer: undefined };
  'POST /api/me/passkeys': {
    body: {
      name: Line;
      id: string;
      clientDataJSON: string;
      attestationObject: string;
      transports: ('ble' | 'cable' | 'hybrid' | 'internal' | 'nfc' | 'smart-card' | 'usb')[];
    };
    answer: { recoveryCodes: string[] };
  };
  'POST /api/me/passkeys/{passkey}/removal': { path: { passkey: string }; answer: undefined };
  'POST /api/me/passkeys/offer': { answer: { challenge: string } & { [name: string]: unknown } };
  'POST /api/me/passphrase': { body: { current: string; passphrase: string }; answer: undefined };
  'POST /api/me/recovery-codes': { answer: { recoveryCodes: string[] } };
  'GET /api/me/second-factor': {
    answer: {
      codeGenerator: boolean;
      recoveryCodes: number;
      passkeys: { id: string; name: Line; addedAt: Instant; usedAt: Instant | null }[];
    };
  };
  'POST /api/me/second-factor': { body: { code: string }; answer: undefined };
  'POST /api/me/second-factor/passkey': {
    body: { id: string; clientDataJSON: string; authenticatorData: string; signature: string };
    answer: undefined;
  };
  'POST /api/me/second-factor/passkey/question': { answer: { challenge: string } & { [name: string]: unknown } };
  'GET /api/me/sessions': {
    answer: { items: { id: string; beganAt: Instant; seenAt: Instant; device: string; this: boolean }[] };
  };
  'POST /api/me/sessions/{session}/ending': { path: { session: string }; answer: undefined };
  'POST /api/me/sessions/ending': { answer: undefined };
  'GET /api/methods': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; standing?: 'last' | 'in force' };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Method;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/methods': {
    body: Method;
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Method;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/methods/{method}': {
    path: { method: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Method;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/methods/{method}/revisions': {
    path: { method: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Method;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/methods/{method}/revisions': {
    path: { method: string };
    body: { reason: Paragraph; content: Method };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Method;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/methods/{method}/revisions/{revision}': {
    path: { method: string; revision: string };
    answer: {
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Method;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/nonconformities': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      state?: 'open' | 'closed' | 'any';
      lot?: Key;
    };
    answer: {
      items: {
        number: number;
        version: number;
        state: NonconformityState;
        openedBy: Key;
        openedAt: Instant;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: Nonconformity;
        concerns: Key[];
      }[];
      next: string | null;
    };
  };
  'POST /api/nonconformities': {
    body: {
      title: Line;
      found: Paragraph;
      lots: Key[];
      runs: Key[];
      specimens: Key[];
      cause?: Paragraph;
      containment?: Paragraph;
      correctiveAction?: Paragraph;
      due?: Day;
    };
    answer: {
      number: number;
      version: number;
      state: NonconformityState;
      openedBy: Key;
      openedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Nonconformity;
      concerns: Key[];
    };
  };
  'GET /api/nonconformities/{n}': {
    path: { n: string };
    answer: {
      number: number;
      version: number;
      state: NonconformityState;
      openedBy: Key;
      openedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Nonconformity;
      concerns: Key[];
    };
  };
  'PUT /api/nonconformities/{n}': {
    path: { n: string };
    headers: { 'if-match': string };
    body: {
      reason: Paragraph;
      content: {
        title: Line;
        found: Paragraph;
        lots: Key[];
        runs: Key[];
        specimens: Key[];
        cause?: Paragraph;
        containment?: Paragraph;
        correctiveAction?: Paragraph;
        due?: Day;
      };
    };
    answer: {
      number: number;
      version: number;
      state: NonconformityState;
      openedBy: Key;
      openedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Nonconformity;
      concerns: Key[];
    };
  };
  'POST /api/nonconformities/{n}/closing': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: NonconformityState;
      openedBy: Key;
      openedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Nonconformity;
      concerns: Key[];
    };
  };
  'GET /api/nonconformities/{n}/history': {
    path: { n: string };
    answer: {
      items: {
        version: number;
        state: NonconformityState;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: Nonconformity;
      }[];
    };
  };
  'POST /api/nonconformities/{n}/reopening': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: NonconformityState;
      openedBy: Key;
      openedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Nonconformity;
      concerns: Key[];
    };
  };
  'GET /api/old-results': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        number: number;
        name: Line;
        note: Paragraph;
        rows: number;
        bytes: number;
        sha256: string;
        at: Instant;
        by: Key;
        flags: Problem[];
        withdrawn?: { at: Instant; by: Key; reason: Line };
      }[];
      next: string | null;
    };
  };
  'POST /api/old-results': {
    query: { name: Line; note: Paragraph };
    body: Blob;
    answer: {
      number: number;
      name: Line;
      note: Paragraph;
      rows: number;
      bytes: number;
      sha256: string;
      at: Instant;
      by: Key;
      flags: Problem[];
      withdrawn?: { at: Instant; by: Key; reason: Line };
      results: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
      }[];
    };
  };
  'GET /api/old-results/{table}': {
    path: { table: string };
    answer: {
      number: number;
      name: Line;
      note: Paragraph;
      rows: number;
      bytes: number;
      sha256: string;
      at: Instant;
      by: Key;
      flags: Problem[];
      withdrawn?: { at: Instant; by: Key; reason: Line };
      results: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
      }[];
    };
  };
  'GET /api/old-results/{table}/file': { path: { table: string }; answer: Blob };
  'POST /api/old-results/{table}/withdrawal': {
    path: { table: string };
    body: { reason: Line };
    answer: {
      number: number;
      name: Line;
      note: Paragraph;
      rows: number;
      bytes: number;
      sha256: string;
      at: Instant;
      by: Key;
      flags: Problem[];
      withdrawn?: { at: Instant; by: Key; reason: Line };
      results: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
      }[];
    };
  };
  'POST /api/old-results/trials': {
    query: { name: Line };
    body: Blob;
    answer: {
      bytes: number;
      sha256: string;
      results: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
      }[];
      flags: Problem[];
    };
  };
  'GET /api/openapi.json': { answer: { openapi: '3.1.0' } & { [name: string]: unknown } };
  'GET /api/opinions': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; lot?: Key; run?: Key };
    answer: {
      items: {
        number: number;
        version: number;
        state: OpinionState;
        lot: Key;
        run?: Key;
        evaluation?: number;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: Opinion;
      }[];
      next: string | null;
    };
  };
  'POST /api/opinions': {
    body: { text: Paragraph; basis: Paragraph; spoken?: { to: Line; on: Day }; lot?: Key; run?: Key };
    answer: {
      number: number;
      version: number;
      state: OpinionState;
      lot: Key;
      run?: Key;
      evaluation?: number;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Opinion;
    };
  };
  'GET /api/opinions/{n}': {
    path: { n: string };
    answer: {
      number: number;
      version: number;
      state: OpinionState;
      lot: Key;
      run?: Key;
      evaluation?: number;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Opinion;
    };
  };
  'PUT /api/opinions/{n}': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Opinion };
    answer: {
      number: number;
      version: number;
      state: OpinionState;
      lot: Key;
      run?: Key;
      evaluation?: number;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Opinion;
    };
  };
  'GET /api/opinions/{n}/history': {
    path: { n: string };
    answer: {
      items: {
        number: number;
        version: number;
        state: OpinionState;
        lot: Key;
        run?: Key;
        evaluation?: number;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: Opinion;
      }[];
    };
  };
  'POST /api/opinions/{n}/withdrawal': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Line };
    answer: {
      number: number;
      version: number;
      state: OpinionState;
      lot: Key;
      run?: Key;
      evaluation?: number;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: Opinion;
    };
  };
  'GET /api/packages/{n}/zip': { path: { n: string }; answer: Blob };
  'GET /api/people': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Person;
        signsIn: boolean;
      }[];
      next: string | null;
    };
  };
  'POST /api/people': {
    body: {
      person: Key;
      name: Line;
      role: Line;
      duties: (
        | 'define'
        | 'draw'
        | 'record'
        | 'calibrate'
        | 'review'
        | 'decide'
        | 'issue'
        | 'trace'
        | 'compare'
        | 'audit'
        | 'administer'
      )[];
    };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Person;
      signsIn: boolean;
      passphrase: string;
    };
  };
  'GET /api/people/{person}': {
    path: { person: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Person;
      signsIn: boolean;
    };
  };
  'PUT /api/people/{person}': {
    path: { person: string };
    headers: { 'if-match': string };
    body: { name: Line; role: Line; reason: Paragraph };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Person;
      signsIn: boolean;
    };
  };
  'POST /api/people/{person}/closing': { path: { person: string }; body: { reason: Line }; answer: undefined };
  'GET /api/people/{person}/competences': {
    path: { person: string };
    answer: {
      items: {
        method: Key;
        revision: Revision;
        level: CompetenceLevel;
        until?: Day;
        note: Paragraph;
        by: Key;
        at: Instant;
        current: boolean;
      }[];
    };
  };
  'POST /api/people/{person}/competences': {
    path: { person: string };
    body: NewCompetence;
    answer: {
      items: {
        method: Key;
        revision: Revision;
        level: CompetenceLevel;
        until?: Day;
        note: Paragraph;
        by: Key;
        at: Instant;
        current: boolean;
      }[];
    };
  };
  'PUT /api/people/{person}/duties': {
    path: { person: string };
    headers: { 'if-match': string };
    body: {
      duties: (
        | 'define'
        | 'draw'
        | 'record'
        | 'calibrate'
        | 'review'
        | 'decide'
        | 'issue'
        | 'trace'
        | 'compare'
        | 'audit'
        | 'administer'
      )[];
      reason: Paragraph;
    };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Person;
      signsIn: boolean;
    };
  };
  'GET /api/people/{person}/outside-identity': {
    path: { person: string };
    answer: { identity: { issuer: string; subject: Line } | null };
  };
  'POST /api/people/{person}/outside-identity': {
    path: { person: string };
    body: { issuer: string; subject: Line; reason: Paragraph };
    answer: undefined;
  };
  'POST /api/people/{person}/outside-identity/ending': {
    path: { person: string };
    body: { reason: Line };
    answer: undefined;
  };
  'POST /api/people/{person}/passphrase': { path: { person: string }; answer: { person: string; passphrase: string } };
  'POST /api/people/{person}/second-factor/removal': {
    path: { person: string };
    body: { reason: Line };
    answer: undefined;
  };
  'POST /api/planning/designs': { body: DesignsAsked; answer: Designs };
  'POST /api/planning/drafts': { body: DraftAsked; answer: Plan };
  'POST /api/planning/risks': { body: RisksAsked; answer: PlanRisks };
  'POST /api/planning/showable': { body: ShowableAsked; answer: Showable };
  'GET /api/planning/templates': { answer: { items: PlanTemplate[] } };
  'GET /api/plans': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      standing?: 'last' | 'in force';
      product?: Key;
    };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Plan;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/plans': {
    body: Plan;
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Plan;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/plans/{plan}': {
    path: { plan: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Plan;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/plans/{plan}/revisions': {
    path: { plan: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Plan;
        standing: {
          state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
          inForceFrom?: Day;
          proposal?: number;
          proposedBy?: Key;
          decidedBy?: Key;
          decidedAt?: Instant;
        };
      }[];
      next: string | null;
    };
  };
  'POST /api/plans/{plan}/revisions': {
    path: { plan: string };
    body: { reason: Paragraph; content: Plan };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Plan;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/plans/{plan}/revisions/{revision}': {
    path: { plan: string; revision: string };
    answer: {
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: Plan;
      standing: {
        state: 'proposed' | 'declined' | 'approved' | 'in force' | 'replaced';
        inForceFrom?: Day;
        proposal?: number;
        proposedBy?: Key;
        decidedBy?: Key;
        decidedAt?: Instant;
      };
    };
  };
  'GET /api/products': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Product;
      }[];
      next: string | null;
    };
  };
  'POST /api/products': {
    body: Product;
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Product };
  };
  'GET /api/products/{product}': {
    path: { product: string };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Product };
  };
  'PUT /api/products/{product}': {
    path: { product: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Product };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Product };
  };
  'GET /api/products/{product}/history': {
    path: { product: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Product }[];
      next: string | null;
    };
  };
  'GET /api/products/{product}/lots-over-time': {
    path: { product: string };
    answer: {
      lots: { lot: Key; madeTo: Day; outcome: LotOutcome }[];
      older: number;
      figures: { method: Key; characteristic: string; history: LotHistoryInput }[];
    };
  };
  'GET /api/products/{product}/old-results': {
    path: { product: string };
    answer: {
      items: {
        line: number;
        product: Key;
        lot: Line;
        specimen: Line;
        test: Line;
        characteristic: Line;
        unit: UnitCode;
        reference?: 'gauge' | 'absolute';
        value: CharacteristicValue;
        written: string[];
        date?: Day;
        rig?: Line;
        source: Line;
        validity: ToldValidity;
        remark?: Paragraph;
        lotKnown: boolean;
        table: number;
      }[];
    };
  };
  'GET /api/proposals': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; state?: 'waiting' | 'any' };
    answer: {
      items: {
        number: number;
        noun: 'method' | 'layout' | 'limit' | 'plan';
        key: Key;
        revision: number;
        title: Line;
        state: 'waiting' | 'approved' | 'declined';
        proposedBy: Key;
        proposedAt: Instant;
        reason?: Paragraph;
        before: Key[];
        decidedBy?: Key;
        decidedAt?: Instant;
        inForceFrom?: Day;
        because?: Paragraph;
      }[];
      next: string | null;
    };
  };
  'GET /api/proposals/{n}': {
    path: { n: string };
    answer: {
      number: number;
      noun: 'method' | 'layout' | 'limit' | 'plan';
      key: Key;
      revision: number;
      title: Line;
      state: 'waiting' | 'approved' | 'declined';
      proposedBy: Key;
      proposedAt: Instant;
      reason?: Paragraph;
      before: Key[];
      decidedBy?: Key;
      decidedAt?: Instant;
      inForceFrom?: Day;
      because?: Paragraph;
      content: Method | Layout | Limit | Plan;
      planInWords?: PlanInWords;
      sha256: string;
      follows?: number;
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
    };
  };
  'POST /api/proposals/{n}/approval': {
    path: { n: string };
    body: { shown: string };
    answer: {
      number: number;
      noun: 'method' | 'layout' | 'limit' | 'plan';
      key: Key;
      revision: number;
      title: Line;
      state: 'waiting' | 'approved' | 'declined';
      proposedBy: Key;
      proposedAt: Instant;
      reason?: Paragraph;
      before: Key[];
      decidedBy?: Key;
      decidedAt?: Instant;
      inForceFrom?: Day;
      because?: Paragraph;
      content: Method | Layout | Limit | Plan;
      planInWords?: PlanInWords;
      sha256: string;
      follows?: number;
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
    };
  };
  'POST /api/proposals/{n}/declining': {
    path: { n: string };
    body: { shown: string; because: Paragraph };
    answer: {
      number: number;
      noun: 'method' | 'layout' | 'limit' | 'plan';
      key: Key;
      revision: number;
      title: Line;
      state: 'waiting' | 'approved' | 'declined';
      proposedBy: Key;
      proposedAt: Instant;
      reason?: Paragraph;
      before: Key[];
      decidedBy?: Key;
      decidedAt?: Instant;
      inForceFrom?: Day;
      because?: Paragraph;
      content: Method | Layout | Limit | Plan;
      planInWords?: PlanInWords;
      sha256: string;
      follows?: number;
      differences: { pointer: string; place: string; kept?: string; now?: string }[];
    };
  };
  'POST /api/recomputations': {
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/recomputations': {
    answer: {
      items: {
        number: number;
        at: Instant;
        by: Key;
        software: string;
        runs: number;
        identical: number;
        different: number;
        refused: number;
        evaluations?: { evaluations: number; identical: number; different: number; refused: number };
      }[];
    };
  };
  'GET /api/recomputations/{n}': {
    path: { n: string };
    answer: {
      number: number;
      at: Instant;
      by: Key;
      software: string;
      runs: number;
      identical: number;
      different: {
        run: string;
        method: { method: string; revision: number };
        software: string;
        differences: { pointer: string; place: string; kept?: string; now?: string }[];
        count: number;
        added?: { name: string; places: number }[];
      }[];
      refused: { run: string; because: string }[];
      evaluations?: {
        evaluations: number;
        identical: number;
        different: {
          evaluation: number;
          lot: string;
          software: string;
          differences: { pointer: string; place: string; kept?: string; now?: string }[];
          count: number;
          added?: { name: string; places: number }[];
        }[];
        refused: { evaluation: number; lot: string; because: string }[];
      };
    };
  };
  'GET /api/references': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; product?: Key };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Reference;
      }[];
      next: string | null;
    };
  };
  'POST /api/references': {
    body: {
      reference: Key;
      revision: Revision;
      title: Line;
      product: Key;
      madeFrom: Day;
      madeTo: Day;
      choice: Paragraph;
      units: ReferenceUnit[];
      variants?: BuildVariants;
    };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Reference };
  };
  'GET /api/references/{reference}': {
    path: { reference: string };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Reference };
  };
  'GET /api/references/{reference}/revisions': {
    path: { reference: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Reference }[];
      next: string | null;
    };
  };
  'POST /api/references/{reference}/revisions': {
    path: { reference: string };
    body: {
      reason: Paragraph;
      content: {
        reference: Key;
        revision: Revision;
        title: Line;
        product: Key;
        madeFrom: Day;
        madeTo: Day;
        choice: Paragraph;
        units: ReferenceUnit[];
        variants?: BuildVariants;
      };
    };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Reference };
  };
  'GET /api/references/{reference}/revisions/{revision}': {
    path: { reference: string; revision: string };
    answer: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Reference };
  };
  'GET /api/rigs': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
      }[];
      next: string | null;
    };
  };
  'POST /api/rigs': {
    body: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
    };
  };
  'GET /api/rigs/{rig}': {
    path: { rig: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
    };
  };
  'PUT /api/rigs/{rig}': {
    path: { rig: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity } };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
    };
  };
  'GET /api/rigs/{rig}/history': {
    path: { rig: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: { rig: Key; name: Line; location: Line; rigLimit?: Quantity };
      }[];
      next: string | null;
    };
  };
  'GET /api/rigs/{rig}/placements': {
    path: { rig: string };
    answer: {
      items: {
        placement: string;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: SensorPlacement;
      }[];
    };
  };
  'POST /api/rigs/{rig}/placements': {
    path: { rig: string };
    body: SensorPlacement;
    answer: { placement: string; version: number; at: Instant; by: Key; reason?: Paragraph; content: SensorPlacement };
  };
  'PUT /api/rigs/{rig}/placements/{placement}': {
    path: { rig: string; placement: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: SensorPlacement };
    answer: { placement: string; version: number; at: Instant; by: Key; reason?: Paragraph; content: SensorPlacement };
  };
  'GET /api/rigs/{rig}/tokens': {
    path: { rig: string };
    answer: {
      items: {
        number: number;
        note: Line;
        at: Instant;
        by: Key;
        expiresAt: Instant;
        state: 'in force' | 'revoked' | 'expired';
        revoked?: { at: Instant; by: Key; reason: Paragraph };
      }[];
    };
  };
  'POST /api/rigs/{rig}/tokens': {
    path: { rig: string };
    body: { note: Line; days: number };
    answer: {
      number: number;
      note: Line;
      at: Instant;
      by: Key;
      expiresAt: Instant;
      state: 'in force' | 'revoked' | 'expired';
      revoked?: { at: Instant; by: Key; reason: Paragraph };
      token: string;
    };
  };
  'POST /api/rigs/{rig}/tokens/{number}/revocation': {
    path: { rig: string; number: string };
    body: { reason: Line };
    answer: {
      number: number;
      note: Line;
      at: Instant;
      by: Key;
      expiresAt: Instant;
      state: 'in force' | 'revoked' | 'expired';
      revoked?: { at: Instant; by: Key; reason: Paragraph };
    };
  };
  'POST /api/runs': {
    headers: { 'idempotency-key': string };
    body: FormData;
    answer: {
      run: Key;
      number: number;
      lot: Key;
      specimen: Key;
      destroyed: boolean;
      flags: Problem[];
      proposedValidity: 'valid' | 'invalid' | 'needs a look';
      files: { name: string; sha256: string; bytes: number }[];
    };
  };
  'GET /api/runs': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; lot?: Key; specimen?: Key };
    answer: {
      items: {
        run: Key;
        number: number;
        lot: Key;
        specimen: Key;
        plan: PlanRef;
        planLine: Key;
        rig?: Key;
        operator: Key;
        recordedBy: Key;
        startedAt: Instant;
        endReason?: EndReason;
        validity: Validity | 'not decided';
        invalidReason?: InvalidReason;
      }[];
      next: string | null;
    };
  };
  'GET /api/runs/{run}': {
    path: { run: string };
    answer: {
      number: number;
      version: number;
      recordedBy: Key;
      recordedAt: Instant;
      lot: Key;
      plan: PlanRef;
      run: Run;
      files: { n: number; name: string; sha256: string; size: number }[];
      measurements: { record: string; version: number; measurement: Measurement }[];
      reading: Reading;
      results: Result[];
      validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
      verdicts?: Verdict[];
      limits?: Limit[];
      photosAsked: { of: Line; least: number; present: number }[];
    };
  };
  'GET /api/runs/{run}/channels': {
    path: { run: string };
    answer: {
      items: {
        channel: string;
        unit: string;
        reference?: 'gauge' | 'absolute';
        passage?: number;
        from: number;
        to: number;
        samples: number;
      }[];
    };
  };
  'GET /api/runs/{run}/channels.csv': { path: { run: string }; query?: { passage?: number }; answer: Blob };
  'GET /api/runs/{run}/channels.parquet': { path: { run: string }; query?: { passage?: number }; answer: Blob };
  'GET /api/runs/{run}/channels/{channel}': {
    path: { run: string; channel: string };
    query?: { from?: number; to?: number; points?: number; passage?: number };
    answer: {
      channel: string;
      unit: string;
      reference?: 'gauge' | 'absolute';
      passage?: number;
      from: number;
      to: number;
      samples: number;
      whole: boolean;
      time: number[];
      values: number[];
    };
  };
  'POST /api/runs/{run}/documents': {
    path: { run: string };
    body: { kind: 'run sheet'; paper?: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'POST /api/runs/{run}/examination': {
    path: { run: string };
    headers: { 'if-match': string };
    body: { examination: Examination; reason?: Line };
    answer: {
      number: number;
      version: number;
      recordedBy: Key;
      recordedAt: Instant;
      lot: Key;
      plan: PlanRef;
      run: Run;
      files: { n: number; name: string; sha256: string; size: number }[];
      measurements: { record: string; version: number; measurement: Measurement }[];
      reading: Reading;
      results: Result[];
      validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
      verdicts?: Verdict[];
      limits?: Limit[];
      photosAsked: { of: Line; least: number; present: number }[];
    };
  };
  'GET /api/runs/{run}/files/{n}': { path: { run: string; n: string }; answer: Blob };
  'GET /api/runs/{run}/history': {
    path: { run: string };
    answer: {
      items: {
        of: 'run' | 'measurement' | 'examination' | 'validity';
        name?: string;
        version: number;
        by: Key;
        happenedAt: Instant;
        enteredAt: Instant;
        late: boolean;
        reason?: Paragraph;
        differences: { pointer: string; place: string; kept?: string; now?: string }[];
      }[];
    };
  };
  'POST /api/runs/{run}/instants': {
    path: { run: string };
    headers: { 'if-match': string };
    body: {
      instant: MovableInstant;
      passage?: number;
      at: number | 'as proposed';
      loss?: LossOfPressure;
      reason: Line;
    };
    answer: {
      number: number;
      version: number;
      recordedBy: Key;
      recordedAt: Instant;
      lot: Key;
      plan: PlanRef;
      run: Run;
      files: { n: number; name: string; sha256: string; size: number }[];
      measurements: { record: string; version: number; measurement: Measurement }[];
      reading: Reading;
      results: Result[];
      validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
      verdicts?: Verdict[];
      limits?: Limit[];
      photosAsked: { of: Line; least: number; present: number }[];
    };
  };
  'POST /api/runs/{run}/measurements': {
    path: { run: string };
    headers: { 'if-match': string };
    body: { measurements: { record?: string; measurement: Measurement }[]; reason?: Line };
    answer: {
      number: number;
      version: number;
      recordedBy: Key;
      recordedAt: Instant;
      lot: Key;
      plan: PlanRef;
      run: Run;
      files: { n: number; name: string; sha256: string; size: number }[];
      measurements: { record: string; version: number; measurement: Measurement }[];
      reading: Reading;
      results: Result[];
      validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
      verdicts?: Verdict[];
      limits?: Limit[];
      photosAsked: { of: Line; least: number; present: number }[];
    };
  };
  'GET /api/runs/{run}/reviews': {
    path: { run: string };
    answer: { items: { by: Key; at: Instant; note?: Paragraph; current: boolean }[]; outsideCompetence?: string };
  };
  'POST /api/runs/{run}/reviews': {
    path: { run: string };
    headers: { 'if-match': string };
    body: { note?: Paragraph };
    answer: { items: { by: Key; at: Instant; note?: Paragraph; current: boolean }[]; outsideCompetence?: string };
  };
  'GET /api/runs/{run}/trace': { path: { run: string }; answer: { trace: TracePlotInput | null } };
  'POST /api/runs/{run}/validity': {
    path: { run: string };
    headers: { 'if-match': string };
    body: { validity: Validity; reason?: InvalidReason; note?: Paragraph };
    answer: {
      number: number;
      version: number;
      recordedBy: Key;
      recordedAt: Instant;
      lot: Key;
      plan: PlanRef;
      run: Run;
      files: { n: number; name: string; sha256: string; size: number }[];
      measurements: { record: string; version: number; measurement: Measurement }[];
      reading: Reading;
      results: Result[];
      validity: 'valid' | 'valid with deviation' | 'invalid' | 'void' | 'not decided';
      verdicts?: Verdict[];
      limits?: Limit[];
      photosAsked: { of: Line; least: number; present: number }[];
    };
  };
  'GET /api/safety-flags': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      state?: 'open' | 'closed' | 'any';
      lot?: Key;
    };
    answer: {
      items: {
        number: number;
        version: number;
        state: SafetyFlagState;
        raisedBy: Key;
        raisedAt: Instant;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: SafetyFlag;
        concerns: Key[];
      }[];
      next: string | null;
    };
  };
  'POST /api/safety-flags': {
    body: SafetyFlag;
    answer: {
      number: number;
      version: number;
      state: SafetyFlagState;
      raisedBy: Key;
      raisedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: SafetyFlag;
      concerns: Key[];
    };
  };
  'GET /api/safety-flags/{n}': {
    path: { n: string };
    answer: {
      number: number;
      version: number;
      state: SafetyFlagState;
      raisedBy: Key;
      raisedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: SafetyFlag;
      concerns: Key[];
    };
  };
  'PUT /api/safety-flags/{n}': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: SafetyFlag };
    answer: {
      number: number;
      version: number;
      state: SafetyFlagState;
      raisedBy: Key;
      raisedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: SafetyFlag;
      concerns: Key[];
    };
  };
  'POST /api/safety-flags/{n}/closing': {
    path: { n: string };
    headers: { 'if-match': string };
    body: { decision: Paragraph };
    answer: {
      number: number;
      version: number;
      state: SafetyFlagState;
      raisedBy: Key;
      raisedAt: Instant;
      by: Key;
      at: Instant;
      reason?: Paragraph;
      content: SafetyFlag;
      concerns: Key[];
    };
  };
  'GET /api/safety-flags/{n}/history': {
    path: { n: string };
    answer: {
      items: {
        number: number;
        version: number;
        state: SafetyFlagState;
        raisedBy: Key;
        raisedAt: Instant;
        by: Key;
        at: Instant;
        reason?: Paragraph;
        content: SafetyFlag;
        concerns: Key[];
      }[];
    };
  };
  'POST /api/safety-flags/{n}/packages': {
    path: { n: string };
    body: { lot: Key };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/safety-flags/{n}/touched': {
    path: { n: string };
    answer: { items: { lot: Key; product: Key; because: string[] }[] };
  };
  'GET /api/sensors': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Sensor }[];
      next: string | null;
    };
  };
  'POST /api/sensors': {
    body: Sensor;
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Sensor };
  };
  'GET /api/sensors/{sensor}': {
    path: { sensor: string };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Sensor };
  };
  'PUT /api/sensors/{sensor}': {
    path: { sensor: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Sensor };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Sensor };
  };
  'GET /api/sensors/{sensor}/history': {
    path: { sensor: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { version: number; at: Instant; by: Key; reason?: Paragraph; content: Sensor }[];
      next: string | null;
    };
  };
  'GET /api/sensors/{sensor}/runs': {
    path: { sensor: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: { run: Key; number: number; startedAt: Instant; specimen: Key; lot: Key; channels: string[] }[];
      next: string | null;
    };
  };
  'POST /api/sign-in': {
    body: { lab?: Key; person: Key; passphrase: string };
    answer: {
      lab: { lab: Key; name: Line };
      person: Key;
      name: Line;
      role: Line;
      duties: Duty[];
      givenPassphrase: boolean;
      secondFactor: 'none' | 'owed' | 'given';
      secondFactorNeeded: 'nothing' | 'signing' | 'everything';
    };
  };
  'POST /api/sign-in/outside': { body: { lab?: Key }; answer: { address: string } };
  'POST /api/sign-in/outside/return': {
    body: { query: string };
    answer: {
      lab: { lab: Key; name: Line };
      person: Key;
      name: Line;
      role: Line;
      duties: Duty[];
      givenPassphrase: boolean;
      secondFactor: 'none' | 'owed' | 'given';
      secondFactorNeeded: 'nothing' | 'signing' | 'everything';
    };
  };
  'GET /api/sign-in/ways': { answer: { severalLabs: boolean; outside: { name: Line } | null } };
  'POST /api/sign-out': { answer: undefined };
  'GET /api/signing-keys': {
    answer: {
      form: 1;
      lab: { id: string; name: string };
      keys: {
        number: number;
        certificates: string[];
        data: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
        from: string;
        until?: string;
        revoked?: { at: string; because: string };
      }[];
      ledger: string[];
    };
  };
  'POST /api/signing-keys': {
    body: { reason: Line };
    answer: {
      number: number;
      certificates: string[];
      data: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
      from: string;
      until?: string;
      revoked?: { at: string; because: string };
    };
  };
  'POST /api/signing-keys/{n}/revocation': {
    path: { n: string };
    body: { reason: Line };
    answer: {
      number: number;
      certificates: string[];
      data: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
      from: string;
      until?: string;
      revoked?: { at: string; because: string };
    };
  };
  'GET /api/specimens': {
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest'; lot?: Key; called?: Line };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: {
          specimen: Key;
          lot: Key;
          serial?: Line;
          noSerialReason?: Line;
          origin: Origin | 'hidden until conclusions are locked';
          receivedAt: Instant;
          condition: Paragraph;
          mass?: Quantity;
          build?: { [name: string]: Line };
        };
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        destroyedIn?: Key;
        stressedIn?: Key[];
        holds?: number[];
      }[];
      next: string | null;
    };
  };
  'POST /api/specimens': {
    body: Specimen;
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Specimen };
  };
  'GET /api/specimens/{specimen}': {
    path: { specimen: string };
    answer: {
      key: Key;
      number: number;
      version: number;
      at: Instant;
      by: Key;
      reason?: Paragraph;
      content: {
        specimen: Key;
        lot: Key;
        serial?: Line;
        noSerialReason?: Line;
        origin: Origin | 'hidden until conclusions are locked';
        receivedAt: Instant;
        condition: Paragraph;
        mass?: Quantity;
        build?: { [name: string]: Line };
      };
      state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
      destroyedIn?: Key;
      stressedIn?: Key[];
      holds?: number[];
    };
  };
  'PUT /api/specimens/{specimen}': {
    path: { specimen: string };
    headers: { 'if-match': string };
    body: { reason: Paragraph; content: Specimen };
    answer: { key: Key; number: number; version: number; at: Instant; by: Key; reason?: Paragraph; content: Specimen };
  };
  'GET /api/specimens/{specimen}/custody': {
    path: { specimen: string };
    answer: {
      specimen: Key;
      items: {
        specimen: Key;
        step: CustodyStep;
        at: Instant;
        from?: Line;
        to: Line;
        place: Line;
        seal?: Line;
        condition: Paragraph;
        changesItem: boolean;
        recordedBy: Key;
        recordedAt: Instant;
      }[];
      gaps: { specimen: Key; after?: Instant; before?: Instant; sentence: string }[];
      hiddenFromYou: boolean;
    };
  };
  'POST /api/specimens/{specimen}/custody': {
    path: { specimen: string };
    body: {
      step: CustodyStep;
      at: Instant;
      from?: Line;
      to: Line;
      place: Line;
      seal?: Line;
      condition: Paragraph;
      changesItem: boolean;
    };
    answer: {
      specimen: Key;
      items: {
        specimen: Key;
        step: CustodyStep;
        at: Instant;
        from?: Line;
        to: Line;
        place: Line;
        seal?: Line;
        condition: Paragraph;
        changesItem: boolean;
        recordedBy: Key;
        recordedAt: Instant;
      }[];
      gaps: { specimen: Key; after?: Instant; before?: Instant; sentence: string }[];
      hiddenFromYou: boolean;
    };
  };
  'POST /api/specimens/{specimen}/documents': {
    path: { specimen: string };
    body: { kind: 'specimen record'; paper?: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits };
    answer: {
      id: string;
      kind:
        | 'lot evaluation'
        | 'lot test report'
        | 'run sheet'
        | 'specimen record'
        | 'label sheet'
        | 'document batch'
        | 'signed document'
        | 'recomputation'
        | 'comparison'
        | 'comparison report'
        | 'lot package';
      subject:
        | { lot: Key }
        | { evaluation: number; paper: 'A4' | 'Letter'; language?: Language; units?: 'as kept' | PrintUnits }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; run: Key }
        | { paper: 'A4' | 'Letter'; language: Language; units: 'as kept' | PrintUnits; specimen: Key }
        | { grid: LabelGridName; code: LabelCode; language: Language; used: number; specimens?: Key[]; lot: Key }
        | {
            kind: SheetKind;
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            grid: LabelGridName;
            code: LabelCode;
            lot: Key;
            batch?: number;
          }
        | { document: number; changed?: Paragraph; because?: Paragraph }
        | { runs: 'all' }
        | { comparison: Key }
        | {
            paper: 'A4' | 'Letter';
            language: Language;
            units: 'as kept' | PrintUnits;
            comparison: Key;
            conclusion: number;
          }
        | { lot: Key; form: 'zip'; safetyFlag?: number };
      askedBy: string;
      askedAt: Instant;
      state: 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';
      progress?: { share: number; at: string };
      evaluation?: number;
      document?: number;
      recomputation?: number;
      comparisonResult?: number;
      package?: number;
      batch?: number;
      problems?: Problem[];
    };
  };
  'GET /api/specimens/{specimen}/history': {
    path: { specimen: string };
    query?: { limit?: number; after?: string; order?: 'oldest' | 'newest' };
    answer: {
      items: {
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: {
          specimen: Key;
          lot: Key;
          serial?: Line;
          noSerialReason?: Line;
          origin: Origin | 'hidden until conclusions are locked';
          receivedAt: Instant;
          condition: Paragraph;
          mass?: Quantity;
          build?: { [name: string]: Line };
        };
      }[];
      next: string | null;
    };
  };
  'GET /api/specimens/{specimen}/keeping': {
    path: { specimen: string };
    answer: {
      specimen: Key;
      lot: Key;
      origin: Origin | 'hidden until conclusions are locked';
      state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
      keptUntil?: string;
      saidOf?: 'specimen' | 'lot';
      holds: number[];
      obstacles: DisposalObstacle[];
      version: number;
      said: { until: Day; note: Paragraph; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'PUT /api/specimens/{specimen}/keeping': {
    path: { specimen: string };
    headers: { 'if-match': string };
    body: SpecimenKeeping;
    answer: {
      specimen: Key;
      lot: Key;
      origin: Origin | 'hidden until conclusions are locked';
      state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
      keptUntil?: string;
      saidOf?: 'specimen' | 'lot';
      holds: number[];
      obstacles: DisposalObstacle[];
      version: number;
      said: { until: Day; note: Paragraph; by: Key; at: Instant; reason?: Paragraph }[];
    };
  };
  'GET /api/specimens/{specimen}/protected-notes': {
    path: { specimen: string };
    answer: { specimen: Key; items: { title: Line; text: Paragraph; readers: Key[]; by: Key; at: Instant }[] };
  };
  'POST /api/specimens/{specimen}/protected-notes': {
    path: { specimen: string };
    body: { title: Line; text: Paragraph; readers: Key[] };
    answer: { specimen: Key; items: { title: Line; text: Paragraph; readers: Key[]; by: Key; at: Instant }[] };
  };
  'GET /api/specimens/{specimen}/states': {
    path: { specimen: string };
    answer: {
      state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
      destroyedIn?: Key;
      stressedIn?: Key[];
      holds?: number[];
      specimen: Key;
      version: number;
      moves: ('condition' | 'make ready' | 'retain' | 'take out')[];
      items: {
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        note: Paragraph;
        by: Key;
        at: Instant;
      }[];
    };
  };
  'POST /api/specimens/{specimen}/states': {
    path: { specimen: string };
    headers: { 'if-match': string };
    body: { move: 'condition' | 'make ready' | 'retain' | 'take out'; note: Paragraph };
    answer: {
      state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
      destroyedIn?: Key;
      stressedIn?: Key[];
      holds?: number[];
      specimen: Key;
      version: number;
      moves: ('condition' | 'make ready' | 'retain' | 'take out')[];
      items: {
        state: 'received' | 'conditioned' | 'ready' | 'destroyed' | 'retained' | 'disposed';
        note: Paragraph;
        by: Key;
        at: Instant;
      }[];
    };
  };
  'POST /api/specimens/several': {
    body: { specimens: Specimen[] };
    answer: {
      items: {
        key: Key;
        number: number;
        version: number;
        at: Instant;
        by: Key;
        reason?: Paragraph;
        content: Specimen;
      }[];
    };
  };
  'GET /api/unread': {
    query?: {
      limit?: number;
      after?: string;
      order?: 'oldest' | 'newest';
      state?: 'waiting' | 'read' | 'discarded' | 'any';
    };
    answer: {
      items: {
        id: string;
        number: number;
        sentBy: Key;
        sentAt: Instant;
        parts: { name: string; sha256: string; size: number }[];
        problems: Problem[];
        problemCount: number;
        state: 'waiting' | 'read' | 'discarded';
        run?: Key;
        closedBy?: Key;
        reason?: string;
      }[];
      next: string | null;
    };
  };
  'GET /api/unread/{id}': {
    path: { id: string };
    answer: {
      id: string;
      number: number;
      sentBy: Key;
      sentAt: Instant;
      parts: { name: string; sha256: string; size: number }[];
      problems: Problem[];
      problemCount: number;
      state: 'waiting' | 'read' | 'discarded';
      run?: Key;
      closedBy?: Key;
      reason?: string;
    };
  };
  'POST /api/unread/{id}/discard': {
    path: { id: string };
    body: { reason: Line };
    answer: {
      id: string;
      number: number;
      sentBy: Key;
      sentAt: Instant;
      parts: { name: string; sha256: string; size: number }[];
      problems: Problem[];
      problemCount: number;
      state: 'waiting' | 'read' | 'discarded';
      run?: Key;
      closedBy?: Key;
      reason?: string;
    };
  };
  'GET /api/unread/{id}/parts/{n}': { path: { id: string; n: string }; answer: Blob };
  'POST /api/unread/{id}/read': {
    path: { id: string };
    body: {
      run: Key;
      specimen: Key;
      planLine: Key;
      method: Key;
      methodRevision: Revision;
      rig?: Key;
      layoutRevision?: Revision;
      operator: Key;
      startedAt: Instant;
      conditions: { [name: string]: Line | Quantity };
      passages?: RunPassage[];
      measurements: Measurement[];
      examination?: Examination;
      readiness?: { confirmedBy: Key; at: Instant };
      deviations: Paragraph[];
      plan: PlanRef;
    };
    answer: {
      run: Key;
      number: number;
      lot: Key;
      specimen: Key;
      destroyed: boolean;
      flags: Problem[];
      proposedValidity: 'valid' | 'invalid' | 'needs a look';
      files: { name: string; sha256: string; bytes: number }[];
    };
  };
  'GET /c/{token}': { path: { token: string }; answer: undefined };
  'GET /health/live': { answer: { live: true } };
  'GET /health/ready': { answer: { ready: true } };
}
