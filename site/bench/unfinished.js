// @ts-check
/* On the home sheet: the unfinished job of this device and the machine last looked at, each one tap away. */
(() => {
  "use strict";
  const { make } = baybookDraw;
  const { base = "", root = "" } = document.body.dataset;
  const { job } = baybookStorage.open(() => localStorage, base).load();

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

  /** @param {string} id @param {string} title @param {HTMLElement} door */
  function show(id, title, door) {
    const part = make("section", { class: "part unfinished", "aria-labelledby": id }, make("h2", { id }, title), make("ul", { class: "doors" }, make("li", {}, door)));
    document.querySelector(".frame > .title-block")?.after(part);
  }

  const seen = last();
  if (seen) {
    const door = make("a", { class: "door", href: `${root}builds/${encodeURIComponent(seen.build)}/engine.html` }, make("b", {}, seen.machine), make("span", {}, seen.build));
    show("last-machine", "Last machine", door);
  }
  if (!job) {
    return;
  }
  const { readings, out, steps, checks } = baybookRecord.summary(job);
  const words = [`${readings} ${readings === 1 ? "reading" : "readings"}`, out > 0 ? `${out} out of spec` : "", checks > 0 ? `${checks} ${checks === 1 ? "check" : "checks"} done` : "", steps > 0 ? `${steps} ${steps === 1 ? "step" : "steps"} done` : ""].filter(Boolean).join(", ");
  const page = job.written["last sheet"] ?? "engine.html";
  const sheet = /^[a-z0-9.-]+\.html$/.test(page) ? page : "engine.html";
  const door = make("a", { class: "door", href: `${root}builds/${encodeURIComponent(job.build.id)}/${sheet}` }, make("b", {}, `Go on with ${job.build.machine}`), make("span", {}, `${words}, begun ${job.begun.slice(0, 10)} ${baybookWords.clock(job.begun)}`));
  show("unfinished", "Unfinished job", door);
})();
