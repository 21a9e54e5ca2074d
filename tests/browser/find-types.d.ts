/** The find: what its scripts share, and the rows of its index as `src/find/shards.rs` writes them. */

/** What one piece of what was typed asks. */
interface BaybookPiece {
  words: string[];
  quantities: BaybookValue[];
  bare: string[];
  years: [number, boolean][];
  serials: string[];
  refused: string | null;
}

interface BaybookAsked extends BaybookPiece {
  pieces: [string, BaybookPiece][];
}

interface BaybookTyped {
  word: string;
  meant: Map<string, number>;
  known: boolean;
}

/** Machine, name, build, words, other words of its sort, those that lead to it, spans of years and serial numbers, id and machines of the build. */
type BaybookFitted = [string, string, number, string, string, string, [number, number, string, number, number][], string];
/** Kind, id, title, text, sheet, words (of a part, without those of the title), other words of its sort, those that lead to it. */
type BaybookFixed = [string, string, string, string, string, string, string, string];
/** Unit → number → who prints it as the value aimed at, and who as a limit: `thing:row row,thing:row`. */
type BaybookBucket = Record<string, Record<string, [string, string]>>;

/** The rows that builds of an engine state of a stretch of things, for each the text, or with it how many builds share it and whether it is open, and by build the rows that it does not state. */
type BaybookStated = [string, (string | [string, number?, number?])[], Record<number, string>];
/** What a build may state of a thing: the part it stands in, what a line of it scores at most for any build, and for this. */
interface BaybookPair {
  build: number;
  name: string;
  own: number;
  most: number;
}
/** A number, where it lies in SI and how large a step of its last digit is there, roughly, and who prints it. */
interface BaybookPrinted {
  unit: BaybookUnit;
  form: string;
  at: number;
  ulp: number;
  value(): BaybookValue;
  exact(): BaybookRational;
  /** As the value aimed at, and as a limit. */
  printing: [string, string] | null;
  /** The same as rows, once they are needed. */
  rows: number[][] | null;
}
/** A value that may be meant, and whether it was typed without a unit. */
type BaybookTried = [BaybookValue, boolean];

/** Kind, id, title, other names, units, places and conditions. */
type BaybookNamed = [number, string, string, string, number, string];

interface BaybookThings {
  kinds: string[];
  units: string[];
  /** `cylinder=rear|engine=cold;air=20 °C`. */
  scopes: string[];
  /** Ids of the names, as `unshared` reads them. */
  ids: string;
  /** One `BaybookNamed` after another, without its id. */
  named: (string | number)[];
  short: string;
  words: string;
  values: string;
  /** The names that each procedure uses, as rows of things are told. */
  uses: string;
  /** The first name of each part of first rows. */
  packs: number[];
  /** How many rows each thing has, a hexadecimal figure each, fifteen at most; a run of the same as `f(120)`. */
  rows: string;
}

interface BaybookThing {
  kind: string;
  of: string;
  title: string;
  where: Record<string, string>;
  when: Record<string, string>;
  named: number;
  beside: string[];
}

interface BaybookFindHead {
  /** The names that print a unit. */
  printing(symbol: string): Set<number>;
  names: string[][][];
  /** The names that a procedure uses, by its thing. */
  uses: Map<number, number[]>;
  /** The first thing that a procedure uses. */
  firstUsed: Map<number, number>;
  /** How many places and conditions each name has. */
  scopes: number[];
  things: BaybookThing[];
  /** Which names, and which things beside their names, have a word. */
  having: Map<string, { names: number[]; things: number[] }>;
  known: Set<string>;
  pairs: Set<string>;
  units: string[][];
  readonly values: Set<string>;
  short: Map<string, string[]>;
  leads: Map<string, string>;
  packs: number[];
  /** How many rows each thing has, a hexadecimal figure each, fifteen at most. */
  rows: string;
}

interface BaybookRows {
  fitted: Map<number, BaybookFitted>;
  fixed: Map<number, BaybookFixed>;
  /** The build looked at last, and what it is called. */
  last: [number, string] | null;
}

/** Gives a part of the index, or of the code; and may tell whether it has one already. */
type BaybookLoad = ((name: string) => Promise<any>) & { has?: (name: string) => boolean };

interface BaybookJoin {
  things: [number, number][];
  builds: [number, number][];
  byName: boolean;
  /** Rows that print what a piece asks, and what that counts. */
  held: Map<number, number>[];
  found: BaybookRows;
}

/** A line and its place: kind 0 is a row of a thing, 1 a machine, 2 a code or a manual. */
interface BaybookRank {
  score: number;
  /** What it scores for whichever build. */
  own: number;
  kind: number;
  at: number;
  row: number;
  /** Shown for it; null is the first that states it. */
  build: number | null;
  /** Whether it waits until others that fit as well had their turn. */
  waits: boolean;
  /** Whether it is shown for its build's own sake. */
  isNear: boolean;
}

/** Text and first build; then how many builds share it, and 1 if it is open. */
type BaybookTold = [string, number, number?, number?];
/** What first builds are called, and rows of things by their number. */
type BaybookPart = [Record<number, string>, Record<number, Record<number, BaybookTold>>];

/** A query as it is understood, and what it leads to. */
interface BaybookSought extends BaybookJoin {
  load: BaybookLoad;
  head: BaybookFindHead;
  asked: BaybookAsked;
  typed: BaybookTyped[];
  names: [number, number[]][];
  made: Set<number>;
  machines: [number, number][];
  tried: BaybookTried[][];
  /** Whether words say which units a number without one is meant in. */
  byWords: boolean;
  ranks: BaybookRank[];
}

interface BaybookNear {
  apart: BaybookRational;
  number: string;
  title: string;
}

interface BaybookAnswer {
  lines: BaybookFound[];
  leftOut: string[];
  notes: string[];
  sought: BaybookSought;
}

interface BaybookFound {
  kind: string;
  build: string | null;
  builds: number;
  machine: string | null;
  of: string;
  title: string;
  where: Record<string, string>;
  when: Record<string, string>;
  text: string;
  open: boolean;
  score: number;
  href: string;
}

declare var baybookFind: { take(name: string, rows: any): void };
declare var baybookFindWords: {
  words(text: string): string[];
  slips(typed: string, word: string): number | null;
  apart(typed: string, word: string): number | null;
  fit(typed: string, word: string): number;
  key(word: string): string;
  unshared(texts: string[]): string[];
  ask(text: string, inWords: boolean): BaybookAsked;
  yearOf(piece: string): [number, boolean] | null;
  mayBeSlip(typed: string): boolean;
  needsNumbers(text: string): boolean;
};
declare var baybookFindHead: {
  headOf(raw: BaybookThings): BaybookFindHead;
  isRead(raw: BaybookThings): boolean;
  leadsOf(raw: BaybookThings): Map<string, string>;
  isLed(leads: Map<string, string>, word: string): boolean;
};
declare var baybookFindMatching: {
  near(typed: string, all: Iterable<string>): Map<string, number>;
  joined(asked: string[], known: Set<string>): string[];
  fits(typed: BaybookTyped, word: string): number;
  named(names: string[][], typed: BaybookTyped[]): [number, number[]];
  thing(name: [number, number[]], beside: string[], typed: BaybookTyped[]): number;
  machine(one: BaybookFitted, typed: BaybookTyped[]): { byName: number; whole: number };
  fixed(one: BaybookFixed, typed: BaybookTyped[]): number;
  leads(own: string, sampled: string, typed: BaybookTyped[]): boolean;
  best(typed: BaybookTyped, all: string[]): number;
  bestWhole(typed: BaybookTyped, all: string[]): number;
  titled(one: BaybookFixed): BaybookFixed;
  wordsOf(one: BaybookFixed): string[];
  wordsOfFitted(one: BaybookFitted): string[];
};
declare var baybookFindPlaces: {
  placeOf(thing: number, row: number): number;
  thingOf(place: number): number;
  rowOf(place: number): number;
  rows(text: string): number[];
};
declare var baybookFindHeld: {
  buckets(value: BaybookValue, digits: number): string[] | null;
  parts(value: BaybookValue, names: Set<string>): string[];
  bareParts(value: BaybookValue, names: Set<string>): string[];
  exactParts(value: BaybookValue, names: Set<string>): string[];
  values(piece: BaybookPiece, names: Set<string>, symbols: string[]): BaybookTried[];
  held(load: BaybookLoad, head: BaybookFindHead, tried: BaybookTried[], enough: number): Promise<Map<number, number>>;
};
declare var baybookFindStated: {
  partOf(head: BaybookFindHead, engine: string, thing: number): string;
  partsOf(head: BaybookFindHead, engine: string): string[];
  engineOf(called: string): string;
  rowsOf(part: BaybookStated, build: number): Set<number>;
  lineOf(part: BaybookStated, row: number): [string, number, number];
  all(load: BaybookLoad, head: BaybookFindHead, engine: string, build: number): Promise<number[]>;
};
declare var baybookFindPairs: {
  rows(load: BaybookLoad, head: BaybookFindHead, join: BaybookJoin, limit: number): Promise<BaybookRank[]>;
  before(a: BaybookRank, b: BaybookRank): number;
  listed(head: BaybookFindHead, things: [number, number][], limit: number): [number, number][];
  spread(head: BaybookFindHead, each: [number, number][], limit: number): string[];
  likely(head: BaybookFindHead, found: BaybookRows, builds: [number, number][], things: [number, number][], limit: number): string[];
  nextPart(head: BaybookFindHead, thing: number): string | null;
  calledOf(found: BaybookRows, build: number): string;
  told(load: BaybookLoad, head: BaybookFindHead, found: BaybookRows, rank: BaybookRank): Promise<BaybookFound>;
};
declare var baybookFindFits: {
  fits(sought: BaybookSought, at: number): boolean;
  typedOf(sought: BaybookSought, piece: BaybookPiece): number[];
  isHeld(sought: BaybookSought, at: number): boolean;
  hasSerial(sought: BaybookSought, piece: BaybookPiece): boolean;
  inLine(sought: BaybookSought, kind: number, at: number, typed: number): boolean;
  meantBuilds(builds: [number, number][]): number[];
  serial(one: BaybookFitted, piece: BaybookPiece): number;
  namesOf(asked: BaybookAsked, found: BaybookRows, named: boolean, years: Set<number>): Set<string>;
};
declare var baybookFindSaid: { notes(sought: BaybookSought): Promise<string[]> };
declare var baybookFindGuess: { guesses(text: string, head: BaybookFindHead, found?: BaybookRows): string[] };
/** Makes ready what later keys may ask. */
interface BaybookAhead {
  stop(): void;
  /** The answer that is ready, for who looked at a build last. */
  known(text: string, last: string | null): BaybookAnswer | undefined;
  /** Goes on after an answer, first with what the next key may ask. */
  after(text: string, last: string | null, answer: BaybookAnswer | null): void;
}
/** What the field tells of itself: how it searches, whether a query is being answered, and the build looked at last. */
interface BaybookFindField {
  search(load: BaybookLoad, text: string, last: string | null): Promise<BaybookAnswer>;
  isBusy(): boolean;
  last(): string | null;
}
declare var baybookFindAhead: { start(load: BaybookLoad, head: BaybookFindHead, field: BaybookFindField): BaybookAhead };
declare var baybookFindSearch: {
  search(load: BaybookLoad, text: string, last: string | null, limit: number): Promise<BaybookAnswer>;
  prepare(load: BaybookLoad): Promise<BaybookFindHead>;
};
