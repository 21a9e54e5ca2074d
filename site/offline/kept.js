// @ts-check
/*
 * Has the handbook kept on the device where it comes from a web host, and says at the foot of the sheet how far that
 * is. From a disk or a stick this script is not loaded: there the handbook lies at hand already.
 *
 * Invariant: a sheet is never exchanged under the hands of its reader. A newer release takes over while nothing is
 * being typed, and an open sheet stays what it is until the reader has it shown anew.
 */
(() => {
  "use strict";
  if (!isSecureContext || !("serviceWorker" in navigator)) {
    return;
  }
  /** Milliseconds until what was broken off goes on, and until a host is asked for a newer release. */
  const GOES_ON = 20_000;
  const ASKS = 3_600_000;
  const { root = "", content = "", release: here = "" } = document.body.dataset;
  const { serviceWorker } = navigator;
  /** @param {string} file */
  const at = (file) => new URL(`./${root}${file}`, location.href).href;

  // How far it is can be read at any time; only what is new is also said.
  const line = document.createElement("p");
  line.className = "kept";
  const stands = document.createElement("span");
  const news = document.createElement("span");
  news.setAttribute("role", "status");
  const show = document.createElement("button");
  show.type = "button";
  show.hidden = true;
  show.addEventListener("click", () => location.reload());
  line.append(stands, " ", news, show);
  const style = document.createElement("link");
  style.rel = "stylesheet";
  style.href = root + (document.querySelector(".find")?.getAttribute("data-late") ?? "");
  document.head.append(style);
  /** The release in force on this device. */
  let kept = "";
  /** A release that has come whole and waits. @type {ServiceWorker | null} */
  let waiting = null;
  /** Whether going on soon would not help. */
  let givenUp = false;
  /** @type {WeakSet<ServiceWorker>} */
  const followed = new WeakSet();
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;

  /** @param {string} words that stand there @param {string} [said] what is new */
  function write(words, said = "") {
    stands.textContent = words;
    if (news.textContent !== said) {
      news.textContent = said;
    }
  }

  /** Whether the reader is in the middle of something. */
  const typing = () => document.activeElement?.matches("input:not([data-find]), textarea, select") ?? false;

  /** @param {ServiceWorker} worker @returns {Promise<{release: string, content: string}>} */
  function ask(worker) {
    return new Promise((resolve) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = (event) => resolve(event.data);
      worker.postMessage("which release", [port2]);
    });
  }

  /** Says which release is in force. @param {ServiceWorker} worker @param {boolean} isNew */
  async function say(worker, isNew) {
    const inForce = await ask(worker);
    kept = inForce.release;
    const words = `Kept on this device: release ${kept}.`;
    show.hidden = inForce.content === content;
    if (show.hidden) {
      write(isNew ? "" : words, isNew ? words : "");
      return;
    }
    const other = kept === here ? `a newer copy of release ${kept}` : `release ${kept}`;
    write("", `Kept on this device: ${other}. This sheet is still ${kept === here ? "of the one before" : `of ${here}`}.`);
    show.textContent = kept === here ? "Show the newer copy" : `Show release ${kept}`;
  }

  /** @param {OfflineNews} heard */
  function hear(heard) {
    const { release } = heard;
    const first = kept === "";
    const stays = first ? "It is read from the web." : `Release ${kept} stays.`;
    show.hidden = true;
    givenUp = heard.kind === "full" || heard.kind === "refused";
    switch (heard.kind) {
      case "coming":
        return write(`${first ? "Kept on this device" : `Release ${release} is coming`}: ${heard.kept} of ${heard.of} files.`);
      case "broken off":
        return write(stands.textContent ?? "", "It goes on when the network is back.");
      case "full":
        return write("", `This device has no room for release ${release}. ${stays}`);
      case "refused":
        return write("", `Release ${release} was refused: ${heard.file} did not come as it was compiled. ${stays} Tell whoever runs the web host.`);
    }
  }

  /** @param {ServiceWorker} worker */
  async function waits(worker) {
    const { release } = await ask(worker);
    if (worker.state === "installed") {
      waiting = worker;
      show.hidden = true;
      write("", `Release ${release} has come whole. It takes over once no reading is being typed.`);
      worker.postMessage("take over");
    }
  }

  /** @param {ServiceWorker | null} worker */
  function follow(worker) {
    if (!worker || followed.has(worker)) {
      return;
    }
    followed.add(worker);
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && kept !== "") {
        void waits(worker);
      } else if (worker.state === "activated") {
        waiting = null;
        void say(worker, true);
      } else if (worker.state === "redundant" && !givenUp) {
        goOn();
      }
    });
  }

  /** Has the browser keep the handbook, or go on with what was broken off. */
  async function register() {
    const registration = await serviceWorker.register(at("offline.js"), { updateViaCache: "none" });
    registration.onupdatefound = () => follow(registration.installing);
    follow(registration.installing);
    return registration;
  }

  /** Has it look for a newer release. */
  async function look() {
    clearTimeout(timer);
    const registration = await register();
    if (registration.active && !registration.installing) {
      await registration.update();
    }
  }

  function goOn() {
    clearTimeout(timer);
    timer = setTimeout(() => void look().catch(goOn), GOES_ON);
  }

  /** What a browser needs to offer that the handbook be installed. */
  function manifest() {
    const link = document.createElement("link");
    link.rel = "manifest";
    link.crossOrigin = "use-credentials";
    link.href = at("handbook.webmanifest");
    document.head.append(link);
  }

  /** @param {MessageEvent<OfflineNews | { kind: "who" }>} event */
  function answer({ data, ports }) {
    if (data.kind === "who") {
      ports[0]?.postMessage({ content, typing: typing() });
    } else {
      hear(data);
    }
  }

  async function start() {
    manifest();
    document.querySelector(".foot")?.append(line);
    const registration = await register();
    if (registration.active) {
      await say(registration.active, false);
    }
    serviceWorker.onmessage = answer;
    if (registration.waiting) {
      await waits(registration.waiting);
    }
    const again = () => void (document.visibilityState === "visible" && look().catch(() => undefined));
    document.addEventListener("visibilitychange", again);
    addEventListener("online", again);
    // A tablet at the bench stands open for days.
    setInterval(again, ASKS);
    // When a field is left for another, the other is in hand only a moment later.
    document.addEventListener("focusout", () => setTimeout(() => waiting?.postMessage("take over"), 0));
  }

  // Denied, or the host gives no such file: the handbook is read from the host as before.
  start().catch(() => line.remove());
})();
