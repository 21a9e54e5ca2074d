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

/** Symbol, name, kind, size (above, below), zero (above, below), unit beside, other spellings. */
type BaybookUnitRow = [string, string, string, string, string, string, string, string | null, string[]];

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

interface BaybookRefusal extends Error {
  help: string;
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

interface BaybookCompute {
  Rational: {
    new (numer: bigint | number, denom?: bigint | number): BaybookRational;
    tenTo(exponent: number): BaybookRational;
    parse(text: string): BaybookRational | null;
  };
  Refusal: new (message: string, help: string) => BaybookRefusal;
  unitTable: {
    kinds: Record<string, string>;
    units: BaybookUnitRow[];
    ambiguous: [string[], [string, string][]][];
  };
  /** `parse` throws a `Refusal`. */
  units: {
    all: BaybookUnit[];
    parse(text: string): BaybookUnit;
    known(text: string): BaybookUnit | null;
  };
  letters: { SPACE: string; trim(text: string): string; bytes(text: string): number };
  number: { scan(text: string, start: number): BaybookPlaced };
  problems: {
    empty(): BaybookRefusal;
    noNumber(found: string): BaybookRefusal;
    malformed(found: string, offers: string[]): BaybookRefusal;
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
}

declare var baybookCompute: BaybookCompute;
