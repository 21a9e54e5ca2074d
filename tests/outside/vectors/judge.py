"""Makes or checks tests/vectors/judge.json: readings against limits, worked out from the definition alone.

The decision rule is that of ISO 14253-1: in only wholly inside, out only wholly outside. A reading is
[r - a, r + a], a pair of leaves [goes, stops). Hand-made cases name their source; the rest is drawn from a
seed.
"""

import random
from fractions import Fraction

from exact import UNITS, convert, decimals, finish, fixed, text

DICE = random.Random(887)
GROUPS = [["mm", "in", "thou", "µm"], ["kPa", "psi", "bar"], ["°C", "°F"], ["Ω", "kΩ"], ["V", "mV"], ["%"]]


class Limits:
    """What is printed, and what it means: ends with whether they belong to it."""

    def __init__(self, printed, unit, low, high, places):
        self.printed, self.unit, self.low, self.high, self.places = printed, unit, low, high, places

    def end(self, value):
        return f"{fixed(value, max(self.places, decimals(value)))} {self.unit}"


def number(places, most=400):
    return Fraction(DICE.randint(0, most), 10**places)


def draw_limits(unit, places):
    a, b = sorted([number(places), number(places)])
    shape = DICE.choice(["range", "range", "tolerance", "tolerance", "uneven", "percent", "min", "max", "under", "over", "single"])
    f = lambda value: fixed(value, places)
    if shape == "range":
        return Limits(f"{f(a)}..{f(b)} {unit}", unit, (a, True), (b, True), places)
    if shape == "tolerance":
        return Limits(f"{f(b)} ± {f(a)} {unit}", unit, (b - a, True), (b + a, True), places)
    if shape == "uneven" and a != b:
        return Limits(f"{f(b)} +{f(b - a)}/-{f(a)} {unit}", unit, (b - a, True), (2 * b - a, True), places)
    if shape == "percent" and unit != "%":
        share = DICE.randint(1, 20)
        return Limits(f"{f(b)} {unit} ± {share} %", unit, (b * (100 - share) / 100, True), (b * (100 + share) / 100, True), places)
    if shape == "min":
        return Limits(f"min {f(a)} {unit}", unit, (a, True), None, places)
    if shape == "max":
        return Limits(f"max {f(b)} {unit}", unit, None, (b, True), places)
    if shape == "over":
        return Limits(f"over {f(a)} {unit}", unit, (a, False), None, places)
    if shape == "under":
        return Limits(f"under {f(b)} {unit}", unit, None, (b, False), places)
    return Limits(f"{f(b)} {unit}", unit, (b, True), (b, True), places)


def classify(low, high, closed, limits):
    """Verdict on [low, high] or [low, high), high None for no end; and which limits it crosses."""
    under = limits.low is not None and (low < limits.low[0] or (low == limits.low[0] and not limits.low[1]))
    over = limits.high is not None and (
        high is None
        or high > limits.high[0]
        or (high == limits.high[0] and closed and not limits.high[1])
    )
    wholly_under = limits.low is not None and high is not None and (
        high < limits.low[0] or (high == limits.low[0] and not (closed and limits.low[1]))
    )
    wholly_over = limits.high is not None and (
        low > limits.high[0] or (low == limits.high[0] and not limits.high[1])
    )
    if wholly_under or wholly_over:
        return "out of spec", under, over, wholly_over
    return ("too close to call" if under or over else "in spec"), under, over, False


def distance(low, high, unit):
    return {"min": None if low is None else text(low), "max": None if high is None else text(high), "unit": unit}


def readable(value):
    """A distance rounded down to two digits where it is long."""
    if (value * 10**6).denominator == 1:
        return text(value)
    step = Fraction(1)
    while step * 10 > value:
        step /= 10
    return text(value // step * step)


def settle(case, limits, low, high, crossed):
    if case["reading"] is not None:
        value = case["reading"]
        ends = [end[0] for end in (limits.low, limits.high) if end is not None]
        near = min(abs(value - end) for end in ends)
        if near == 0:
            return "measure again: the reading lies on the limit itself"
        inside = classify(value, value, True, limits)[0] == "in spec"
        far = f"{readable(near)} {limits.unit}"
        return "measure again with a gauge true to " + (f"{far} or better" if inside else f"better than {far}")
    if case["goes"] is None:
        return "try thinner leaves until one goes"
    if case["stops"] is None:
        return "try thicker leaves until one stops"
    named = [limits.end(end[0]) for end, hit in zip((limits.low, limits.high), crossed) if hit]
    return f"try the leaves between {case['goes_text']} and {case['stops_text']}: the limit is {' or '.join(named)}"


def cannot(against, because):
    return {
        "verdict": "cannot judge", "as_read": "cannot judge", "direction": None, "by": None,
        "against": against, "left": None, "settle": None, "because": because,
    }


def less_worn(case, limits, fresh):
    """A used part wholly on the better side of new, judged in the unit of the form that states new parts."""
    taken = {key: None if value is None else convert(value, case["unit"], fresh.unit) for key, value in case["typed"].items()}
    if taken["reading"] is not None:
        error = case["error"] * UNITS[limits.unit][1] / UNITS[fresh.unit][1]
        if case["share"] is not None:
            error = abs(taken["reading"]) * case["share"]
        low, high, closed = taken["reading"] - error, taken["reading"] + error, True
    else:
        low = taken["goes"] if taken["goes"] is not None else Fraction(0)
        high, closed = taken["stops"], False
    verdict, _, _, above = classify(low, high, closed, fresh)
    if verdict != "out of spec":
        return None
    said = "less worn than a new part: measure again, check the part"
    if above:
        return said if limits.high is None else None
    if limits.low is not None:
        return None
    tight = "tighter than new it can seize" if case["words"][0] == "tight" else "a gap or clearance below new can seize"
    return f"{said}; {tight}, so do not run it like that"


def answer(case, limits, against, used, only):
    """`used`: the part has been in use; `only`: `new` or `wear_limit` where the maker states that alone."""
    error = case["error"]
    if case["reading"] is not None:
        low, high, closed = case["reading"] - error, case["reading"] + error, True
    else:
        low = case["goes"] if case["goes"] is not None else Fraction(0)
        high, closed = case["stops"], False
    verdict, under, over, above = classify(low, high, closed, limits)
    if only == "wear_limit" and not used and verdict != "out of spec":
        return cannot(against, "the maker states a wear limit, but not the fit of new parts")
    point = case["reading"] if case["reading"] is not None else case["goes"]
    as_read = verdict if point is None else classify(point, point, True, limits)[0]
    by = left = None
    if verdict == "out of spec" and above:
        by = distance(low - limits.high[0], None if high is None else high - limits.high[0], limits.unit)
    elif verdict == "out of spec":
        by = distance(limits.low[0] - high, limits.low[0] - low, limits.unit)
    if verdict == "in spec" and against == "wear_limit":
        ends = []
        if limits.high is not None:
            ends.append((limits.high[0] - high, limits.high[0] - low))
        if limits.low is not None:
            ends.append((low - limits.low[0], None if high is None else high - limits.low[0]))
        far = [end[1] for end in ends if end[1] is not None]
        left = distance(min(end[0] for end in ends), min(far) if far else None, limits.unit)
    because = "the maker states no wear limit, only the fit of new parts" if against == "new" and used else None
    if against == "wear_limit" and verdict == "in spec" and case["new"] is not None:
        because = less_worn(case, limits, case["new"])
    return {
        "verdict": verdict,
        "as_read": as_read,
        "direction": None if under == over else case["words"][0 if under else 1],
        "by": by,
        "against": against,
        "left": left,
        "settle": settle(case, limits, low, high, (under, over)) if verdict == "too close to call" else None,
        "because": because,
    }


def draw_state(question):
    """Adds a state to a question, and says why it then cannot be judged; None if it can."""
    needs = DICE.choice([[], [], ["engine cold"], ["engine cold", "air under 35 °C"]])
    state = DICE.choice(["met", "met", "met", "unmet", "unanswered", None])
    if needs:
        question["needs_state"] = needs
    if state:
        question["state"] = state
    words = ", ".join(needs)
    if state == "unmet":
        return f"the limit holds with {words}, and it was not so" if needs else "the limit does not hold in this state"
    if needs and state != "met":
        return f"the limit holds with {words}: say whether it was so"
    return None


def draw_gauge(question, unit, value, typed):
    """Adds what it was measured with; its error at the reading, and why it says nothing if so."""
    kind, size, _ = UNITS[unit]
    how = DICE.choice(["none", "none", "accuracy", "bare", "share", "gauge", "gauge"])
    places = DICE.choice([0, 1, 2, 3])
    error = Fraction(DICE.randint(0, 20), 10**places)
    if how == "none":
        return Fraction(0), None
    if how == "share" and unit != "%":
        question["accuracy"] = f"{fixed(error, places)} %"
        return abs(value) * error / 100, None
    if how == "bare":
        question["accuracy"] = f"± {fixed(error, places)}"
        first = (question.get("window") or question.get("new") or question["wear_limit"])[0]
        own = next(name for name in sorted(UNITS, key=len, reverse=True) if f" {name}" in first)
        return error * UNITS[own][1] / size, None
    own = DICE.choice(next(group for group in GROUPS if unit in group))
    stated = f"{fixed(error, places)} {own}"
    allowed = error * UNITS[own][1] / size
    if how in ("accuracy", "share"):
        question["accuracy"] = stated
        return allowed, None
    low, high = sorted([number(places), number(places)])
    question["gauge"] = {"title": "Shop gauge", "span": f"{fixed(low, places)}..{fixed(high, places)} {own}", "error": stated}
    shown = convert(value, unit, own)
    if not low <= shown <= high:
        return allowed, f"Shop gauge measures {question['gauge']['span']}, and {typed} lies off it"
    return allowed, None


def draw():
    group = DICE.choice(GROUPS)
    unit, places = DICE.choice(group), DICE.choice([0, 1, 2, 2, 3])
    words = DICE.choice([("low", "high"), ("tight", "loose"), ("worn", "thick")])
    question, used, only = {}, True, None
    lists = {"window": [draw_limits(unit, places)]}
    if DICE.random() < 0.4:
        lists = {key: [draw_limits(unit, places)] for key in DICE.choice([["new"], ["wear_limit"], ["new", "wear_limit"], ["new", "wear_limit"]])}
        only = next(iter(lists)) if len(lists) == 1 else None
        if DICE.random() < 0.5:
            question["fitting"], used = "new", False
    other = DICE.choice(group)
    if DICE.random() < 0.4 and other != unit:
        for forms in lists.values():
            forms.append(draw_limits(other, DICE.choice([0, 1, 2, 3])))
    question |= {key: [form.printed for form in forms] for key, forms in lists.items()}
    if words != ("low", "high"):
        question["below"], question["above"] = words
    against = "window" if "window" in lists else "new" if "wear_limit" not in lists or (not used and "new" in lists) else "wear_limit"
    typed_unit = DICE.choice(group + [unit, unit])
    limits = next((form for form in lists[against] if form.unit == typed_unit), lists[against][0])
    value_places = places if typed_unit == unit else DICE.choice([0, 1, 2, 3])
    value = number(value_places)
    near = [end[0] for end in (limits.low, limits.high) if end is not None and end[0] >= 0]
    if typed_unit == limits.unit and DICE.random() < 0.5:
        value = DICE.choice(near) if near else value
        value_places = decimals(value)
    typed = f"{fixed(value, value_places)} {typed_unit}"
    case = {"words": words, "reading": None, "goes": None, "stops": None, "error": Fraction(0), "share": None, "unit": typed_unit, "new": None}
    if "new" in lists:
        case["new"] = next((form for form in lists["new"] if form.unit == typed_unit), lists["new"][0])
    case["typed"] = {"reading": None, "goes": None, "stops": None}
    if DICE.random() < 0.7:
        question["reading"] = typed
        case["reading"] = convert(value, typed_unit, limits.unit)
        missing = draw_state(question)
        error, unfit = draw_gauge(question, limits.unit, case["reading"], typed)
        case["error"] = error
        case["typed"]["reading"] = value
        stated = question.get("accuracy", "")
        if stated.endswith("%") and limits.unit != "%":
            case["share"] = Fraction(stated.removesuffix(" %")) / 100
        missing = missing or unfit
    else:
        more = value + Fraction(DICE.randint(1, 40), 10**value_places)
        thick = f"{fixed(more, max(value_places, decimals(more)))} {typed_unit}"
        which = DICE.choice(["both", "both", "both", "goes", "stops"])
        question["reading"] = {}
        if which != "stops":
            case["typed"]["goes"] = value
            question["reading"]["goes"], case["goes"], case["goes_text"] = typed, convert(value, typed_unit, limits.unit), typed
        if which != "goes":
            case["typed"]["stops"] = more
            question["reading"]["stops"], case["stops"], case["stops_text"] = thick, convert(more, typed_unit, limits.unit), thick
        if "°" in typed_unit and typed_unit != limits.unit:
            return None  # Leaves have no temperature: a stop alone begins at the zero of the limits' scale.
        missing = draw_state(question)
    if missing:
        return {"question": question, "answer": cannot(against, missing)}
    return {"question": question, "answer": answer(case, limits, against, used, only)}


def known(question, **expected):
    """A hand-made case: everything that is not expected otherwise is null."""
    full = {"verdict": None, "as_read": None, "direction": None, "by": None, "against": "window", "left": None, "settle": None, "because": None}
    expected.setdefault("as_read", expected["verdict"])
    return {"question": question, "answer": full | expected}


def refused(question, message, help_text):
    return {"question": question, "answer": {"error": {"message": message, "help": help_text}}}


def hand_made():
    same = lambda value, unit: {"min": value, "max": value, "unit": unit}
    lash = {"window": ["0.20 ± 0.05 mm", "0.008 ± 0.002 in"], "below": "tight", "above": "loose"}
    fine = {"window": ["0.15..0.20 mm"], "accuracy": "0.010 mm"}
    close = lambda reading, as_read, settle: known(fine | {"reading": reading}, verdict="too close to call", as_read=as_read, direction="low", settle=settle)
    on = "measure again: the reading lies on the limit itself"
    fit = {"new": ["0.20..0.35 mm"], "wear_limit": ["max 0.60 mm"]}
    return [
        # Facts of the trade: common practice, no source.
        known(lash | {"reading": "0.014 in"}, verdict="out of spec", direction="loose", by=same("0.004", "in")),
        known({"window": ["0.006 ± 0.002 in"], "reading": "0.006 in"}, verdict="in spec"),
        known({"window": ["58 ± 2 psi"], "reading": "56psi"}, verdict="in spec"),
        # The rule of ISO 14253-1 with U = 0.010 mm, k = 2: computed.
        known(fine | {"reading": "0.13 mm"}, verdict="out of spec", direction="low", by={"min": "0.01", "max": "0.03", "unit": "mm"}),
        close("0.145 mm", "out of spec", "measure again with a gauge true to better than 0.005 mm"),
        close("0.150 mm", "in spec", on),
        close("0.155 mm", "in spec", "measure again with a gauge true to 0.005 mm or better"),
        known(fine | {"reading": "0.17 mm"}, verdict="in spec"),
        # Leaves: b <= L is tight, a > U is loose, a >= L and b <= U is in.
        known(lash | {"reading": {"goes": "0.10 mm", "stops": "0.15 mm"}}, verdict="out of spec", direction="tight", by={"min": "0", "max": "0.05", "unit": "mm"}),
        known(lash | {"reading": {"goes": "0.15 mm", "stops": "0.25 mm"}}, verdict="in spec"),
        known(lash | {"reading": {"goes": "0.25 mm", "stops": "0.30 mm"}}, verdict="too close to call", as_read="in spec", direction="loose", settle="try the leaves between 0.25 mm and 0.30 mm: the limit is 0.25 mm"),
        known(lash | {"reading": {"goes": "0.26 mm"}}, verdict="out of spec", direction="loose", by={"min": "0.01", "max": None, "unit": "mm"}),
        known(lash | {"reading": {"goes": "0.20 mm"}}, verdict="too close to call", as_read="in spec", direction="loose", settle="try thicker leaves until one stops"),
        known(lash | {"reading": {"stops": "0.10 mm"}}, verdict="out of spec", direction="tight", by={"min": "0.05", "max": "0.15", "unit": "mm"}),
        known(lash | {"reading": {"stops": "0.20 mm"}}, verdict="too close to call", direction="tight", settle="try thinner leaves until one goes"),
        known(lash | {"reading": {"goes": "0.10 mm", "stops": "0.30 mm"}}, verdict="too close to call", as_read="out of spec", settle="try the leaves between 0.10 mm and 0.30 mm: the limit is 0.15 mm or 0.25 mm"),
        # Without a unit a reading is in that of the limits; a comma is a point.
        known(lash | {"reading": ".25"}, verdict="in spec"),
        known(lash | {"reading": "0,26"}, verdict="out of spec", direction="loose", by=same("0.01", "mm")),
        # A printed form in thou there is none: the maker's own decides, exactly.
        known(lash | {"reading": "10 thou"}, verdict="out of spec", direction="loose", by=same("0.004", "mm")),
        known(fit | {"reading": "0.48 mm"}, verdict="in spec", against="wear_limit", left=same("0.12", "mm")),
        known(fit | {"reading": "0.48 mm", "fitting": "new"}, verdict="out of spec", against="new", direction="high", by=same("0.13", "mm")),
        # A used part better than a new one is measured wrongly, or is another part; a gap that small seizes.
        known(fit | {"reading": "0.10 mm", "below": "tight"}, verdict="in spec", against="wear_limit", left=same("0.5", "mm"), because="less worn than a new part: measure again, check the part; tighter than new it can seize, so do not run it like that"),
        known(fit | {"reading": "0.19 mm"}, verdict="in spec", against="wear_limit", left=same("0.41", "mm"), because="less worn than a new part: measure again, check the part; a gap or clearance below new can seize, so do not run it like that"),
        known(fit | {"reading": "0.20 mm", "below": "tight"}, verdict="in spec", against="wear_limit", left=same("0.4", "mm")),
        known(fit | {"reading": "0.19 mm", "accuracy": "0.01 mm"}, verdict="in spec", against="wear_limit", left={"min": "0.4", "max": "0.42", "unit": "mm"}),
        known({"new": ["3.9..4.1 mm"], "wear_limit": ["min 3.5 mm"], "reading": "4.6 mm"}, verdict="in spec", against="wear_limit", left=same("1.1", "mm"), because="less worn than a new part: measure again, check the part"),
        known({"new": ["3.9..4.1 mm"], "wear_limit": ["min 3.5 mm"], "reading": "3.6 mm"}, verdict="in spec", against="wear_limit", left=same("0.1", "mm")),
        known({"window": ["under 35 °C"], "reading": "35 °C"}, verdict="out of spec", direction="high", by=same("0", "°C")),
        known({"window": ["max 35 °C"], "reading": "95 F"}, verdict="in spec"),
        # A plain meter reads less than a peak: nothing is said of a peak limit by it.
        {"question": {"window": ["120..200 V peak"], "reading": "150 V"}, "answer": cannot("window", "150 V is voltage, and the limit is peak voltage")},
        {"question": {"window": ["120..200 V peak"], "reading": "150", "gauge": {"title": "Plain meter", "sort": "voltage", "span": "0..600 V", "error": "1 %"}}, "answer": cannot("window", "Plain meter shows voltage, and the limit is peak voltage")},
        {"question": {"window": ["30..50 kPa"], "reading": "131 kPa abs"}, "answer": cannot("window", "131 kPa abs is absolute pressure, and the limit is pressure")},
        refused(lash | {"reading": {"goes": "0.40 mm", "stops": "0.40 mm"}}, "`0.40 mm` stops, but `0.40 mm` goes", "a thinner leaf goes wherever a thicker one does: try both again"),
        refused(lash | {"reading": {"stops": "0"}}, "`0 mm` is no leaf", "type the thickness of the leaf"),
        refused(lash | {"reading": {"goes": "-0.1 mm"}}, "`-0.1 mm` is less than nothing", "type the thickness of the leaf"),
        refused(lash | {"reading": {}}, "no reading is typed", "type a leaf that goes, one that stops, or both"),
        refused(lash | {"reading": "56 psi"}, "`psi` is a unit of pressure, not of length", "type it in mm or another unit of length"),
        refused(lash | {"reading": "0.2", "accuracy": "1 kPa"}, "`kPa` is a unit of pressure, not of length", "type it in mm or another unit of length"),
        refused({"reading": "0.2 mm"}, "there are no limits to judge against", "give a window, or the fit of new parts or a wear limit"),
    ]


def rows():
    drawn = []
    while len(drawn) < 3000:
        row = draw()
        drawn += [row] if row else []
    return hand_made() + drawn


finish("judge.json", rows(), "Readings against limits; worked out by tests/outside/vectors/judge.py.")
