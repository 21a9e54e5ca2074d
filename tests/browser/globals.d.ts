/** What the classic scripts of the handbook share through the global object. */

interface SerialRowShape {
  kind: "span" | "rest" | "all";
  prefix?: string;
  from?: number | null;
  to?: number | null;
}

type SerialAnswerShape = { row: number } | { row: null; unsure: boolean };

declare var baybookSerial: {
  contains(row: SerialRowShape, serial: string): boolean;
  which(rows: SerialRowShape[], serial: string): SerialAnswerShape;
};
