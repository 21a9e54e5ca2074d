/** The find: what its scripts share, and the rows of its index as `src/find/shards.rs` writes them. */

/** What one piece of what was typed asks. */
interface BaybookPiece {
  words: string[];
  quantities: BaybookValue[];
  bare: string[];
  years: [number, boolean][];
  serials: string[];
}

interface BaybookAsked extends BaybookPiece {
  pieces: [string, BaybookPiece][];
}

interface BaybookTyped {
  word: string;
  meant: Map<string, number>;
  known: boolean;
}

/** Machine, name, build, words, words of its sort, spans of years and serial numbers. */
type BaybookFitted = [string, string, number, string, string, [number, number, string, number, number][]];
/** Kind, id, title, text, sheet, words. */
type BaybookFixed = [string, string, string, string, string, string];
/** Unit → number → pairs of build and thing. */
type BaybookBucket = Record<string, Record<string, [number, number][]>>;

interface BaybookThings {
  /** Kind, id, title, names, units, places and conditions. */
  named: [string, string, string, string[], string[], [Record<string, string>, Record<string, string>][]][];
  short: [string, string[]][];
  words: string[];
  values: string[];
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
  raw: BaybookThings;
  names: string[][][];
  things: BaybookThing[];
  known: Set<string>;
  pairs: Set<string>;
  short: Map<string, string[]>;
  shards: Set<string>;
}

interface BaybookRows {
  fitted: Map<number, BaybookFitted>;
  fixed: Map<number, BaybookFixed>;
}

type BaybookLoad = (name: string) => Promise<any>;

interface BaybookJoin {
  load: BaybookLoad;
  head: BaybookFindHead;
  things: [number, number][];
  builds: [number, number][];
  counted: Map<string, number>;
  last: number | null;
  THINGS: number;
  BY_NAME: number;
  LAST: number;
}

interface BaybookFound {
  kind: string;
  build: string | null;
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
  fit(typed: string, word: string): number;
  key(word: string): string;
  ask(text: string): BaybookAsked;
  yearOf(piece: string): [number, boolean] | null;
  needsNumbers(text: string): boolean;
};
declare var baybookFindMatching: {
  near(typed: string, all: Iterable<string>): Map<string, number>;
  joined(asked: string[], known: Set<string>): string[];
  named(names: string[][], typed: BaybookTyped[]): [number, number[]];
  thing(name: [number, number[]], beside: string[], typed: BaybookTyped[]): number;
  machine(one: BaybookFitted, typed: BaybookTyped[]): { byName: number; whole: number };
  fixed(one: BaybookFixed, typed: BaybookTyped[]): number;
};
declare var baybookFindNumbers: {
  parts(value: BaybookValue, names: string[]): string[];
  hold(typed: BaybookValue, bucket: BaybookBucket, counts: number, all: Map<string, number>): void;
};
declare var baybookFindPairs: {
  join(join: BaybookJoin): Promise<Map<string, number>>;
  told(load: BaybookLoad, head: BaybookFindHead, rows: BaybookRows, rank: [number, number, number, number]): Promise<BaybookFound>;
};
declare var baybookFindSearch: {
  search(load: BaybookLoad, text: string, last: string | null, limit: number): Promise<{ lines: BaybookFound[]; leftOut: string[] }>;
};
