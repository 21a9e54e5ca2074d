// @ts-check
/*
 * What later keys may need, loaded while nothing is typed: what any query is likely to need, and what the next key of
 * this one is. It changes no answer, only when its parts come. Loaded once there is time.
 */
(() => {
  "use strict";
  const { isLed } = globalThis.baybookFindHead;
  const { key } = globalThis.baybookFindWords;
  const { partsOf, engineOf } = globalThis.baybookFindStated;
  const { calledOf, nextPart } = globalThis.baybookFindPairs;
  const FIGURES = [..."0123456789"];
  /** Parts that one key may need: what is typed next needs few of them. */
  const MOST = 24;
  /** Milliseconds without a key after which it begins, and how many parts come at once. */
  const [PAUSE, AT_ONCE] = [40, 4];

  /** Whether a part costs no more than a read from disk: over a wireless link hundreds of them are a load. */
  const isNear = () => location.protocol === "file:" || Boolean(navigator.serviceWorker?.controller);

  /**
   * What any query is likely to need: as much as the catalogue is long, however large the base; and the words that a slip
   * is looked up in.
   * @param {BaybookFindHead} head
   */
  function always(head) {
    const letters = [...head.leads.keys()].filter((name) => name.length === 1);
    const nexts = isNear() ? head.things.flatMap((_, thing) => nextPart(head, thing) ?? []) : [];
    return ["numbers", "held", ...head.packs.map((_, at) => `f-${at}`), ...letters.map((name) => `w-${name}`), "words", "said", ...new Set(nexts)];
  }

  /** Parts that a number without a unit is looked up in: with the very number, or, of one figure, all. @param {BaybookFindHead} head @param {string} text */
  function ofNumber(head, text) {
    try {
      const { exactParts, bareParts } = globalThis.baybookFindHeld;
      const value = globalThis.baybookCompute.Value.parse(`${text.replaceAll(",", ".")} mm`);
      return (text.length === 1 ? bareParts : exactParts)(value, head.values);
    } catch {
      return [];
    }
  }

  /** Parts of a number in every unit that begins as is typed. @param {BaybookFindHead} head @param {string} number @param {string} begun */
  function ofUnits(head, number, begun) {
    const symbols = [...new Set(head.units.flat())].filter((symbol) => symbol.toLowerCase().startsWith(begun));
    return symbols.flatMap((symbol) => {
      try {
        const { Value, units } = globalThis.baybookCompute;
        return globalThis.baybookFindHeld.parts(Value.parse(units.parse(symbol).after(number)), head.values);
      } catch {
        return [];
      }
    });
  }

  /** What the key after a text may need. @param {string} text @param {BaybookSought} sought */
  function next(text, { head, found, things, builds }) {
    const pieces = text.toLowerCase().split(/\s+/);
    const [last = "", before = ""] = pieces.reverse();
    /** @type {string[]} */
    const all = [];
    if (/^[.,0-9]+$/.test(last)) {
      const longer = FIGURES.map((figure) => last + figure);
      all.push(...longer.flatMap((one) => [...ofNumber(head, one), ...(isLed(head.leads, one) ? [`w-${key(one)}`] : [])]));
    } else if (/^[.,0-9]+$/.test(before)) {
      all.push(...ofUnits(head, before, last));
    }
    if (/^[^0-9]$/u.test(last)) {
      all.push(...[...head.leads.keys()].filter((name) => name.length > 1 && name.startsWith(last)).map((name) => `w-${name}`));
    }
    if (things.length === 0) {
      all.push(...builds.flatMap(([build]) => partsOf(head, engineOf(calledOf(found, build)))));
    }
    return [...new Set(all)].slice(0, MOST);
  }

  /** Runs what a browser compiles when it first runs, so that the first query need not wait for it; gives way to one. @param {BaybookLoad} load @param {BaybookFindHead} head @param {() => boolean} isBusy */
  async function rehearse(load, head, isBusy) {
    const name = head.things[0]?.title ?? "";
    const machine = [...head.leads.keys()].find((letters) => /^[a-z]{2}$/.test(letters)) ?? "";
    const slip = name.replace(/(.)(.)$/, "$2$1");
    for (const text of [`${name} ${machine}`, slip, "0.25 mm"]) {
      if (!isBusy()) {
        await globalThis.baybookFindSearch.search(load, text, null, 1).catch(() => undefined);
      }
    }
  }

  /**
   * Loads a few parts after the others for as long as nothing is typed and no query is being answered.
   * @param {BaybookLoad} load @param {BaybookFindHead} head @param {() => boolean} isBusy @returns {BaybookAhead}
   */
  function start(load, head, isBusy) {
    const likely = always(head);
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    let pause;
    const stop = () => clearTimeout(pause);
    const goOn = (/** @type {number} */ wait) => {
      stop();
      pause = setTimeout(async () => {
        const names = isBusy() ? [] : likely.splice(0, AT_ONCE);
        await Promise.allSettled(names.map(load));
        if (names.includes("held") && isNear()) {
          likely.push(...FIGURES.flatMap((figure) => ofNumber(head, figure)));
          await rehearse(load, head, isBusy);
        }
        if (names.length > 0) {
          goOn(0);
        }
      }, wait);
    };
    goOn(PAUSE);
    return {
      stop,
      after(text, sought) {
        likely.unshift(...(sought && isNear() ? next(text, sought) : []));
        goOn(PAUSE);
      },
    };
  }

  globalThis.baybookFindAhead = { start };
})();
