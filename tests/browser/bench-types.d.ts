/** The shapes that the scripts of the bench share. Nothing here is code. */

/** What makes a statement the one it is, as on its row. */
interface Identity {
  of: string;
  where: string;
  when: string;
}

/** Limits as printed, and the trade's words for a reading beyond them. */
interface Limits {
  window: string[];
  new: string[];
  wear_limit: string[];
  below: string | null;
  above: string | null;
}

/** Beyond which of its limits a machine must not be run. */
type StopSide = "below" | "above" | "either";

interface GaugeFacts {
  title: string;
  kind: string;
  span: string;
  resolution: string | null;
  error: string;
}

type Reach = BaybookDistance;
type VerdictWord = BaybookVerdict["verdict"];
type Verdict = Omit<BaybookVerdict, "as_read" | "against"> & { as_read: string | null; against: string | null };

type Answer = "met" | "unmet";

/** A reading as typed. A pair of leaves has `goes`, `stops`, or both; a single value has `value`. */
interface Typed {
  value?: string;
  goes?: string;
  stops?: string;
  unit: string;
}

interface Reading extends Identity {
  /** What must have been so: the state of the limits, and what any reading of the entry needs. */
  asks: string;
  /** Running number in its job, from 1. */
  no: number;
  /** Which of the places that the statement holds for, from 1. */
  at: number;
  typed: Typed;
  /** The same in full: `0.35 mm`, or `goes 0.10 mm, stops 0.15 mm`. */
  text: string;
  gauge: string | null;
  gauge_facts: GaugeFacts | null;
  fitting: "new" | null;
  /** Beyond which of the limits the machine must not be run; missing where there is none. */
  stop?: StopSide;
  state: Answer | "unanswered" | null;
  time: string;
  initials: string | null;
  /** Still being typed. */
  open: boolean;
  /** When it was taken back; it is kept all the same. */
  withdrawn: string | null;
  title: string;
  limits: Limits;
  judged: Verdict | null;
  /** The release and content the verdict stands on. */
  release: string;
  content: string;
}

interface BaseFacts {
  title: string;
  release: string;
  date: string;
  content: string;
}

interface BuildFacts {
  id: string;
  hash: string;
  engine: string;
  machine: string;
}

interface Job {
  format: "baybook job record 2";
  id: string;
  base: BaseFacts;
  build: BuildFacts;
  begun: string;
  closed: string | null;
  /** What the shop writes in: initials, serial, hours, complaint, and the lines of the owner's page. */
  written: Record<string, string>;
  /** The last answer about each condition, by what is asked. */
  states: Record<string, { answer: Answer; time: string }>;
  readings: Reading[];
  /** The gauge in use, by kind of quantity, or by the key of a row that it was chosen for alone; an empty text is none. */
  gauges: Record<string, string>;
  /** How many places a row has fields for, where it is more than one. */
  places: Record<string, number>;
  /** Rows that take a pair of leaves. */
  pairs: Record<string, boolean>;
  /** Rows whose part is being fitted new. */
  fitting: Record<string, boolean>;
  /** Ticked steps of each procedure: step and time. */
  steps: Record<string, Record<string, string>>;
  /** What each procedure left open and has closed again. */
  open: Record<string, string[]>;
  /** The step that closes what a procedure left open; missing in a record of before it was kept. */
  closes_at?: Record<string, Record<string, string>>;
  /** When the proof of a procedure was given. */
  proofs: Record<string, string>;
  /** What was checked for each complaint, by its id. */
  complaints: Record<string, CheckedComplaint>;
}

/** The results of the checks of one complaint sheet. */
interface CheckedComplaint {
  title: string;
  /** The release and content of the sheet that the last result was given on. */
  release: string;
  content: string;
  /** The checks done, in the order they were done. */
  checks: {
    check: string;
    title: string;
    result: "clear" | "shown";
    time: string;
    /** When it was taken back or given otherwise; it is kept all the same. */
    withdrawn: string | null;
  }[];
  /** The cause: the only one the checks leave after one showed it, or the one that was said; none before. */
  found: { cause: string; title: string; by: "checks" | "said"; time: string } | null;
  /** When the repair was proved to have cured it; none before. */
  confirmed: string | null;
}

interface Settings {
  hand: "right" | "left";
  keypad: boolean | null;
  form: "printed" | "other";
}

interface Undo {
  words: string;
  job: Job | null;
  /** The job that the action put away, as it was put away. */
  away: Job | null;
}

interface Shelf {
  job: Job | null;
  /** Jobs that were put away, newest first: closed, or parked as they were. */
  closed: Job[];
  undo: Undo | null;
}

/** Where a reading falls: below, in or above the limits. */
type Side = "below" | "in" | "above" | "none";

/** What of a reading it is judged from. */
type Judgeable = Pick<Reading, "typed" | "limits" | "asks" | "state" | "fitting" | "gauge_facts">;

/** What a procedure left open, and the step that closes it. */
interface LeftOpen {
  procedure: string;
  what: string;
  step: string | null;
}

/** How a verdict is said. */
interface Said {
  mark: "in" | "out" | "close" | "none";
  word: string;
  detail: string;
}

/** A statement on the sheet that a reading can be judged by. */
interface Row extends Identity {
  element: HTMLElement;
  key: string;
  /** What must be so for a reading: conditions, as `when` writes them. */
  asks: string;
  title: string;
  places: string;
  kind: string;
  units: string[];
  limits: Limits;
  usual: string | null;
  stop: StopSide | null;
  several: boolean;
  /** A reading may be less than nothing. */
  signed: boolean;
  pair: boolean;
  worn: boolean;
  slots: Slot[];
}

/** One entry field with its verdict. */
interface Slot {
  row: Row;
  at: number;
  element: HTMLElement;
  fields: HTMLInputElement[];
  unit: string;
  verdict: HTMLOutputElement;
}

declare var baybookGauges: Record<string, GaugeFacts>;
/** A value of earlier releases that is known to be wrong; place and state as a row's attributes have them. */
interface RecallFacts extends Identity {
  engine: string;
  value: string;
  releases: string[];
  because: string;
}
declare var baybookRecalls: RecallFacts[];
declare var baybookRecall: {
  warnings(job: Job): string[];
  older(job: Job, now: { release: string; content: string }): string;
};

declare var baybookRecord: {
  key(identity: Identity): string;
  create(base: BaseFacts, build: BuildFacts, time: string): Job;
  current(job: Job | null, identity: Identity, at: number): Reading | null;
  earlier(job: Job | null, identity: Identity, at: number): Reading[];
  standing(job: Job): Reading[];
  write(job: Job, reading: Omit<Reading, "no" | "open" | "withdrawn">): Reading;
  settle(job: Job): void;
  withdraw(job: Job, identity: Identity, at: number, time: string): void;
  summary(job: Job): { readings: number; out: number; undecided: number; steps: number; checks: number };
  parse(text: string): { ok: true; job: Job } | { ok: false; because: string };
};

declare var baybookWords: {
  say(verdict: Verdict): Said;
  number(exact: string): string;
  reach(reach: Reach): string;
  clock(time: string): string;
  condition(when: string): string[];
};

declare var baybookChecked: {
  results(job: Job | null, id: string): Record<string, "clear" | "shown">;
  write(
    job: Job,
    complaint: { id: string; title: string; release: string; content: string },
    now: Record<string, "clear" | "shown">,
    titled: (check: string) => string,
    found: CheckedComplaint["found"],
    time: string,
  ): void;
  confirm(job: Job, id: string, time: string | null): void;
};

declare var baybookKeypad: new (root: HTMLElement, scope: string) => object;

declare var baybookKept: new (id: string, residual: string[]) => {
  element: HTMLElement;
  left: string[];
  results(): Record<string, "clear" | "shown">;
  keep(said: string, results: Record<string, "clear" | "shown">, left: string[]): void;
  paint(): void;
};

declare var baybookKeys: {
  press(text: string, start: number, end: number, key: string): { text: string; at: number };
  complete(text: string): boolean;
};

declare var baybookScale: {
  place(axis: string | null | undefined, low: number, high: number): { from: number; to: number; off: "below" | "above" | null } | null;
  value(exact: string | null): number | null;
};

declare var baybookStorage: {
  open(storage: () => Storage, name: string): {
    works(): boolean;
    load(): Shelf;
    save(shelf: Shelf, shelved?: boolean): void;
    settings(): Settings;
    keep(settings: Settings): void;
  };
  KEYS: { job: string; closed: string; settings: string };
};

/** What the parts of the bench share on one sheet. */
interface Bench {
  shelf: Shelf;
  settings: Settings;
  rows: Row[];
  /** The field being typed into. */
  active: Slot | null;
  base: BaseFacts;
  build: BuildFacts;
  /** False while a job of another build is open: then nothing is written. */
  free(): boolean;
  works(): boolean;
  /** One action of the technician: can be taken back as a whole. */
  act(words: string, change: (job: Job) => void, row?: Row): void;
  /** Goes on with the last action. */
  amend(change: (job: Job) => void, row?: Row): void;
  undo(): void;
  set(settings: Partial<Settings>): void;
  /** Puts another job, or none, on the bench; what is put away is kept beside it. */
  take(words: string, job: Job | null, away: Job | null): void;
  /** Called whenever anything changed; with a row where no other row is touched. */
  paint(row?: Row): void;
  painters: ((row?: Row) => void)[];
}

declare var baybookCondition: { words(when: string): string[]; asks(row: HTMLElement): string };
declare var baybookMake: <K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes?: Record<string, string | boolean | null>,
  ...children: (Node | string)[]
) => HTMLElementTagNameMap[K];
/** What rows of an engine sheet are judged by, by the id of the row, under the names of `dataset`. */
declare var baybookLimits: Record<string, Record<string, string>> | undefined;

/** What stands before the bench has come, for it to take over. */
declare var baybookOpening: {
  slot(at: number, pair: boolean): HTMLElement;
  /** Brings the bench, once. */
  open(then?: () => void): void;
  taken(): void;
  bar: { section: HTMLElement; undo: HTMLButtonElement; job: HTMLButtonElement };
};

declare var baybookDraw: {
  make<K extends keyof HTMLElementTagNameMap>(
    tag: K,
    attributes?: Record<string, string | boolean | null>,
    ...children: (Node | string)[]
  ): HTMLElementTagNameMap[K];
  shape(mark: Said["mark"] | "stop"): SVGSVGElement;
  marks(drawing: SVGSVGElement, readings: { low: number; high: number; mark: Said["mark"] }[]): void;
};

declare var baybookRows: {
  read(sheet: HTMLElement): Row[];
  gauges(row: Row): [string, GaugeFacts][];
};

declare var baybookJudging: {
  typed(slot: Slot): Typed | null;
  take(bench: Bench, row: Row, at: number, typed: Typed): Omit<Reading, "no" | "open" | "withdrawn">;
  inHand(job: Job | null, row: Row): { gauge: string | null; instead: string | null };
  choose(job: Job, row: Row, chosen: string): void;
  again(bench: Bench, job: Job): number;
  answer(job: Job, asks: string, all: boolean): void;
  otherwise(job: Job | null, asks: string): number;
  state(job: Job | null, asks: string): Reading["state"];
};

declare var baybookFields: {
  build(bench: Bench, row: Row): void;
  slots(bench: Bench, row: Row): void;
  typed(bench: Bench, slot: Slot): void;
  next(bench: Bench, slot: Slot, step: 1 | -1): void;
};

declare var baybookStates: { build(bench: Bench): void; give(bench: Bench, asks: string, answer: Answer): void };
declare var baybookSteps: { build(bench: Bench): void };
declare var baybookProof: {
  build(bench: Bench, id: string, steps: HTMLElement[]): () => void;
  open(ticked: Record<string, string>): { what: string; until: string }[];
};
declare var baybookAwake: { build(): void };
declare var baybookLeave: {
  close(bench: Bench, job: Job, words: string): boolean;
  park(bench: Bench, job: Job): void;
  list(bench: Bench, job: Job, gone?: () => void): HTMLElement;
  refusal(job: Job): string;
  lacks(job: Job): string;
};
declare var baybookEnds: {
  standing(job: Job): LeftOpen[];
  leftOpen<T extends { what: string; from: string; until: string }>(items: T[], ticked: Record<string, string>): T[];
  missing(facts: {
    steps: string[];
    ticked: Record<string, string>;
    open: { what: string; until: string }[];
    readings: { title: string; judged: VerdictWord | null }[];
  }): string[];
};
/** A bulletin that says not to run a machine. */
interface StopFacts {
  title: string;
  date: string | null;
  note: string | null;
}
declare var baybookStops: (stops: StopFacts[]) => HTMLElement[];
/** Where the limits of each build are, ids that moved with what they are now, and builds that must not be run. */
declare var baybookBuilds: { limits: Record<string, string>; moved: Record<string, string>; stops: Record<string, StopFacts[]> } | undefined;
declare var baybookVerdict: {
  judge(reading: Judgeable): { text: string; judged: Verdict };
  side(reading: Judgeable): Side;
  /** True where a machine so measured must not be run. */
  mustStop(reading: Reading): boolean;
};
declare var baybookToday: {
  lines(job: Job, now: { release: string; content: string }, rows: Record<string, Record<string, string>> | null, moved: Record<string, string>): string[];
};
declare var baybookReport: {
  name(reading: Reading): string;
  limits(reading: Reading): string;
  WRITTEN: [string, string, number][];
  BLANK: string;
  HEADS: string[];
  owner(job: Job, now?: Date): [string, string[]][];
  measured(job: Job): { text: string; reading: Reading; first: Reading | null }[];
  shop(job: Job): [string, string[]][];
  readings(job: Job): string[][];
};
declare var baybookPaperLine: { draw(reading: Reading, first: Reading | null): SVGSVGElement | null };
declare var baybookGuard: { build(bench: Bench): void };
declare var baybookOptions: { paint(bench: Bench, slot: Slot, box: HTMLElement): void };
declare var baybookSettings: { build(bench: Bench): HTMLElement };
declare var baybookPanel: { build(bench: Bench): void };
declare var baybookBar: { build(bench: Bench): void };
declare var baybookJobFile: {
  name(job: Job): string;
  save(job: Job): void;
  choose(done: (read: { ok: true; job: Job } | { ok: false; because: string }) => void): HTMLInputElement;
};
