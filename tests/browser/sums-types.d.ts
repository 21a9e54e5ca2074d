/** What the scripts of the bench sums and the shim plan add to `baybookCompute`. */

/** A number, and whether it was rounded on the way. */
interface BaybookReal {
  value: BaybookRational;
  rough: boolean;
}

type BaybookPoint = [BaybookRational, BaybookRational];

type BaybookBoundName = BaybookReal | { many: BaybookRational[] } | { points: BaybookPoint[] } | { nothing: true };

type BaybookNames = Map<string, BaybookBoundName>;

type BaybookNode =
  | { number: BaybookRational }
  | { name: string }
  | { minus: BaybookNode }
  | { not: BaybookNode }
  | { call: string; list: BaybookNode[] }
  | { left: BaybookNode; join: string; right: BaybookNode };

interface BaybookNoValue extends Error {
  help: string;
}

interface BaybookSumInput {
  key: string;
  title: string;
  sort: "quantity" | "alike" | "quantities" | "points" | "number" | "word";
  unit?: string;
  of?: string;
  at?: string;
  words?: string[];
  unless?: string;
  example: string;
}

interface BaybookSumAnswer {
  key: string;
  title: string;
  formula: string;
  unit: string;
  like?: string;
  each?: string;
  when?: string;
  digits: number;
  words: [string, string][];
}

interface BaybookSum {
  id: string;
  group: string;
  title: string;
  inputs: BaybookSumInput[];
  tables: [string, [string, string][]][];
  steps: [string, string][];
  must: [string, string][];
  answers: BaybookSumAnswer[];
  notes: [string, string][];
}

/** What the script of a build gives the sheet of sums: by sum and field, what a value is and the value. */
interface BaybookGivenSums {
  engine: string;
  machines: string[];
  build: string;
  /** The bulletins that say not to run a machine with it. */
  stops: StopFacts[];
  sums: [string, Record<string, [string, string][]>][];
}

declare var baybookGiven: (given: BaybookGivenSums) => void;

interface BaybookSumResult {
  key: string;
  title: string;
  of: string | null;
  value: string;
  unit: string | null;
  text: string;
  word: string | null;
}

/** What was typed for a sum, as read. */
interface BaybookSumGiven {
  names: BaybookNames;
  units: Map<string, BaybookUnit>;
  members: Map<string, string[]>;
}

interface BaybookSumError extends Error {
  input: string | null;
  help: string;
}

type BaybookSumOutcome =
  | { results: BaybookSumResult[]; notes: string[] }
  | { refused: { input: string | null; message: string; help: string } };

interface BaybookCompute {
  sumTable: BaybookSum[];
  real: {
    exact(value: BaybookRational): BaybookReal;
    pi: BaybookReal;
    sqrt(of: BaybookRational): BaybookReal | null;
    ln(of: BaybookRational): BaybookReal | null;
    exp(of: BaybookRational): BaybookReal | null;
    power(base: BaybookRational, exponent: BaybookRational): BaybookReal | null;
    cos(degrees: BaybookRational): BaybookReal;
    sin(degrees: BaybookRational): BaybookReal;
    acos(cosine: BaybookRational): BaybookReal | null;
  };
  /** `along` throws a `NoValue`. */
  curve: {
    NoValue: new (message: string, help: string) => BaybookNoValue;
    none: {
      defect(what: string): BaybookNoValue;
      divided(): BaybookNoValue;
      undefined(name: string): BaybookNoValue;
      beyond(): BaybookNoValue;
      badPoints(): BaybookNoValue;
    };
    along(name: string, table: BaybookPoint[], at: BaybookRational): BaybookReal;
    zero: BaybookRational;
    one: BaybookRational;
  };
  /** Both throw a `NoValue`. */
  formula: { parse(text: string): BaybookNode; value(node: BaybookNode, names: BaybookNames): BaybookReal };
  /** `read` throws a `SumError`. */
  sumGiven: {
    SumError: new (input: string | null, message: string, help: string) => BaybookSumError;
    read(sum: BaybookSum, typed: Record<string, string | undefined>): BaybookSumGiven;
  };
  /** A sum of the table, worked out from what was typed, by the key of each input. */
  sums: { work(sum: BaybookSum, typed: Record<string, string | undefined>): BaybookSumOutcome };
}

interface BaybookShimValve {
  name: string;
  measured: string;
  fitted: string;
  window?: string;
  target?: string;
}

/** Where a valve aims, in metres; `unit` is that of its window. */
interface BaybookAim {
  unit: BaybookUnit;
  target: BaybookRational;
  allows(lash: BaybookRational): boolean;
}

/** A job of shims, as its file has it. */
interface BaybookShimJob {
  window: string;
  target?: string;
  stock?: (string | { size: string; pieces: number })[];
  stock_steps?: string;
  valves: BaybookShimValve[];
}

/** What is known of a valve, in metres; `known` if a lash above zero was measured. */
interface BaybookSeat {
  name: string;
  lash: BaybookRational | null;
  shim: BaybookRational;
  unit: BaybookUnit;
  known: boolean;
  aim: BaybookAim;
}

/** A job that holds, in metres. */
interface BaybookHead {
  unit: BaybookUnit;
  shimUnit: BaybookUnit;
  target: BaybookRational;
  stock: { size: BaybookRational; pieces: number | null }[];
  seats: BaybookSeat[];
}

interface BaybookShimChoice {
  from: "kept" | "engine" | "stock" | "unsolved";
  place: number;
  shim: BaybookRational;
  off: BaybookRational;
}

/** The answer of `shims --format json`. */
interface BaybookShimPlan {
  plan: {
    valve: string;
    fitted: string;
    shim: string;
    from: string;
    moved_from: string | null;
    lash_after: string | null;
  }[];
  bought: number;
  unsolved: string[];
  target: string;
  unit: string;
  shim_unit: string;
}

interface BaybookCompute {
  assignment: { cheapest(costs: (bigint | null)[][]): number[] };
  /** Throws a `Refusal`. */
  shimJob: { head(job: BaybookShimJob): BaybookHead };
  shims(job: BaybookShimJob): BaybookShimPlan | BaybookFailed;
}
