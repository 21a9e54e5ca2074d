// @ts-check
/*
 * What later keys may need, made ready while nothing is typed: the parts that any query is likely to need, and what the
 * next key may ask, answered. It changes no answer, only when it comes. Loaded once there is time.
 */
(() => {
  "use strict";
  const { nextPart } = globalThis.baybookFindPairs;
  const { guesses } = globalThis.baybookFindGuess;
  /** Answers that are kept, guesses at the next key, parts that one of them may ask for. */
  const [KEPT, MOST, DEAR] = [64, 16, 12];
  /** Parts of words that are loaded before one is begun, where that costs little. */
  const BEGUN = 160;
  /** Milliseconds without a key after which it begins, and that it waits at most for the browser; parts that come at once. */
  const [PAUSE, WITHIN, AT_ONCE] = [30, 1_000, 4];

  /** When the browser has nothing else to do, where it says so. @param {() => void} run */
  const idle = (run) => ("requestIdleCallback" in globalThis ? requestIdleCallback(run, { timeout: WITHIN }) : setTimeout(run));

  /** Whether a part costs no more than a read from disk: over a wireless link hundreds of them are a load. */
  const isNear = () => location.protocol === "file:" || Boolean(navigator.serviceWorker?.controller);

  /**
   * What any query is likely to need: as much as the catalogue is long, however large the base; and the words that a slip
   * is looked up in.
   * @param {BaybookFindHead} head
   */
  function always(head) {
    const letters = [...head.leads.keys()].filter((name) => name.length === 1);
    const all = ["numbers", "held", ...head.packs.map((_, at) => `f-${at}`), ...letters.map((name) => `w-${name}`), "words", "said"];
    if (!isNear()) {
      return all;
    }
    const begun = [...head.leads.keys()].filter((name) => name.length > 1).slice(0, BEGUN);
    return [...all, ...new Set(head.things.flatMap((_, thing) => nextPart(head, thing) ?? [])), ...begun.map((name) => `w-${name}`)];
  }

  /** One query of each sort, as a browser is slow where code runs for the first time; then the first keys. @param {BaybookFindHead} head */
  function rehearsal(head) {
    const name = head.things[0]?.title ?? "";
    const machine = [...head.leads.keys()].find((letters) => /^[a-z]{2}$/.test(letters)) ?? "";
    const slip = name.replace(/(.)(.)$/, "$2$1");
    return [`${name} ${machine}`, slip, "0.25 mm", ...guesses("", head)];
  }

  /**
   * Makes one thing ready after the other for as long as nothing is typed and no query is being answered.
   * @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookFindField} field @returns {BaybookAhead}
   */
  function start(load, head, { search, isBusy, last: lastOf }) {
    const likely = always(head);
    const rehearsed = isNear() ? rehearsal(head) : [];
    /** @type {{ text: string, last: string | null }[]} */
    let next = [];
    /** @type {Map<string, BaybookAnswer>} */
    const answers = new Map();
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    let pause;
    let turn = 0;

    /** @param {string} text @param {string | null} last */
    const nameOf = (text, last) => `${last ?? ""} ${text.trim()}`;

    /** @param {string} text @param {string | null} last @param {BaybookAnswer} answer */
    function keep(text, last, answer) {
      answers.delete(nameOf(text, last));
      answers.set(nameOf(text, last), answer);
      for (const oldest of [...answers.keys()].slice(0, -KEPT)) {
        answers.delete(oldest);
      }
    }

    /** Answers what may be typed, and gives way to what is. @param {string} text @param {string | null} last */
    async function tryOut(text, last) {
      if (answers.has(nameOf(text, last))) {
        return;
      }
      const own = turn;
      let isWhole = true;
      const asked = new Set();
      const spare = async (/** @type {string} */ name) => {
        if (!load.has?.(name)) {
          asked.add(name);
        }
        if (own !== turn || isBusy() || asked.size > DEAR) {
          isWhole = false;
        }
        try {
          return isWhole ? await load(name) : await Promise.reject(new Error("not now"));
        } catch (problem) {
          isWhole = false;
          throw problem;
        }
      };
      spare.has = load.has;
      const answer = await search(spare, text, last).catch(() => null);
      // A search copes with some parts that do not come, so an answer without one may be another.
      if (answer && isWhole) {
        keep(text, last, answer);
      }
    }

    /** The next thing to make ready, begun; null where all is. */
    function job() {
      const guess = next.shift();
      if (guess) {
        return tryOut(guess.text, guess.last);
      }
      if (likely.length > 0) {
        return Promise.allSettled(likely.splice(0, AT_ONCE).map(load));
      }
      const text = rehearsed.shift();
      return text === undefined ? null : tryOut(text, lastOf());
    }

    const stop = () => {
      turn += 1;
      clearTimeout(pause);
    };
    /** @param {number} own the turn that it is for */
    async function goOn(own) {
      const begun = own === turn && !isBusy() ? job() : null;
      if (begun) {
        await begun;
        idle(() => goOn(own));
      }
    }
    function begin() {
      const own = turn;
      pause = setTimeout(() => goOn(own), PAUSE);
    }
    begin();
    return {
      stop,
      known: (text, last) => answers.get(nameOf(text, last)),
      after(text, last, answer) {
        stop();
        if (answer) {
          keep(text, last, answer);
          next = isNear() ? guesses(text, head, answer.sought.found).slice(0, MOST).map((guess) => ({ text: guess, last })) : [];
        }
        begin();
      },
    };
  }

  globalThis.baybookFindAhead = { start };
})();
