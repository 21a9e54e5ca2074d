// @ts-check
/*
 * Formulas as data, read from text and worked out in exact numbers by the compiler's own grammar: numbers,
 * names, `+ - * /`, `^`, unary minus, parentheses, calls; comparisons, `and`, `or` and `not` give 1 or 0.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, real } = compute;
  const { none, along, zero, one } = compute.curve;

  /** Joins by how tightly they hold, the loosest first; of two that begin alike the longer first. */
  const LEVELS = [["or"], ["and"], ["<=", ">=", "!=", "<", ">", "="], ["+", "-"], ["*", "/"]];

  /**
   * @param {string} text
   * @returns {BaybookNode}
   */
  function parse(text) {
    let rest = text.trimStart();
    const odd = () => none.defect(`\`${rest}\` is not understood`);
    const take = (/** @type {RegExp} */ sort) => {
      const taken = sort.exec(rest)?.[0] ?? "";
      rest = rest.slice(taken.length).trimStart();
      return taken;
    };
    const eat = (/** @type {string} */ token) => {
      const after = rest.slice(token.length);
      if (!rest.startsWith(token) || (/^[a-z]/.test(token) && /^[A-Za-z0-9_]/.test(after))) {
        return false;
      }
      rest = after.trimStart();
      return true;
    };
    /** @returns {BaybookNode} */
    const atom = () => {
      if (eat("(")) {
        const inner = level(0);
        if (!eat(")")) {
          throw odd();
        }
        return inner;
      }
      const digits = take(/^[0-9.]+/);
      if (digits !== "") {
        const number = Rational.parse(digits);
        if (number === null) {
          throw odd();
        }
        return { number };
      }
      const name = take(/^[A-Za-z0-9_]+/);
      if (name === "") {
        throw odd();
      }
      if (!eat("(")) {
        return { name };
      }
      const list = [level(0)];
      while (eat(",")) {
        list.push(level(0));
      }
      if (!eat(")")) {
        throw odd();
      }
      return { call: name, list };
    };
    /** @returns {BaybookNode} */
    const raised = () => {
      if (eat("-")) {
        return { minus: raised() };
      }
      if (eat("not")) {
        return { not: raised() };
      }
      const base = atom();
      return eat("^") ? { left: base, join: "^", right: raised() } : base;
    };
    /**
     * @param {number} depth
     * @returns {BaybookNode}
     */
    const level = (depth) => {
      const joins = LEVELS[depth];
      if (joins === undefined) {
        return raised();
      }
      let node = level(depth + 1);
      for (let join = joins.find(eat); join !== undefined; join = joins.find(eat)) {
        node = { left: node, join, right: level(depth + 1) };
      }
      return node;
    };
    const whole = level(0);
    if (rest !== "") {
      throw odd();
    }
    return whole;
  }

  /** @param {boolean} holds */
  const truth = (holds) => real.exact(holds ? one : zero);

  /**
   * @param {BaybookReal | null} found
   * @param {string} name
   */
  function defined(found, name) {
    if (found === null) {
      throw none.undefined(name);
    }
    return found;
  }

  /**
   * @param {BaybookNode} node
   * @param {BaybookNames} names
   * @returns {BaybookReal}
   */
  function value(node, names) {
    if ("number" in node) {
      return real.exact(node.number);
    }
    if ("name" in node) {
      const bound = names.get(node.name);
      if (bound !== undefined && "value" in bound) {
        return bound;
      }
      if (bound === undefined && node.name === "pi") {
        return real.pi;
      }
      throw none.defect(`\`${node.name}\` is ${bound === undefined ? "not known" : "no single number"}`);
    }
    if ("minus" in node) {
      const found = value(node.minus, names);
      return { ...found, value: found.value.negated() };
    }
    if ("not" in node) {
      return truth(value(node.not, names).value.sign() === 0);
    }
    return "call" in node ? call(node.call, node.list, names) : joined(node, names);
  }

  /**
   * @param {{ left: BaybookNode, join: string, right: BaybookNode }} node
   * @param {BaybookNames} names
   * @returns {BaybookReal}
   */
  function joined({ left, join, right }, names) {
    const a = value(left, names);
    if ((join === "and" && a.value.sign() === 0) || (join === "or" && a.value.sign() !== 0)) {
      return truth(join === "or");
    }
    const b = value(right, names);
    const rough = a.rough || b.rough;
    const order = a.value.compare(b.value);
    switch (join) {
      case "+":
        return { value: a.value.plus(b.value), rough };
      case "-":
        return { value: a.value.minus(b.value), rough };
      case "*":
        return { value: a.value.times(b.value), rough };
      case "/":
        if (b.value.sign() === 0) {
          throw none.divided();
        }
        return { value: a.value.over(b.value), rough };
      case "^": {
        const power = defined(real.power(a.value, b.value), "power");
        return { value: power.value, rough: rough || power.rough };
      }
      case "<":
        return truth(order < 0);
      case "<=":
        return truth(order <= 0);
      case ">":
        return truth(order > 0);
      case ">=":
        return truth(order >= 0);
      case "=":
        return truth(order === 0);
      case "!=":
        return truth(order !== 0);
      default:
        return truth(b.value.sign() !== 0);
    }
  }

  /**
   * @param {string} name
   * @param {BaybookNode[]} list
   * @param {BaybookNames} names
   * @returns {BaybookReal}
   */
  function call(name, list, names) {
    const [first = { number: zero }, second, third] = list;
    const listed = "name" in first ? names.get(first.name) : undefined;
    if (name === "if" && second !== undefined && third !== undefined) {
      return value(value(first, names).value.sign() !== 0 ? second : third, names);
    }
    if (name === "given") {
      return truth(listed !== undefined && !("nothing" in listed));
    }
    if (["sum", "mean", "largest", "smallest", "count"].includes(name)) {
      return real.exact(ofList(name, listed !== undefined && "many" in listed ? listed.many : []));
    }
    if (second !== undefined && (name === "min" || name === "max")) {
      const [a, b] = [value(first, names), value(second, names)];
      return a.value.compare(b.value) <= 0 === (name === "min") ? a : b;
    }
    if (second !== undefined) {
      const at = value(second, names);
      const found = along(name, listed !== undefined && "points" in listed ? listed.points : [], at.value);
      return { ...found, rough: found.rough || at.rough };
    }
    const of = value(first, names);
    const found = ofOne(name, of.value);
    return { ...found, rough: found.rough || of.rough };
  }

  /**
   * @param {string} name
   * @param {BaybookRational} of
   */
  function ofOne(name, of) {
    switch (name) {
      case "sqrt":
        return defined(real.sqrt(of), "square root");
      case "ln":
        return defined(real.ln(of), "logarithm");
      case "exp":
        return defined(real.exp(of), "power");
      case "cos":
        return real.cos(of);
      case "sin":
        return real.sin(of);
      case "acos":
        return defined(real.acos(of), "angle");
      case "floor":
        return real.exact(new Rational(of.floor()));
      case "abs":
        return real.exact(of.size());
      default:
        throw none.defect(`there is no function \`${name}\` of so many numbers`);
    }
  }

  /**
   * @param {string} name
   * @param {BaybookRational[]} all
   */
  function ofList(name, all) {
    const count = new Rational(all.length);
    const sum = all.reduce((sum, member) => sum.plus(member), zero);
    if (name === "count" || name === "sum") {
      return name === "count" ? count : sum;
    }
    if (all.length === 0) {
      throw none.defect("a list is empty");
    }
    if (name === "mean") {
      return sum.over(count);
    }
    const sorted = [...all].sort((a, b) => a.compare(b));
    return (name === "largest" ? sorted.at(-1) : sorted[0]) ?? zero;
  }

  compute.formula = { parse, value };
})();
