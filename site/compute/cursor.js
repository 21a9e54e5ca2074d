// @ts-check
/* A place in the text of a value, moved on by what is read. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { problems } = compute;
  const { SPACE } = compute.letters;

  const SIGNS = ["±", "+/-", "+-"];
  const [LEADING, TRAILING] = [new RegExp(`^[${SPACE}]+`, "u"), new RegExp(`[${SPACE}]+$`, "u")];
  const BEGINS_NUMBER = new RegExp(`^[${SPACE}]*[0-9.\\-\\u2212+]`, "u");
  const SPACE_NEXT = new RegExp(`^[${SPACE}]`, "u");
  const BOUND = /^(?:min|max|over|under)$/;

  class Cursor {
    /** @param {string} text */
    constructor(text) {
      this.text = text;
      this.at = 0;
    }

    rest() {
      return this.text.slice(this.at);
    }

    skipSpaces() {
      this.at += this.rest().length - this.rest().replace(LEADING, "").length;
    }

    /** @param {string} word */
    eat(word) {
      const found = this.rest().startsWith(word);
      this.at += found ? word.length : 0;
      return found;
    }

    eatMinus() {
      return this.eat("-") || this.eat("\u2212");
    }

    /**
     * `min`, `max`, `over`, `under`, in any case, with or without a full stop.
     * @returns {BaybookBound | null}
     */
    bound() {
      const word = /^\p{Alphabetic}*/u.exec(this.rest())?.[0] ?? "";
      if (!BOUND.test(word.toLowerCase())) {
        return null;
      }
      this.at += word.length;
      if (this.rest().startsWith(".") && SPACE_NEXT.test(this.rest().slice(1))) {
        this.at += 1;
      }
      this.skipSpaces();
      return /** @type {BaybookBound} */ (word.toLowerCase());
    }

    /** A plus sign that is not the beginning of `+/-`. */
    lonePlus() {
      const found = !SIGNS.some((sign) => this.rest().startsWith(sign)) && this.eat("+");
      if (found) {
        this.skipSpaces();
      }
      return found;
    }

    number() {
      this.skipSpaces();
      const placed = compute.number.scan(this.text, this.at);
      this.at = placed.end;
      return placed;
    }

    /** A number that must not have a sign of its own. */
    tolerance() {
      this.skipSpaces();
      const start = this.at;
      const plus = this.eat("+");
      const placed = this.number();
      const found = this.text.slice(start, placed.end);
      if (plus || /^[-\u2212]/.test(found)) {
        throw problems.negativeTolerance(found);
      }
      return placed;
    }

    /**
     * What joins a further number to the first; the cursor is left behind it.
     * @returns {"range" | "plus-minus" | "plus" | "minus" | "doubtful" | null}
     */
    joint() {
      const before = this.at;
      this.skipSpaces();
      const spaced = this.at > before;
      if (SIGNS.some((sign) => this.eat(sign))) {
        return "plus-minus";
      }
      if (this.eat("+")) {
        return "plus";
      }
      return this.eatMinus() ? "minus" : this.rangeSign(spaced);
    }

    /** @param {boolean} spaced */
    rangeSign(spaced) {
      if (this.eat("..") || this.eat("…")) {
        return "range";
      }
      if (this.rest().startsWith("to") && BEGINS_NUMBER.test(this.rest().slice(2))) {
        this.at += 2;
        return "range";
      }
      if (!this.eat("–")) {
        return null;
      }
      // A dash with a space on one side alone may as well be a minus sign.
      const even = spaced === SPACE_NEXT.test(this.rest());
      return even && BEGINS_NUMBER.test(this.rest()) ? "range" : "doubtful";
    }
  }

  compute.cursor = { SIGNS, Cursor };
})();
