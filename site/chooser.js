// @ts-check
/*
 * The serial number field of the chooser. Inserted here, so that no dead field stands without
 * scripts; the doors below it work all the same. Every answer is in words on the door it is about.
 */
(() => {
  "use strict";
  const slot = document.querySelector(".serial-slot");
  const years = [...document.querySelectorAll("section.year")].map((section) => ({
    title: section.querySelector("h2")?.textContent ?? "",
    doors: [...section.querySelectorAll("a.fit")].map((door) => /** @type {HTMLAnchorElement} */ (door)),
  }));
  const named = years.some((year) => year.doors.some((door) => door.dataset.serial === "span"));
  if (!slot || !named) {
    return;
  }

  /** @param {HTMLElement} door */
  function rowOf(door) {
    const { serial, prefix, from, to } = door.dataset;
    const kind = /** @type {"span" | "rest" | "all"} */ (serial);
    return { kind, prefix, from: from ? Number(from) : null, to: to ? Number(to) : null };
  }

  /**
   * @param {HTMLElement} door
   * @param {string | null} answer
   */
  function mark(door, answer) {
    door.querySelector(".answer")?.remove();
    delete door.dataset.answer;
    if (answer === null) {
      return;
    }
    door.dataset.answer = answer;
    const word = document.createElement("span");
    word.className = "answer";
    word.textContent = answer === "yes" ? "This serial number" : "Not this serial number";
    door.append(word);
  }

  /** @param {string} serial */
  function answer(serial) {
    /** @type {string[]} */
    const hits = [];
    let unsure = false;
    for (const { title, doors } of years) {
      const found = baybookSerial.which(doors.map(rowOf), serial);
      const doubtful = found.row === null && found.unsure;
      const silent = serial.trim() === "" || doubtful || doors.every((door) => door.dataset.serial === "all");
      doors.forEach((door, at) => mark(door, silent ? null : at === found.row ? "yes" : "no"));
      unsure ||= doubtful;
      if (found.row !== null && doors[found.row]?.dataset.serial === "span") {
        hits.push(title.trim());
      }
    }
    return words(serial, hits, unsure);
  }

  /**
   * @param {string} serial
   * @param {string[]} hits
   * @param {boolean} unsure
   */
  function words(serial, hits, unsure) {
    if (serial.trim() === "") {
      return "The build of this number is marked below.";
    }
    if (hits.length > 0) {
      return `A named range has it in ${hits.join(", ")}. Its build is marked below.`;
    }
    return unsure
      ? "Not complete, or not written as on the plate. No build is marked until it is."
      : "No named range has it: where a year has a door for any other serial number, it is that one.";
  }

  const box = document.createElement("form");
  box.className = "serial-entry";
  box.addEventListener("submit", (event) => event.preventDefault());
  const label = document.createElement("label");
  label.htmlFor = "serial";
  label.textContent = "Serial number, as on the plate";
  const field = document.createElement("input");
  Object.assign(field, { id: "serial", type: "text", autocomplete: "off", spellcheck: false, maxLength: 60 });
  field.setAttribute("autocapitalize", "characters");
  const said = document.createElement("output");
  said.htmlFor.add("serial");
  field.addEventListener("input", () => {
    said.textContent = answer(field.value);
  });
  said.textContent = answer("");
  box.append(label, field, said);
  slot.append(box);
})();
