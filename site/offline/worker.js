// @ts-check
/*
 * Keeps one release of the handbook on the device, whole, and hands its files out without a network.
 *
 * `baybookRelease` stands before this text: the release, and where the list of its files lies. Each file is held
 * against the SHA-256 of that list, so that a release being replaced on the host while it is fetched is never kept
 * half old, half new. A release has a cache of its own and takes over only when the last file has come; what has come
 * of one that was broken off is not fetched again, nor what a kept release has already.
 *
 * Invariant: a sheet never gets a part of another release. What a sheet asks for has the hash of its content in its
 * name, sheets themselves come only from the cache of the release in force, and an older cache stays for as long as a
 * sheet of it is open.
 */
(() => {
  "use strict";
  const scope = /** @type {OfflineScopeShape} */ (/** @type {unknown} */ (globalThis));
  const { release, content, list, digest } = baybookRelease;
  const root = scope.registration.scope;
  // Other handbooks may lie on the same host: what belongs to this one begins with its address.
  const prefix = `baybook ${root} `;
  const own = `${prefix}${content} ${digest}`;
  /** Stands in a cache whose release was followed by another. */
  const followed = `${root}?followed`;
  const DIGEST = "baybook-sha256";
  /** Files asked for at a time. */
  const AT_ONCE = 8;
  /** Milliseconds before a file is asked for again. */
  const PAUSES = [1_000, 5_000];
  /** Milliseconds after which a file that does not come is given up. */
  const PATIENCE = 120_000;
  /** A browser ends what takes longer than five minutes; the sheet has it go on. */
  const LONGEST = 240_000;
  /** Milliseconds between two words on how far it is. */
  const OFTEN = 300;

  /** Why a release is not kept as yet. */
  class Unkept extends Error {
    /** @param {"refused" | "full" | "broken off"} why @param {string} [file] */
    constructor(why, file = "") {
      super(`${why} ${file}`);
      this.why = why;
      this.file = file;
    }
  }

  /** @param {string} path */
  const addressOf = (path) => new URL(`./${path}`, root).href;
  const releases = async () => (await caches.keys()).filter((name) => name.startsWith(prefix));
  const pages = async () => (await scope.clients.matchAll({ includeUncontrolled: true, type: "window" })).filter((page) => page.url.startsWith(root));

  /** @param {OfflineNews} news */
  async function tell(news) {
    for (const page of await pages()) {
      page.postMessage(news);
    }
  }

  /** @param {ArrayBuffer} bytes the SHA-256 in Base64 */
  async function hash(bytes) {
    return btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))));
  }

  /** A file from the host; nothing where it cannot be had for now. @param {string} path @param {RequestCache} cache */
  async function ask(path, cache) {
    try {
      const answer = await fetch(addressOf(path), { cache, credentials: "same-origin", signal: AbortSignal.timeout(PATIENCE) });
      if (!answer.ok && answer.status !== 404 && answer.status !== 410) {
        return null;
      }
      return { bytes: answer.ok ? await answer.arrayBuffer() : null, type: answer.headers.get("content-type") ?? "application/octet-stream" };
    } catch {
      return null;
    }
  }

  /** A file from the host, as the list has it. @param {string} path @param {string} expected */
  async function fetched(path, expected) {
    /** @type {RequestCache} */
    let cache = "no-cache";
    for (let again = 0; ; again += 1) {
      const given = await ask(path, cache);
      if (given?.bytes && (await hash(given.bytes)) === expected) {
        return new Response(given.bytes, { headers: { "content-type": given.type, [DIGEST]: expected } });
      }
      if (given && cache === "reload") {
        throw new Unkept("refused", path);
      }
      const pause = PAUSES[again];
      if (pause === undefined) {
        throw new Unkept("broken off");
      }
      if (given) {
        // Between here and the host something may hand out an older one.
        cache = "reload";
      } else {
        await new Promise((resolve) => setTimeout(resolve, pause));
      }
    }
  }

  /** The same bytes in a release that is kept. @param {string[]} others @param {string} address @param {string} expected */
  async function had(others, address, expected) {
    for (const cacheName of others) {
      const kept = await caches.match(address, { cacheName });
      if (kept?.headers.get(DIGEST) === expected) {
        return kept;
      }
    }
    return null;
  }

  /** @returns {Promise<[string, string][]>} path below the handbook, and SHA-256 in Base64 */
  async function listed() {
    const answer = await fetched(list, digest);
    return answer.json();
  }

  /** @param {Cache} cache @param {string} address @param {Response} file */
  async function put(cache, address, file) {
    try {
      await cache.put(address, file);
    } catch {
      throw new Unkept("full");
    }
  }

  /** Tells now and then how many files have come; what is given back ends it. @param {() => number} kept @param {number} of */
  function telling(kept, of) {
    let told = -1;
    const say = () => {
      if (kept() !== told) {
        told = kept();
        void tell({ kind: "coming", release, kept: told, of });
      }
    };
    say();
    const timer = setInterval(say, OFTEN);
    return () => clearInterval(timer);
  }

  async function keepAll() {
    const begun = Date.now();
    const cache = await caches.open(own);
    await cache.delete(followed);
    const others = (await releases()).filter((name) => name !== own);
    const files = await listed();
    const kept = new Set((await cache.keys()).map((request) => request.url));
    const missing = files.filter(([path]) => !kept.has(addressOf(path)));
    let left = missing.length;
    const told = telling(() => files.length - left, files.length);
    const line = missing.values();
    const one = async () => {
      for (const [path, expected] of line) {
        const address = addressOf(path);
        await put(cache, address, (await had(others, address, expected)) ?? (await fetched(path, expected)));
        left -= 1;
        if (Date.now() - begun > LONGEST) {
          throw new Unkept("broken off");
        }
      }
    };
    try {
      await Promise.all(Array.from({ length: AT_ONCE }, one));
    } finally {
      told();
    }
    // What was kept may have been cleared away meanwhile.
    if ((await (await caches.open(own)).keys()).length < files.length) {
      throw new Unkept("broken off");
    }
  }

  async function install() {
    try {
      await keepAll();
    } catch (error) {
      const { why, file } = error instanceof Unkept ? error : new Unkept("broken off");
      await tell({ kind: why, release, file });
      throw error;
    }
    await takeOver();
  }

  /** What each open page says of itself; one that is asleep, or has no scripts, says nothing. */
  async function open() {
    const answers = (await pages()).map((page) => {
      const { port1, port2 } = new MessageChannel();
      /** @type {Promise<OfflinePage | null>} */
      const answer = new Promise((resolve) => {
        port1.onmessage = (event) => resolve(event.data);
        setTimeout(() => resolve(null), 1_000);
      });
      page.postMessage({ kind: "who" }, [port2]);
      return answer;
    });
    return (await Promise.all(answers)).filter((page) => page !== null);
  }

  /** Takes over, unless a reading is being typed. */
  async function takeOver() {
    if (!(await open()).some((page) => page.typing)) {
      await scope.skipWaiting();
    }
  }

  async function activate() {
    for (const name of await releases()) {
      if (name !== own) {
        await (await caches.open(name)).put(followed, new Response());
      }
    }
    await scope.clients.claim();
    await tidy();
  }

  /** Removes the releases that were followed and of which no sheet is open. */
  async function tidy() {
    /** @type {string[]} */
    const older = [];
    for (const cacheName of await releases()) {
      if (cacheName !== own && (await caches.match(followed, { cacheName }))) {
        older.push(cacheName);
      }
    }
    if (older.length > 0) {
      const held = (await open()).map((page) => page.content).filter((one) => one !== content);
      const done = older.filter((name) => !held.some((one) => name.startsWith(`${prefix}${one} `)));
      await Promise.all(done.map((name) => caches.delete(name)));
    }
  }

  /** @param {Request} request @returns {Promise<Response>} */
  async function answer(request) {
    const { origin, pathname } = new URL(request.url);
    const address = origin + (pathname.endsWith("/") ? `${pathname}index.html` : pathname);
    const kept = await caches.match(address, { cacheName: own });
    if (kept || request.mode === "navigate") {
      return kept ?? fetch(request);
    }
    for (const cacheName of await releases()) {
      const older = await caches.match(address, { cacheName });
      if (older) {
        return older;
      }
    }
    return fetch(request);
  }

  scope.addEventListener("install", (event) => event.waitUntil(install()));
  scope.addEventListener("activate", (event) => event.waitUntil(activate()));
  scope.addEventListener("fetch", (event) => {
    const { request } = event;
    if (request.method === "GET" && request.url.startsWith(root)) {
      event.respondWith(answer(request));
    }
  });
  scope.addEventListener("message", (event) => {
    if (event.data === "take over") {
      event.waitUntil(takeOver());
    } else {
      event.ports[0]?.postMessage({ release, content });
      // Asked by a page that has just opened: the one before it has closed.
      event.waitUntil(tidy());
    }
  });
})();
