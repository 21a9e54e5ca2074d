// @ts-check
/*
 * The results of checks on a complaint sheet: what showed and what was clear, and the order from there.
 * Inserted here, so that no dead button stands without scripts; the printed order holds all the same. The
 * results stand in the address of the page: they outlast a reload, and another copy of the handbook opens
 * them from the same address. They are kept with the job too.
 */
(() => {
  "use strict";
  const section = /** @type {HTMLElement | null} */ (document.querySelector("[data-complaint]"));
  const list = section?.querySelector("ol");
  if (!section || !list || typeof baybookCompute === "undefined") {
    return;
  }
  /** @typedef {"clear" | "shown"} Result */
  /** @type {BaybookComplaint & { access: { id: string, title: string }[] }} */
  const complaint = JSON.parse(section.dataset["complaint"] ?? "{}");
  const entries = [...list.children].map((entry) => /** @type {HTMLElement} */ (entry));
  const keeper = new baybookKept(section.dataset["complaintId"] ?? "", complaint.causes.filter((one) => one.residual).map(({ id }) => id));
  /** @type {Record<string, Result>} */
  let results = kept();

  /** What stands in the address, else in the job of this device, as far as this complaint has such checks. */
  function kept() {
    const query = new URLSearchParams(location.search);
    const of = (/** @type {Result} */ result) =>
      (query.get(result) ?? "").split(",").flatMap((check) => (known(check) ? [[check, result]] : []));
    const given = [...of("clear"), ...of("shown")];
    return Object.fromEntries(given.length > 0 ? given : Object.entries(keeper.results()).filter(([check]) => known(check)));
  }

  /** @param {string} check */
  function known(check) {
    return complaint.checks.some((one) => one.id === check);
  }

  function keep() {
    const query = new URLSearchParams(location.search);
    for (const result of ["clear", "shown"]) {
      const checks = Object.keys(results).filter((check) => results[check] === result);
      query.delete(result);
      if (checks.length > 0) {
        query.set(result, checks.join(","));
      }
    }
    const text = query.toString().replaceAll("%2C", ",");
    history.replaceState(null, "", `${location.pathname}${text === "" ? "" : `?${text}`}${location.hash}`);
  }

  /** @param {BaybookRational} number */
  const tenths = (number) => number.roundedTo(baybookCompute.Rational.tenTo(-1), "half-even").text();
  /** @param {string} words */
  const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);

  /**
   * @param {HTMLElement} entry
   * @param {string} part
   * @param {string} text
   */
  function write(entry, part, text) {
    const place = /** @type {HTMLElement | null} */ (entry.querySelector(`[data-part="${part}"]`));
    if (place) {
      place.textContent = text;
      place.hidden = text === "";
    }
  }

  /**
   * What is opened for a check, and what it needs that is open.
   * @param {HTMLElement} entry
   * @param {string[]} opens
   */
  function writeAccess(entry, opens) {
    const place = entry.querySelector('[data-part="access"]');
    const job = baybookCompute.orderJob.job(complaint);
    const at = job.checks.indexOf(entry.dataset["check"] ?? "");
    const lines = baybookCompute.orderJob.members(job.needs[at] ?? 0n).map((step) => {
      const access = complaint.access[step];
      const first = access !== undefined && opens.includes(access.id);
      const line = document.createElement("p");
      line.className = first ? "access" : "access again";
      line.textContent = first ? `First: ${access.title}, ${access.minutes} min more` : `Needs: ${access?.title}, open by then`;
      return line;
    });
    place?.replaceChildren(...lines);
  }

  /**
   * What heat costs from here; a check with nothing left to show is not done, and changes no heat.
   * @param {BaybookOrderStep[]} steps
   */
  function writeHeat(steps) {
    const { changes, heat } = baybookCompute.orderHeat;
    const of = (/** @type {string} */ id) => complaint.checks.find((one) => one.id === id) ?? {};
    const ahead = steps.filter((step) => step.finds.sign() > 0).map(({ check }) => check);
    const costs = heat(Object.keys(results).map(of), ahead.map(of));
    for (const entry of entries) {
      const cost = costs[ahead.indexOf(entry.dataset["check"] ?? "")];
      const change = cost?.first ? changes[cost.first] : null;
      const voided = (cost?.voids ?? []).map((at) => document.getElementById(`check-${ahead[at]}`)?.querySelector("h3")?.textContent);
      const none = "common practice, no source";
      write(entry, "heat", change ? `First: ${change.words}, ${change.minutes} min more (${none})` : "");
      write(entry, "voids", voided.length > 0 ? `It takes the cold engine away from: ${voided.join("; ")}. Do that first, or the engine must cool again, ${changes.cool.minutes} min (${none})` : "");
    }
  }

  /**
   * The check as it stands in the order from here.
   * @param {BaybookOrderStep} step
   * @param {BaybookRational} counted past jobs with a cause that is left
   */
  function place(step, counted) {
    const entry = entries.find((one) => one.dataset["check"] === step.check);
    if (entry) {
      write(entry, "by", `done ${tenths(step.by)} min in`);
      const jobs = `${tenths(step.finds.times(counted))} of ${counted.text()}`;
      write(entry, "why", step.finds.sign() === 0 ? sentence(step.why) : `Finds it in ${jobs}: ${step.why}`);
      writeAccess(entry, step.opens);
      list?.append(entry);
    }
  }

  /**
   * The order from here; what is done stands behind it.
   * @param {BaybookOrderStep[]} steps
   * @param {BaybookOrder} order
   */
  function show(steps, order) {
    const { Rational } = baybookCompute;
    const counted = complaint.causes
      .filter((cause) => cause.id in order.left)
      .reduce((all, cause) => all.plus(Rational.parse(String(cause.share)) ?? all), new Rational(0n));
    steps.forEach((step) => place(step, counted));
    writeHeat(steps);
    for (const entry of entries) {
      const result = results[entry.dataset["check"] ?? ""];
      entry.classList.toggle("done", result !== undefined);
      if (result !== undefined) {
        write(entry, "by", "done");
        write(entry, "why", result === "shown" ? "It shows the cause" : "Clear: none of what it shows");
        list?.append(entry);
      }
      for (const button of entry.querySelectorAll("button")) {
        button.setAttribute("aria-pressed", String(button.value === result));
      }
    }
    for (const cause of complaint.causes.filter((one) => !one.residual)) {
      document.getElementById(`cause-${cause.id}`)?.classList.toggle("cleared", !(cause.id in order.left));
    }
  }

  /**
   * @param {BaybookOrderStep[]} steps
   * @param {BaybookOrder} order
   */
  function words(steps, order) {
    const title = (/** @type {string} */ anchor, /** @type {string} */ part) =>
      document.getElementById(anchor)?.querySelector(part)?.textContent ?? "";
    const left = Object.keys(order.left);
    const next = steps.find((step) => step.finds.sign() > 0);
    if (left.length === 0) {
      return "Every cause that a check shows is cleared. Ask again what the owner meant, and look further.";
    }
    const found = left.length === 1 && Object.values(results).includes("shown");
    const causes = left.map((cause) => title(`cause-${cause}`, "b")).join("; ");
    const onward = next === undefined ? "" : ` Next: ${title(`check-${next.check}`, "h3")}.`;
    const mind = next !== undefined && document.getElementById(`check-${next.check}`)?.querySelector("[data-hazard]") ? " Read its cautions first." : "";
    const minutes = tenths(baybookCompute.Rational.parse(order.expected_minutes) ?? new baybookCompute.Rational(0n));
    if (!found && baybookCompute.orderToldApart(complaint, results) === false) {
      return `Left: ${causes}.${onward} No check of this guide tells them apart: look at each of them, as the maker's current manual has it.${mind}`;
    }
    return found
      ? `Found: ${causes}. Does it explain everything? About one job in eight has two causes (common practice, no source).`
      : `Left: ${causes}.${onward} ${minutes} min to the cause on average from here.${mind}`;
  }

  function update() {
    const order = baybookCompute.order(complaint, results);
    const steps = baybookCompute.orderSteps(complaint, results);
    if ("error" in order || "error" in steps) {
      said.textContent = "error" in order ? `${sentence(order.error.message)}: ${order.error.help}.` : "";
      return;
    }
    show(steps, order);
    keeper.left = Object.keys(order.left);
    keeper.paint();
    said.textContent =
      Object.keys(results).length === 0 ? "No check is done yet. Say of each what it said; the order goes on from there." : words(steps, order);
  }

  /**
   * @param {HTMLElement} entry
   * @param {Result} result
   * @param {string} label
   */
  function button(entry, result, label) {
    const check = entry.dataset["check"] ?? "";
    const made = document.createElement("button");
    Object.assign(made, { type: "button", value: result, textContent: label });
    made.addEventListener("click", () => {
      const { [check]: before, ...others } = results;
      const wanted = before === result ? others : { ...others, [check]: result };
      const refused = baybookCompute.order(complaint, wanted);
      results = "error" in refused ? results : wanted;
      keep();
      update();
      if (!("error" in refused)) {
        const title = document.getElementById(`check-${check}`)?.querySelector("h3")?.textContent ?? check;
        keeper.keep(`check: ${title}`, results, Object.keys(refused.left));
      }
      if ("error" in refused) {
        said.textContent = `Not taken: ${refused.error.message}; ${refused.error.help}.`;
      }
      made.focus({ preventScroll: true });
    });
    return made;
  }

  const said = document.createElement("output");
  said.className = "results-said";
  list.before(said, keeper.element);
  for (const entry of entries) {
    const box = document.createElement("p");
    box.className = "results";
    box.append(button(entry, "clear", "Clear"), button(entry, "shown", "Shows it"));
    entry.append(box);
  }
  if ("error" in baybookCompute.order(complaint, results)) {
    results = {};
  }
  update();
})();
