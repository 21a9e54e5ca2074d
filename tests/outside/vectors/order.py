"""Makes or checks tests/vectors/order.json: the order of checks, by trying every order.

Expected minutes are worked out straight from the definition: walk the order, add up the minutes, and weigh
the moment each cause is first shown with its share. Small cases try every permutation; larger ones a table
over the sets of checks done, which up to six checks is held against the permutations.
"""

import functools
import itertools
import random
from fractions import Fraction

from exact import finish, text

DICE = random.Random(2026)


def closure(job, needs):
    steps = {step["id"]: step for step in job.get("access", [])}
    found, todo = set(), list(needs)
    while todo:
        step = todo.pop()
        if step not in found:
            found.add(step)
            todo += steps[step].get("needs", [])
    return frozenset(found)


class Question:
    def __init__(self, job, results):
        self.opening = {step["id"]: Fraction(step["minutes"]) for step in job.get("access", [])}
        self.needs = {check["id"]: closure(job, check.get("needs", [])) for check in job["checks"]}
        counted = [cause for cause in job["causes"] if not cause.get("residual")]
        left = {cause["id"]: Fraction(cause["share"]) for cause in counted}
        self.open = frozenset()
        for check in job["checks"]:
            result = results.get(check["id"])
            if result:
                self.open |= self.needs[check["id"]]
                left = {c: s for c, s in left.items() if (c in check["shows"]) == (result == "shown")}
        total = sum(left.values())
        self.left = {c: s / total if total else Fraction(0) for c, s in left.items()}
        self.checks = [check for check in job["checks"] if check["id"] not in results]

    def minutes(self, check, opened):
        return Fraction(check["minutes"]) + sum(self.opening[step] for step in self.needs[check["id"]] - opened)

    def expected(self, order):
        """Straight from the definition."""
        gone, opened, seen, total = Fraction(0), self.open, set(), Fraction(0)
        for check in order:
            gone += self.minutes(check, opened)
            opened |= self.needs[check["id"]]
            for cause in set(check["shows"]) & set(self.left) - seen:
                total += self.left[cause] * gone
                seen.add(cause)
        return total

    def tidied(self, order):
        """Checks with nothing left to show moved to the end, in file order."""
        seen, useful = set(), []
        for check in order:
            if set(check["shows"]) & set(self.left) - seen:
                useful.append(check)
                seen |= set(check["shows"])
        return useful + [check for check in self.checks if check not in useful]

    def rank(self, order):
        return [self.checks.index(check) for check in order]

    def by_permutations(self):
        tried = {tuple(self.rank(self.tidied(list(order)))) for order in itertools.permutations(self.checks)}
        orders = [[self.checks[at] for at in order] for order in tried]
        best = min(orders, key=lambda order: (self.expected(order), self.rank(order)))
        return best, self.expected(best)

    def by_table(self):
        """Over sets of checks done: the least weight times minutes that is still to come."""
        shows = [frozenset(check["shows"]) & frozenset(self.left) for check in self.checks]
        shown_by_any = frozenset().union(*shows) if shows else frozenset()

        def state(done):
            opened, left = self.open, shown_by_any
            for at in done:
                opened |= self.needs[self.checks[at]["id"]]
                left -= shows[at]
            return opened, left

        @functools.cache
        def least(done):
            opened, left = state(done)
            weight = sum(self.left[cause] for cause in left)
            ways = [
                (self.minutes(self.checks[at], opened) * weight + least(done | {at})[0], at)
                for at in range(len(self.checks))
                if shows[at] & left
            ]
            return min(ways) if ways else (Fraction(0), None)

        done, order = frozenset(), []
        while (step := least(done)[1]) is not None:
            order.append(self.checks[step])
            done |= {step}
        return order + [check for check in self.checks if check not in order], least(frozenset())[0]

    def answer(self):
        order, expected = self.by_table()
        if len(self.checks) <= 6:
            assert (order, expected) == self.by_permutations(), self.checks
        return {
            "order": [check["id"] for check in order],
            "expected_minutes": text(expected),
            "as_written_minutes": text(self.expected(self.checks)),
            "left": {cause: text(share) for cause, share in self.left.items()},
        }


    def reasons(self, order):
        """Why each check stands where it stands."""
        named = {check["id"]: check for check in self.checks}
        opened, left, why = self.open, set(self.left), []
        rate = lambda check: (sum(self.left[c] for c in left & set(check["shows"])), self.minutes(check, opened))
        for at, name in enumerate(order):
            here, later = named[name], [named[one] for one in order[at + 1 :]]
            shows = set(here["shows"]) & left
            rest = [check for check in later if set(check["shows"]) & left]
            opens = self.needs[name] - opened
            finds, takes = rate(here)
            before = [set(named[one]["shows"]) & set(self.left) for one in order[:at]]
            if not shows and any(one & set(here["shows"]) and one - set(here["shows"]) for one in before):
                why.append("once one before it has shown, it tells the causes apart")
            elif not shows:
                why.append("nothing is left for it to show")
            elif not any(set(check["shows"]) & left - shows for check in rest):
                why.append("all that is left")
            elif not any(rate(check)[0] * takes > finds * rate(check)[1] for check in rest):
                why.append("the most for its minutes")
            elif any((self.needs[check["id"]] - opened) & opens for check in rest):
                why.append("what it opens serves those after it")
            else:
                why.append("with it out of the way the rest goes quicker")
            opened, left = opened | opens, left - shows
        return why


def row(job, results=None):
    results = results or {}
    found = {"job": job}
    if results:
        found["results"] = results
    question = Question(job, results)
    answer = question.answer()
    return found | {"answer": answer, "why": question.reasons(answer["order"])}


def job(shares, access, checks):
    return {
        "causes": [{"id": cause, "share": share} for cause, share in shares.items()],
        "access": [{"id": step, "minutes": minutes} for step, minutes in access.items()],
        "checks": [
            {"id": check, "minutes": minutes, "shows": list(shows), "needs": list(needs)}
            for check, minutes, shows, needs in checks
        ],
    }


def worked():
    """The worked examples: computed by trying all orders, the figures named here beside the answers."""
    shares = {"a": "0.35", "b": "0.25", "c": "0.20", "d": "0.15", "e": "0.05"}
    independent = job(shares, {}, [("A", 10, "a", []), ("B", 4, "b", []), ("C", 2, "c", []), ("D", 6, "d", []), ("E", 1, "e", [])])
    shares = {"1": "0.30", "2": "0.10", "3": "0.25", "4": "0.20", "5": "0.15"}
    set_up = job(shares, {"X": 6, "Y": 2}, [("a", 2, "1", "X"), ("b", 1, "2", "X"), ("c", 3, "3", "Y"), ("d", 4, "4", "Y"), ("e", 2, "5", [])])
    overlap = job({"1": "0.45", "2": "0.25", "3": "0.30"}, {}, [("α", 5, "12", []), ("β", 6, "13", []), ("γ", "6.5", "23", [])])
    for example, order, expected in [(independent, "C B E A D", "11.65"), (set_up, "e c d a b", "11.95"), (overlap, "α β γ", "6.8")]:
        found = row(example)
        assert (found["answer"]["order"], found["answer"]["expected_minutes"]) == (order.split(), expected), found
        yield found
    yield row(set_up, {"e": "clear"})
    yield row(set_up, {"c": "clear"})
    yield row(overlap, {"α": "shown"})
    yield row(overlap, {"α": "clear"})
    yield row(independent, {"A": "shown"})
    yield row(independent, {check: "clear" for check in "ABCDE"})


def refused():
    causes, check = [{"id": "a", "share": 1}], {"id": "A", "minutes": 1, "shows": ["a"]}
    one = lambda **parts: {"causes": causes, "checks": [check]} | parts
    cases = [
        (one(causes=causes + [{"id": "b", "share": 1}]), {}, "no check shows the cause `b`", "add a check that shows it, or mark it `residual = true`"),
        (one(causes=causes * 2), {}, "there are two of the cause `a`", "give each its own id"),
        (one(checks=[check | {"shows": ["a", "z"]}]), {}, "`A` names the cause `z`, which there is not", "add the cause, or take its name out"),
        (one(checks=[check | {"needs": ["seat"]}]), {}, "`A` names the access step `seat`, which there is not", "add the access step, or take its name out"),
        (one(access=[{"id": "p", "minutes": 1, "needs": ["q"]}, {"id": "q", "minutes": 1, "needs": ["p"]}]), {}, "the access step `p` needs itself", "take one of the needs out of the circle"),
        (one(causes=[{"id": "a", "share": 0}]), {}, "the shares of the causes add up to nothing", "give each cause its share of past jobs, as a percentage or a count"),
        (one(checks=[check | {"minutes": -1}]), {}, "a number of `A` is below zero", "shares and minutes are zero or more"),
        (one(), {"B": "clear"}, "there is no check `B`", "checks are A"),
        (one(causes=causes + [{"id": "b", "share": 1}], checks=[check, {"id": "B", "minutes": 1, "shows": ["b"]}]), {"A": "shown", "B": "shown"}, "`A` showed, but the other checks leave none of its causes", "one of the results is wrong, or there are two causes: do them again"),
    ]
    for found, results, message, help_text in cases:
        yield {"job": found, **({"results": results} if results else {}), "answer": {"error": {"message": message, "help": help_text}}}


def drawn(checks):
    causes = DICE.randint(1, checks + 1)
    steps = DICE.randint(0, 4)
    number = lambda: DICE.choice([0, 1, 1, 2, 3, 5, 8, 12, "0.5", "2.25", "1.75"])
    found = {
        "causes": [{"id": f"c{at}", "share": DICE.choice([number(), DICE.randint(1, 40)])} for at in range(causes)],
        "access": [
            {"id": f"s{at}", "minutes": number(), "needs": [f"s{before}" for before in range(at) if DICE.random() < 0.2]}
            for at in range(steps)
        ],
        "checks": [],
    }
    if DICE.random() < 0.5:
        found["causes"].append({"id": "other", "share": 9, "residual": True})
    overlap = DICE.choice([0, 0, 0.15, 0.4])
    for at in range(checks):
        shows = {f"c{at % causes}"} | {f"c{cause}" for cause in range(causes) if DICE.random() < overlap}
        needs = [f"s{step}" for step in range(steps) if DICE.random() < 0.3]
        found["checks"].append({"id": f"k{at}", "minutes": number(), "shows": sorted(shows), "needs": needs})
    shown = {cause for check in found["checks"] for cause in check["shows"]}
    found["causes"] = [cause for cause in found["causes"] if cause["id"] in shown or cause.get("residual")]
    if all(Fraction(cause["share"]) == 0 for cause in found["causes"] if not cause.get("residual")):
        found["causes"][0]["share"] = 3
    DICE.shuffle(found["checks"])
    results = {}
    for check in found["checks"]:
        if DICE.random() < 0.12:
            results[check["id"]] = DICE.choice(["clear", "clear", "shown"])
    if "shown" in results.values() and not Question(found, results).left:
        results = {}
    return row(found, results)


def rows():
    yield from worked()
    yield from refused()
    for _ in range(1500):
        yield drawn(DICE.randint(1, 5))
    for _ in range(60):
        yield drawn(6)
    for _ in range(120):
        yield drawn(DICE.randint(7, 10))


finish("order.json", list(rows()), "Orders of checks; worked out by tests/outside/vectors/order.py.")
