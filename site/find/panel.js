// @ts-check
/*
 * The field that finds. This, the search and the head of its index are loaded when it is first used.
 *
 * Parts of the index are scripts, for a sheet opened from a memory stick can read no other file. Storage
 * may be denied: then no machine is preferred, and everything else works.
 */
(() => {
  "use strict";
  const LIMIT = 12;
  /** Milliseconds between two looks whether a query is still being answered. */
  const WAIT = 50;
  const root = document.body.dataset.root ?? "";
  const stored = `baybook.machine.${document.body.dataset.base ?? ""}`;

  /** @type {Map<string, { promise: Promise<any>, give: (rows: any) => void }>} */
  const parts = new Map();

  /** A script, or the one that is already on its way. @param {string} src @returns {Promise<void>} */
  const script = (src) =>
    new Promise((done, failed) => {
      const coming = [...document.scripts].find((one) => one.getAttribute("src") === src);
      const element = coming ?? document.createElement("script");
      element.addEventListener("load", () => {
        element.remove();
        done();
      });
      element.addEventListener("error", () => {
        element.remove();
        failed(new Error(`cannot load ${src}`));
      });
      if (!coming) {
        element.src = src;
        document.head.append(element);
      }
    });

  /** The lines are dressed before there is one; on a web host they may be already. */
  function dress() {
    const href = root + (document.querySelector(".find")?.getAttribute("data-late") ?? "");
    if (document.querySelector(`link[href="${href}"]`)) {
      return;
    }
    const sheet = document.createElement("link");
    sheet.rel = "stylesheet";
    sheet.href = href;
    document.head.append(sheet);
  }
  dress();

  /** @param {string} name @param {string} src */
  function part(name, src) {
    const known = parts.get(name);
    if (known) {
      return known.promise;
    }
    /** @type {(rows: any) => void} */
    let give = () => undefined;
    const rows = new Promise((done) => {
      give = done;
    });
    const promise = script(src).then(() => rows);
    parts.set(name, { promise, give });
    promise.catch(() => parts.delete(name));
    return promise;
  }

  globalThis.baybookFind = { take: (name, rows) => parts.get(name)?.give(rows) };

  /** @type {Map<string, Promise<void>>} */
  const codes = new Map();

  /** @param {string} src */
  function once(src) {
    const loading = codes.get(src) ?? script(src);
    codes.set(src, loading);
    loading.catch(() => codes.delete(src));
    return loading;
  }

  /** The build of this sheet, else the one that was looked at last (bench/last.js). @returns {string | null} */
  function last() {
    const { build } = document.getElementById("sheet")?.dataset ?? {};
    try {
      return build ?? JSON.parse(localStorage.getItem(stored) ?? "{}").build ?? null;
    } catch {
      return null;
    }
  }

  /** @param {string} tag @param {string} name @param {string} text */
  function element(tag, name, text) {
    const made = document.createElement(tag);
    made.className = name;
    made.textContent = text;
    return made;
  }

  /** @param {string} text */
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** One line that answers. @param {BaybookFound} one @param {string | null} preferred */
  function line(one, preferred) {
    const item = document.createElement("li");
    const link = document.createElement("a");
    link.href = root + one.href;
    link.className = "hit";
    link.dataset.result = one.kind;
    const scope = [...Object.entries(one.where), ...Object.entries(one.when)].map((pair) => pair.join(" ").replaceAll("-", " "));
    link.append(element("b", "hit-what", one.title), " ");
    if (scope.length > 0) {
      link.append(element("span", "hit-scope", scope.join(", ")), " ");
    }
    if (one.text) {
      link.append(element("span", "hit-value", one.text), " ");
    }
    if (one.open) {
      link.append(element("span", "hit-open", "unconfirmed: read once"), " ");
    }
    if (one.machine) {
      const own = preferred && one.build === preferred ? " (looked at last)" : "";
      const more = one.builds > 1 ? ` and ${one.builds - 1} more build${one.builds > 2 ? "s" : ""}` : "";
      link.append(element("span", "hit-for", `${one.machine}${own}${more}`));
    }
    item.append(link);
    return item;
  }

  /** @type {BaybookFindField["search"]} */
  const search = (load, text, build) => globalThis.baybookFindSearch.search(load, text, build, LIMIT);

  /** @param {HTMLElement} panel */
  function start(panel) {
    const field = panel.querySelector("input");
    const list = panel.querySelector("ol");
    const said = panel.querySelector("p");
    if (!field || !list || !said) {
      return;
    }
    const { index = "", numbers = "", held = "", said: words = "", ahead = "" } = panel.dataset;
    let asked = 0;
    /** Whether all that was typed fits: else Enter goes to the list, to be read, and not to its first sheet. */
    let whole = true;

    /** What reads numbers is there already where the bench is. */
    const reads = async () => (globalThis.baybookCompute?.Value ? undefined : once(root + numbers));
    /** Parts of the code. @type {Record<string, () => Promise<void>>} */
    const code = { numbers: reads, held: () => once(root + held), said: () => once(root + words) };

    /** @param {string} name a part of the index, or of the code @returns {Promise<any>} */
    const load = (name) => code[name]?.() ?? part(name, `${root}${index}${name}.js`);
    load.has = (/** @type {string} */ name) => parts.has(name);

    /** What loads while nothing is typed, once it is there. @type {BaybookAhead | null} */
    let later = null;
    /** How many queries are being answered. */
    let busy = 0;

    /** Brings what loads ahead, after what is asked now. @param {BaybookFindHead} head */
    async function loadLater(head) {
      while (busy > 0) {
        await new Promise((done) => setTimeout(done, WAIT));
      }
      await once(root + ahead);
      later = globalThis.baybookFindAhead.start(load, head, { search, isBusy: () => busy > 0, last });
    }

    function close() {
      later?.stop();
      asked += 1;
      list?.replaceChildren();
      if (said) {
        said.textContent = "";
      }
    }

    async function find() {
      const typed = field?.value ?? "";
      const text = typed.trim();
      close();
      if (text === "") {
        return;
      }
      const own = asked;
      const preferred = last();
      /** @type {BaybookAnswer | null} */
      let answer = null;
      busy += 1;
      try {
        const found = later?.known(text, preferred) ?? (await search(load, text, preferred));
        if (own === asked) {
          list?.replaceChildren(...found.lines.map((one) => line(one, preferred)));
          whole = found.leftOut.length === 0;
          say(found);
          answer = found;
        }
      } catch (problem) {
        if (own === asked && said) {
          said.textContent = "The index cannot be read: this copy is not whole. Use A to Z or Machines below.";
        }
      }
      busy -= 1;
      later?.after(typed, preferred, answer);
    }

    /** @param {BaybookAnswer} answer */
    function say({ lines, leftOut, notes }) {
      const [first] = lines;
      const count = lines.length === LIMIT ? `the best ${LIMIT} lines` : lines.length === 1 ? "1 line" : `${lines.length} lines`;
      const without = leftOut.length > 0 ? `Without ${leftOut.map((one) => `“${one}”`).join(", ")}: ${count}.` : capital(`${count}.`);
      const spelt = notes.map((note) => note.replace(/`([^`]*)`/g, "“$1”")).map(capital);
      const told = spelt.map((note) => `${note}. `).join("");
      said?.replaceChildren(
        first ? told + without : `No line fits. ${told}Type what it is, a machine, or a number with its unit; or look in A to Z.`,
        // Who sees the lines reads the first where it stands.
        element("span", "heard", first ? ` First: ${first.title} ${first.text}` : ""),
      );
    }

    /** @param {KeyboardEvent} event */
    function move(event) {
      const links = [...(list?.querySelectorAll("a") ?? [])];
      const at = links.indexOf(/** @type {HTMLAnchorElement} */ (document.activeElement));
      if (event.key === "Escape") {
        close();
        if (field) {
          field.value = "";
          field.focus();
        }
      } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
        const next = at + (event.key === "ArrowDown" ? 1 : -1);
        (next < 0 ? field : links[Math.min(next, links.length - 1)])?.focus();
        event.preventDefault();
      } else if (event.key === "Enter" && document.activeElement === field) {
        whole ? links[0]?.click() : links[0]?.focus();
        event.preventDefault();
      }
    }

    field.addEventListener("input", find);
    panel.addEventListener("keydown", move);
    list.addEventListener("click", () => setTimeout(close));
    // The head of the index comes beside this; what was typed meanwhile is looked for.
    void find();
    globalThis.baybookFindSearch.prepare(load).then(loadLater).catch(() => undefined);
  }

  const panel = document.querySelector(".find");
  if (panel instanceof HTMLElement) {
    start(panel);
  }
})();
