// @ts-check
/*
 * The entry fields of a row, each with its verdict beside it. A field shows what the job holds; typing
 * writes into the job at once, so that nothing waits for a button and nothing is lost by turning the device.
 */
(() => {
  "use strict";
  const { make, shape, marks } = baybookDraw;

  /** @param {Bench} bench @param {Row} row @param {number} at */
  const reading = (bench, row, at) => baybookRecord.current(bench.shelf.job, row, at);

  /** @param {Row} row @param {number} at */
  const label = (row, at) => [row.title, row.places, at > 1 || row.slots.length > 1 ? `place ${at}` : ""].filter(Boolean).join(", ");

  /** Makes the entry of a row: its fields, and the way to one more place. @param {Bench} bench @param {Row} row */
  function build(bench, row) {
    const entry = row.element.querySelector(".entry");
    if (!entry) {
      return;
    }
    if (row.several) {
      const more = make("button", { type: "button", class: "more" }, "One more place");
      more.addEventListener("click", () => add(bench, row));
      entry.append(more);
    }
    slots(bench, row);
    row.element.addEventListener("baybook-drawn", () => drawn(bench, row));
    bench.painters.push((only) => {
      if (only && only.key !== row.key) {
        return;
      }
      slots(bench, row);
      row.slots.forEach((slot) => paint(bench, slot));
      entry.classList.toggle("begun", bench.active?.row === row || row.slots.some((slot) => slot.verdict.dataset.verdict));
      drawn(bench, row);
    });
  }

  /** @param {Bench} bench @param {Row} row */
  function add(bench, row) {
    bench.act(`one more place: ${row.title}`, (job) => {
      job.places[row.key] = Math.min(64, (job.places[row.key] ?? 1) + 1);
    });
    row.slots.at(-1)?.fields[0]?.focus();
  }

  /** As many slots as the job has places for, with one field or two. @param {Bench} bench @param {Row} row */
  function slots(bench, row) {
    const list = row.element.querySelector(".slots");
    const { job } = bench.shelf;
    const many = job?.places[row.key] ?? 1;
    const pair = Boolean(job?.pairs[row.key]);
    const fits = row.slots.length === many && row.slots.every((slot) => slot.fields.length === (pair ? 2 : 1));
    if (fits || !list) {
      return;
    }
    // The field that stood there before the bench came may hold the cursor: it is taken over where it stands.
    const standing = row.slots.length === 0 && !pair ? list.firstElementChild : null;
    const made = Array.from({ length: many }, (_, index) => slot(bench, row, index + 1, pair, index === 0 ? standing : null));
    row.slots = made;
    if (standing) {
      list.append(...made.slice(1).map((one) => one.element));
    } else {
      list.replaceChildren(...made.map((one) => one.element));
    }
    list.classList.toggle("several", many > 1);
    for (const one of made) {
      one.fields.forEach((field, at) => field.setAttribute("aria-label", `${label(row, one.at)}${pair ? (at === 0 ? ", leaf that goes" : ", leaf that stops") : ""}`));
    }
  }

  /** @param {Bench} bench @param {Row} row @param {number} at @param {boolean} pair @param {Element | null} standing @returns {Slot} */
  function slot(bench, row, at, pair, standing) {
    const element = /** @type {HTMLElement} */ (standing ?? baybookOpening.slot(at, pair));
    const fields = [...element.querySelectorAll("input")];
    const verdict = /** @type {HTMLOutputElement} */ (element.querySelector("output"));
    const made = { row, at, element, fields, unit: row.units[0] ?? "", verdict };
    for (const field of fields) {
      listen(bench, made, field);
    }
    return made;
  }

  /** @param {Bench} bench @param {Slot} slot @param {HTMLInputElement} field */
  function listen(bench, slot, field) {
    field.addEventListener("input", () => typed(bench, slot));
    field.addEventListener("focus", () => {
      bench.active = slot;
      field.select();
      bench.paint();
    });
    field.addEventListener("keydown", (event) => {
      if (event.key === "Enter") {
        event.preventDefault();
        next(bench, slot, event.shiftKey ? -1 : 1);
      } else if (event.key === "Escape") {
        field.blur();
      }
    });
    // A repeat of the same number changes no text, but is a reading taken all the same. Where the whole
    // window loses the focus, the field keeps it, and so the reading is not done.
    field.addEventListener("blur", () => document.activeElement !== field && settle(bench));
  }

  /** @param {Bench} bench */
  function settle(bench) {
    if (bench.shelf.job?.readings.some((one) => one.open)) {
      bench.amend((job) => baybookRecord.settle(job));
    }
  }

  /** Takes what stands in the fields of a slot into the job. @param {Bench} bench @param {Slot} slot */
  function typed(bench, slot) {
    const before = reading(bench, slot.row, slot.at);
    const value = baybookJudging.typed(slot);
    const name = label(slot.row, slot.at);
    if (value === null) {
      if (before) {
        const change = (/** @type {Job} */ job) => baybookRecord.withdraw(job, slot.row, slot.at, new Date().toISOString());
        before.open ? bench.amend(change, slot.row) : bench.act(`emptied: ${name}`, change, slot.row);
      }
      return;
    }
    const change = (/** @type {Job} */ job) => void baybookRecord.write(job, baybookJudging.take(bench, slot.row, slot.at, value));
    before?.open ? bench.amend(change, slot.row) : bench.act(name, change, slot.row);
  }

  /** Goes to the next field of the sheet. @param {Bench} bench @param {Slot} slot @param {1 | -1} step */
  function next(bench, slot, step) {
    settle(bench);
    const fields = bench.rows.flatMap((row) => row.slots).flatMap((one) => one.fields);
    const now = slot.fields.findIndex((field) => field === document.activeElement);
    const at = fields.indexOf(slot.fields[Math.max(0, now)] ?? /** @type {HTMLInputElement} */ (slot.fields[0]));
    const to = fields[at + step];
    to ? to.focus() : slot.fields.forEach((field) => field.blur());
  }

  /** Shows what the job holds; what is being typed is left alone. @param {Bench} bench @param {Slot} slot */
  function paint(bench, slot) {
    const held = reading(bench, slot.row, slot.at);
    if (held && !slot.fields.includes(/** @type {any} */ (document.activeElement))) {
      slot.unit = held.typed.unit;
    }
    slot.fields.forEach((field, index) => {
      const text = held ? (slot.fields.length === 1 ? held.typed.value : index === 0 ? held.typed.goes : held.typed.stops) ?? "" : "";
      // A half-typed number, as `0.`, is no reading yet and stays as it is.
      const typing = field === document.activeElement && (held !== null || !baybookKeys.complete(field.value));
      if (!typing && field.value !== text) {
        field.value = text;
      }
      field.disabled = !bench.free();
      const spelled = /[^0-9.,/\s+-]/.test(field.value);
      const unit = field.nextElementSibling;
      if (unit) {
        unit.textContent = spelled ? "" : slot.unit;
      }
    });
    judged(slot, held);
    again(bench, slot);
  }

  /** @param {Slot} slot @param {Reading | null} held */
  function judged(slot, held) {
    const { verdict, element } = slot;
    if (!held?.judged) {
      verdict.replaceChildren();
      delete verdict.dataset.verdict;
      delete element.dataset.side;
      return;
    }
    const said = baybookWords.say(held.judged);
    const stop = baybookVerdict.mustStop(held);
    const text = `${held.text}|${said.mark}|${stop}|${said.detail}`;
    if (verdict.dataset.text === text && verdict.dataset.verdict === said.mark) {
      return;
    }
    Object.assign(verdict.dataset, { verdict: said.mark, text });
    element.dataset.side = baybookVerdict.side(held);
    verdict.replaceChildren(
      shape(said.mark),
      make("span", { class: "said" }, held.text),
      make("b", {}, said.word),
      ...(stop ? [make("strong", { class: "must-stop" }, shape("stop"), "Do not run")] : []),
      make("span", { class: "detail" }, said.detail),
    );
  }

  /** What was read at this place before. @param {Bench} bench @param {Slot} slot */
  function again(bench, slot) {
    const line = slot.element.querySelector(".earlier");
    const { job } = bench.shelf;
    const before = job ? baybookRecord.earlier(job, slot.row, slot.at) : [];
    const words = before.map((one) => `${one.text} at ${baybookWords.clock(one.time)}${one.withdrawn ? ", taken back" : ""}`);
    if (line) {
      line.textContent = words.length > 0 ? `before: ${words.join("; ")}` : "";
    }
  }

  /** Marks the readings of a row on its drawing. @param {Bench} bench @param {Row} row */
  function drawn(bench, row) {
    const drawing = /** @type {SVGSVGElement | null} */ (row.element.querySelector("svg.dimension"));
    const held = row.slots.map((slot) => reading(bench, row, slot.at)).filter((one) => one !== null);
    if (drawing && (held.length > 0 || drawing.classList.contains("read"))) {
      marks(drawing, held.flatMap((one) => spot(one, row)));
    }
  }

  /** @param {Reading} held @param {Row} row */
  function spot(held, row) {
    const { value } = baybookScale;
    const at = (/** @type {string | undefined} */ text) => {
      const read = text === undefined || typeof baybookCompute === "undefined" ? null : baybookCompute.reading(text, held.typed.unit);
      const drawn = read?.ok ? baybookCompute.convert(read.text, row.units[0] ?? "") : null;
      return drawn && !("error" in drawn) ? value(drawn.exact.min) : null;
    };
    const { typed, judged } = held;
    const [low, high] = typed.value === undefined ? [at(typed.goes), at(typed.stops)] : [at(typed.value), at(typed.value)];
    const one = low ?? high;
    return one === null ? [] : [{ low: low ?? one, high: high ?? one, mark: judged ? baybookWords.say(judged).mark : /** @type {const} */ ("none") }];
  }

  globalThis.baybookFields = { build, slots, typed, next };
})();
