/** What the classic scripts of the handbook share through the global object. */

interface SerialRowShape {
  kind: "span" | "rest" | "all";
  prefix?: string;
  from?: number | null;
  to?: number | null;
}

/** Called by the scripts that hold the drawings of a service group: drawings by the id of their row. */
declare var baybookDrawings: (drawings: Record<string, string>) => void;
declare var baybookLinings: (text: string) => void;

type SerialAnswerShape = { row: number } | { row: null; unsure: boolean };

declare var baybookSerial: {
  contains(row: SerialRowShape, serial: string): boolean;
  which(rows: SerialRowShape[], serial: string): SerialAnswerShape;
};
