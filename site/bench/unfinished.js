// @ts-check
/* On the home sheet: the unfinished job of this device and the machine last looked at, each one tap away. */
(() => {
  "use strict";
  const { make } = baybookDraw;
  const { base = "", root = "", content = "" } = document.body.dataset;
  const builds = document.querySelector("[data-builds]")?.getAttribute("data-builds")?.split(" ") ?? [];
  const { job, closed } = baybookStorage.open(() => localStorage, base).load();

  /** The build last looked at, unless it is that of the job. */
  function last() {
    try {
      const { build, machine } = JSON.parse(localStorage.getItem(`baybook.machine.${base}`) ?? "null") ?? {};
      const known = typeof build === "string" && /^[a-z0-9~.-]+$/.test(build) && typeof machine === "string";
      return known && build !== job?.build.id ? { build, machine } : null;
    } catch {
      return null;
    }
  }

  /** @param {string} id @param {string} title @param {HTMLElement[]} doors */
  function show(id, title, ...doors) {
    const part = make("section", { class: "part unfinished", "aria-labelledby": id }, make("h2", { id }, title), make("ul", { class: "doors" }, ...doors.map((door) => make("li", {}, door))));
    document.querySelector(".frame > .title-block")?.after(part);
  }

  /** The sheet where a machine's build is chosen, if the machine is still here. @param {string} machine */
  const chooser = (machine) =>
    [.../** @type {NodeListOf<HTMLAnchorElement>} */ (document.querySelectorAll(".maker .door"))].find((door) => door.querySelector("b")?.textContent === machine)?.getAttribute("href");

  const GONE = "its build is not in this release: choose it anew";
  const seen = last();
  const there = seen !== null && builds.includes(seen.build);
  const way = there ? `${root}builds/${encodeURIComponent(seen.build)}/engine.html` : chooser(seen?.machine ?? "");
  if (seen && way) {
    const door = make("a", { class: "door", href: way }, make("b", {}, seen.machine), make("span", {}, there ? seen.build : GONE));
    show("last-machine", "Last machine", door);
  }
  const parked = closed.filter((one) => one.closed === null);
  if (parked.length > 0) {
    const doors = parked.map((one) => make("a", { class: "door", href: `${root}job.html#${encodeURIComponent(one.id)}` }, make("b", {}, one.build.machine), make("span", {}, `begun ${one.begun.slice(0, 10)} ${baybookWords.clock(one.begun)}`)));
    show("parked", parked.length === 1 ? "Parked job" : "Parked jobs", ...doors);
  }
  if (!job) {
    return;
  }
  const { readings, out, steps, checks } = baybookRecord.summary(job);
  const words = [`${readings} ${readings === 1 ? "reading" : "readings"}`, out > 0 ? `${out} out of spec` : "", checks > 0 ? `${checks} ${checks === 1 ? "check" : "checks"} done` : "", steps > 0 ? `${steps} ${steps === 1 ? "step" : "steps"} done` : ""].filter(Boolean).join(", ");
  // A procedure of another release may be gone; the engine sheet is there while its build is, and the record always.
  const page = (job.written["last content"] ?? content) === content ? (job.written["last sheet"] ?? "engine.html") : "engine.html";
  const sheet = /^[a-z0-9.-]+\.html$/.test(page) ? page : "engine.html";
  const open = builds.includes(job.build.id) ? `${root}builds/${encodeURIComponent(job.build.id)}/${sheet}` : `${root}job.html`;
  const gone = builds.includes(job.build.id) ? "" : "; its build is not in this release";
  const door = make("a", { class: "door", href: open }, make("b", {}, `Go on with ${job.build.machine}`), make("span", {}, `${words}, begun ${job.begun.slice(0, 10)} ${baybookWords.clock(job.begun)}${gone}`));
  show("unfinished", "Unfinished job", door);
})();
