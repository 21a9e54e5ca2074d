/** What the scripts of `site/compute` share through `baybookCompute`; each adds its own part. */

interface BaybookRational {
  readonly numer: bigint;
  readonly denom: bigint;
  plus(other: BaybookRational): BaybookRational;
  minus(other: BaybookRational): BaybookRational;
  times(other: BaybookRational): BaybookRational;
  over(other: BaybookRational): BaybookRational;
  negated(): BaybookRational;
  size(): BaybookRational;
  sign(): number;
  compare(other: BaybookRational): number;
  equals(other: BaybookRational): boolean;
  floor(): bigint;
  ceil(): bigint;
  halfEven(): bigint;
  roundedTo(step: BaybookRational, way: "half-even" | "up" | "down"): BaybookRational;
  exponentNotAbove(): number;
  terminatingDecimals(): number | null;
  decimalText(decimals: number): string;
  text(): string;
  textAtLeast(decimals: number): string;
}

interface BaybookUnit {
  symbol: string;
  spoken: string;
  kind: string;
  factor: BaybookRational;
  offset: BaybookRational;
  beside: string | null;
  kindTitle(): string;
  ratioTo(other: BaybookUnit): BaybookRational;
  toSi(value: BaybookRational): BaybookRational;
  fromSi(value: BaybookRational): BaybookRational;
  convertsTo(other: BaybookUnit): boolean;
  counterpart(): BaybookUnit | null;
  after(number: string): string;
}

/** What was given is wrong; with a `sort`, a reader of readings may mend it. */
interface BaybookRefusal extends Error {
  help: string;
  sort?: string;
  found?: string;
  offers?: string[];
  meanings?: string[];
  /** Where `found` stands in the text. */
  at?: number;
}

/** One printed number; `ulp` is one unit of its finest digit. */
interface BaybookNumber {
  text: string;
  exact: BaybookRational;
  decimals: number;
  ulp: BaybookRational;
  fraction: boolean;
}

interface BaybookPlaced {
  number: BaybookNumber;
  start: number;
  end: number;
}

type BaybookBound = "min" | "max" | "over" | "under";

type BaybookShape =
  | { form: "single" | "turn" | BaybookBound; number: BaybookNumber }
  | { form: "tolerance"; nominal: BaybookNumber; plus: BaybookNumber; minus: BaybookNumber }
  | { form: "percent-tolerance"; nominal: BaybookNumber; percent: BaybookNumber }
  | { form: "range"; min: BaybookNumber; max: BaybookNumber };

/** A shape whose unit is still to be read, and where its numbers stand. */
interface BaybookDraft {
  shape: BaybookShape;
  start: number;
  end: number;
}

/** A place in a text; what it reads throws a `Refusal`. */
interface BaybookCursor {
  text: string;
  at: number;
  rest(): string;
  skipSpaces(): void;
  eat(word: string): boolean;
  eatMinus(): boolean;
  bound(): BaybookBound | null;
  lonePlus(): boolean;
  number(): BaybookPlaced;
  tolerance(): BaybookPlaced;
  joint(): "range" | "plus-minus" | "plus" | "minus" | "doubtful" | null;
}

/** One end of what a value allows, in the value's unit. */
interface BaybookLimit {
  exact: BaybookRational;
  inclusive: boolean;
  text: string;
}

interface BaybookValue {
  shape: BaybookShape;
  unit: BaybookUnit;
  text(): string;
  min(): BaybookLimit | null;
  max(): BaybookLimit | null;
  nominal(): BaybookRational | null;
  numbersInUnit(): BaybookNumber[];
  ulp(): BaybookRational;
  decimals(): number;
}

/** The answer of `convert --format json`. */
interface BaybookConverted {
  text: string;
  min: string | null;
  max: string | null;
  unit: string;
  exact: { min: string | null; max: string | null };
}

/** What a command writes as JSON when what it was given is wrong. */
interface BaybookFailed {
  error: { message: string; help: string };
}

/** One number that a gauge showed; `assumed` if no unit was typed. */
interface BaybookReading {
  value: BaybookRational;
  unit: BaybookUnit;
  text: string;
  assumed: boolean;
}

/** A limit of error, in a unit or in per cent of the reading. */
type BaybookAccuracy = BaybookValue;

interface BaybookGaugeInHand {
  title: string;
  sort: string;
  span: BaybookValue;
  error: BaybookAccuracy;
}

/** What a reading is judged by: printed forms, states and gauges as the bundle gives them. */
interface BaybookQuestion {
  window?: string[];
  new?: string[];
  wear_limit?: string[];
  /** The trade's words for the two sides; `low` and `high` if left out. */
  below?: string;
  above?: string;
  /** `new` for parts being fitted. */
  fitting?: "new" | "used";
  state?: "met" | "unmet" | "unanswered";
  /** The state the limits are meant for, as `engine cold`. */
  needs_state?: string[];
  /** `sort` is the kind of what it shows, and that of its span if left out. */
  gauge?: { title?: string; sort?: string; span: string; error: string };
  accuracy?: string;
  reading: string | { goes?: string | null; stops?: string | null };
}

interface BaybookMeasured {
  value?: BaybookReading | undefined;
  goes?: BaybookReading | undefined;
  stops?: BaybookReading | undefined;
}

interface BaybookDistance {
  min: string | null;
  max: string | null;
  unit: string;
}

/** The answer of `judge --format json`. */
interface BaybookVerdict {
  verdict: "in spec" | "out of spec" | "too close to call" | "cannot judge";
  as_read: BaybookVerdict["verdict"];
  direction: string | null;
  by: BaybookDistance | null;
  against: "window" | "new" | "wear_limit";
  left: BaybookDistance | null;
  settle: string | null;
  because: string | null;
}

interface BaybookSpan {
  low: BaybookRational;
  high: BaybookRational | null;
  closed: boolean;
}

interface BaybookBounds {
  limits: BaybookValue;
  min: BaybookLimit | null;
  max: BaybookLimit | null;
  verdict(span: BaybookSpan): "out of spec" | "too close to call" | "in spec";
  whollyBelow(span: BaybookSpan): boolean;
  whollyAbove(span: BaybookSpan): boolean;
  crossesMin(span: BaybookSpan): boolean;
  crossesMax(span: BaybookSpan): boolean;
  beyond(span: BaybookSpan): BaybookDistance;
  left(span: BaybookSpan): BaybookDistance;
}

/** A complaint as the bundle has it; numbers may be texts. */
interface BaybookComplaint {
  causes: { id: string; share: number | string; residual?: boolean }[];
  access?: { id: string; minutes: number | string; needs?: string[] }[];
  checks: ({ id: string; minutes: number | string; shows: string[]; needs?: string[] } & BaybookWarmth)[];
}

/** What a check asks of the engine's heat, and does to it. */
interface BaybookWarmth {
  state?: "cold" | "hot" | "any";
  voids?: string[];
}

/** The same with sets for lists and whole numbers for shares and minutes. */
interface BaybookJob {
  causes: string[];
  checks: string[];
  access: string[];
  residual: bigint;
  weights: bigint[];
  checkMinutes: bigint[];
  accessMinutes: bigint[];
  minute: bigint;
  shows: bigint[];
  needs: bigint[];
}

/**
 * One check where it stands: `by` is minutes gone when it is done, `finds` its share of what is left,
 * `why` the reason in words.
 */
interface BaybookOrderStep {
  check: string;
  opens: string[];
  minutes: BaybookRational;
  by: BaybookRational;
  finds: BaybookRational;
  why: string;
}

/** The answer of `order --format json`; `proved` is false where there is too much for a proof. */
interface BaybookOrder {
  order: string[];
  expected_minutes: string;
  as_written_minutes: string;
  left: Record<string, string>;
  proved?: boolean;
}

interface BaybookCompute {
  Rational: {
    new (numer: bigint | number, denom?: bigint | number): BaybookRational;
    tenTo(exponent: number): BaybookRational;
    parse(text: string): BaybookRational | null;
  };
  Refusal: new (message: string, help: string) => BaybookRefusal;
  unitTable: {
    /** Titles of the kinds whose name is not theirs. */
    kinds: Record<string, string>;
    /** A line each: symbol, name, kind, size, zero, unit beside, other spellings. */
    units: string;
    ambiguous: [string[], [string, string][]][];
  };
  /** `parse` throws a `Refusal`. */
  units: {
    all: BaybookUnit[];
    spellings: { name: string; unit: BaybookUnit }[];
    normal(written: string): string;
    parse(text: string): BaybookUnit;
    known(text: string): BaybookUnit | null;
    kindTitle(kind: string): string;
  };
  /** Only where the words of a refusal are wanted. */
  meant?: {
    unit(text: string): BaybookUnit | null;
    number(text: string): string[];
    afterUnit(shape: BaybookShape, text: string): BaybookRefusal | null;
  };
  letters: { SPACE: string; trim(text: string): string; bytes(text: string): number };
  number: { scan(text: string, start: number): BaybookPlaced };
  problems: {
    empty(): BaybookRefusal;
    noNumber(found: string): BaybookRefusal;
    malformed(found: string, offers: string[], at: number): BaybookRefusal;
    tooManyDigits(found: string, most: number): BaybookRefusal;
    noUnit(number: string): BaybookRefusal;
    unitTwice(offer: string | null): BaybookRefusal;
    rangeReversed(min: string, max: string): BaybookRefusal;
    negativeTolerance(found: string): BaybookRefusal;
    percentTooLarge(found: string): BaybookRefusal;
    percentOfPercent(nominal: string, tolerance: string): BaybookRefusal;
    tooLong(bytes: number, most: number): BaybookRefusal;
    trailing(found: string, offer: string | null): BaybookRefusal;
  };
  ending: { unit(text: string, draft: BaybookDraft, range: [number, number]): BaybookUnit };
  cursor: { SIGNS: string[]; Cursor: new (text: string) => BaybookCursor };
  grammar: { read(text: string): { shape: BaybookShape; unit: BaybookUnit } };
  /** `parse` throws a `Refusal`. */
  Value: {
    new (shape: BaybookShape, unit: BaybookUnit): BaybookValue;
    parse(text: string): BaybookValue;
  };
  /** Runs what may throw a `Refusal`, which then becomes its JSON. */
  answered<T>(answer: () => T): T | BaybookFailed;
  /** Throws a `Refusal`. */
  converted(value: BaybookValue, to: BaybookUnit): BaybookConverted;
  convert(text: string, unit: string): BaybookConverted | BaybookFailed;
  /** `read` and `value` throw a `Refusal`. */
  readings: {
    read(text: string, unit: BaybookUnit): BaybookReading;
    value(text: string, unit: BaybookUnit): { value: BaybookValue; assumed: boolean };
    alike(one: string, other: string): boolean;
    otherKind(found: BaybookUnit, wanted: BaybookUnit): BaybookRefusal;
  };
  /** What a technician typed, as one number; without a unit it is taken in `unit`. */
  reading(
    text: string,
    unit: string,
  ):
    | { ok: true; value: BaybookRational; unit: string; text: string; assumed: boolean }
    | { ok: false; because: string; help: string };
  spans: {
    Span: {
      new (low: BaybookRational, high: BaybookRational | null, closed: boolean): BaybookSpan;
      at(value: BaybookRational): BaybookSpan;
      around(value: BaybookRational, error: BaybookRational): BaybookSpan;
    };
    Bounds: new (limits: BaybookValue) => BaybookBounds;
  };
  gauges: {
    accuracy(text: string, unit: BaybookUnit): BaybookAccuracy;
    errorAt(error: BaybookAccuracy, reading: BaybookReading, unit: BaybookUnit): BaybookRational;
    inHand(gauge: NonNullable<BaybookQuestion["gauge"]>): BaybookGaugeInHand;
    unfit(gauge: BaybookGaugeInHand, readings: BaybookReading[], unit: BaybookUnit): string | null;
  };
  settle(bounds: BaybookBounds, measured: BaybookMeasured): string;
  exactIn(reading: BaybookReading, unit: BaybookUnit): BaybookRational;
  judge(question: BaybookQuestion): BaybookVerdict | BaybookFailed;
  orderJob: {
    bit(at: number): bigint;
    members(set: bigint): number[];
    sum(numbers: bigint[], set: bigint): bigint;
    /** Throws a `Refusal`. */
    job(complaint: BaybookComplaint): BaybookJob;
  };
  OrderSearch: new (
    job: BaybookJob,
    toDo: bigint,
  ) => { sequence(start: { left: bigint; open: bigint }): { sequence: number[]; proved: boolean } };
  order(complaint: BaybookComplaint, results?: Record<string, "clear" | "shown">): BaybookOrder | BaybookFailed;
  orderSteps(
    complaint: BaybookComplaint,
    results?: Record<string, "clear" | "shown">,
  ): BaybookOrderStep[] | BaybookFailed;
  orderToldApart(complaint: BaybookComplaint, results?: Record<string, "clear" | "shown">): boolean | BaybookFailed;
  orderHeat: {
    changes: Record<"warm" | "cool", { words: string; minutes: number }>;
    heat(done: BaybookWarmth[], ahead: BaybookWarmth[]): { first: "warm" | "cool" | null; voids: number[] }[];
  };
}

declare var baybookCompute: BaybookCompute;
