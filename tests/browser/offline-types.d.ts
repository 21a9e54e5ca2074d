/** What `site/offline` uses that the library of the page does not declare. */

declare var baybookRelease: {
  release: string;
  /** Start of the content hash, as each sheet has it. */
  content: string;
  /** Path of the list of files: path below the handbook, and SHA-256 in Base64. */
  list: string;
  /** SHA-256 of that list, in Base64. */
  digest: string;
};

/** How far it is with a release, and what came between. */
type OfflineNews =
  | { kind: "coming"; release: string; kept: number; of: number }
  | { kind: "broken off" | "full" | "refused"; release: string; file: string };

/** What an open sheet says of itself. */
interface OfflinePage {
  content: string;
  typing: boolean;
}

interface OfflineEventShape extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface OfflineFetchShape extends OfflineEventShape {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

interface OfflineMessageShape extends OfflineEventShape {
  readonly data: unknown;
  readonly ports: readonly MessagePort[];
}

interface OfflineClientShape {
  readonly url: string;
  postMessage(message: unknown, transfer?: Transferable[]): void;
}

interface OfflineScopeShape {
  readonly registration: ServiceWorkerRegistration;
  readonly clients: {
    matchAll(which: { includeUncontrolled: boolean; type: "window" }): Promise<OfflineClientShape[]>;
    claim(): Promise<void>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", act: (event: OfflineEventShape) => void): void;
  addEventListener(type: "fetch", act: (event: OfflineFetchShape) => void): void;
  addEventListener(type: "message", act: (event: OfflineMessageShape) => void): void;
}
