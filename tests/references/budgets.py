"""Random uncertainty budgets, combined by the GUM library GTC and in exact fractions, compared with the product.

Standard uncertainty and effective degrees of freedom come from GTC; the degrees of freedom once more in exact fractions,
because they are rounded down to find k; k from SciPy's t distribution at the 95.45 % of a normal distribution's two
standard deviations.

usage: budgets.py PROGRAM SEED CASES
"""
import json
import math
import random
import subprocess
import sys
from fractions import Fraction

from GTC import result, ureal
from scipy.stats import norm, t

COVERAGE = norm.cdf(2) - norm.cdf(-2)
# A rectangular input dominates when all the rest is at most this share of it.
DOMINATED = Fraction(3, 10)
DIVISOR = {"rectangular": 3, "triangular": 6, "arcsine": 2}


def stated(chance):
    kind = chance.choice(["normal", "rectangular", "triangular", "arcsine", "repeated"])
    size = round(10 ** chance.uniform(-3, 3), 6)
    one = {"kind": kind, "sensitivity": chance.choice([1.0, 1.0, -1.0, round(chance.uniform(-3, 3), 3)])}
    if kind == "repeated":
        centre, count = round(chance.uniform(1, 100), 3), chance.randint(2, 12)
        one["values"] = [round(chance.gauss(centre, size), 6) for _ in range(count)]
        return one
    one["estimate"] = round(chance.uniform(-100, 100), 3)
    if kind == "normal":
        one |= {"expanded": size, "k": chance.choice([1.0, 2.0, 2.0, 2.13, 3.0])}
        one["dof"] = chance.choice([None, None, 1.0, 4.0, 9.0, 50.0, 12.5])
    else:
        one["half_width"] = size
    return one


def exact(one):
    """(c·u)² and degrees of freedom (None: without end), as fractions of the figures as stated."""
    c = Fraction(one["sensitivity"])
    if one["kind"] == "repeated":
        values = [Fraction(value) for value in one["values"]]
        n, mean = len(values), sum(values) / len(values)
        return c**2 * sum((value - mean) ** 2 for value in values) / (n - 1) / n, Fraction(n - 1)
    if one["kind"] == "normal":
        dof = None if one["dof"] is None else Fraction(one["dof"])
        return (c * Fraction(one["expanded"]) / Fraction(one["k"])) ** 2, dof
    return (c * Fraction(one["half_width"])) ** 2 / DIVISOR[one["kind"]], None


def expected(budget):
    parts = [exact(one) for one in budget]
    variance = sum(square for square, _ in parts)
    spread = sum(square**2 / dof for square, dof in parts if dof is not None)
    dof = None if spread == 0 else variance**2 / spread
    rectangles = [square for (square, _), one in zip(parts, budget) if one["kind"] == "rectangular"]
    largest = max(rectangles, default=Fraction(0))
    dominated = dof is None and largest > 0 and variance - largest <= DOMINATED**2 * largest
    if dominated:
        k = COVERAGE * math.sqrt(3)
    elif dof is None:
        k = 2.0
    else:
        k = t.ppf((1 + COVERAGE) / 2, float(max(1, math.floor(dof))))
    inputs = []
    for one, (square, part_dof) in zip(budget, parts):
        c = one["sensitivity"]
        u = math.sqrt(square) / abs(c) if c else 1.0
        inputs.append(c * ureal(0, u, math.inf if part_dof is None else float(part_dof)))
    combined = result(sum(inputs[1:], inputs[0]))
    return combined.u, combined.df, dof, k, dominated


def close(said, figure, within=1e-9):
    return abs(said - figure) <= within * max(abs(figure), 1e-12)


def main(program, seed, count):
    chance = random.Random(int(seed))
    budgets = [[stated(chance) for _ in range(chance.randint(1, 8))] for _ in range(int(count))]
    asked = "".join(json.dumps(budget) + "\n" for budget in budgets)
    told = subprocess.run([program], input=asked.encode(), stdout=subprocess.PIPE, check=True).stdout.decode()
    lines = told.splitlines()
    if len(lines) != len(budgets):
        sys.exit(f"{len(budgets)} budgets were asked about and {len(lines)} answered")
    seen = {"dominated": 0, "with degrees of freedom": 0, "without": 0}
    for budget, line in zip(budgets, lines):
        answer = json.loads(line)
        u, df, dof, k, dominated = expected(budget)
        said = answer.get("dof")
        held = {
            "standard": close(answer["standard"], u),
            # GTC calls a large number endless; the fraction is asked there.
            "dof": said is None if dof is None else close(said, float(dof)) and (math.isinf(df) or close(said, df, 1e-6)),
            "dominated": answer["dominated"] == dominated,
            "k": close(answer["k"], k, 1e-8),
            "expanded": close(answer["expanded"], u * k, 1e-8),
        }
        if not all(held.values()):
            wrong = ", ".join(name for name, holds in held.items() if not holds)
            sys.exit(f"{json.dumps(budget)}\n{wrong}: said {line}\nshould be u={u} df={df} exactly {dof} k={k} dominated={dominated}")
        seen["dominated" if dominated else "without" if dof is None else "with degrees of freedom"] += 1
    if not all(seen.values()):
        sys.exit(f"a kind of budget never came up: {seen}")
    print(f"{len(budgets)} budgets agree: {', '.join(f'{n} {kind}' for kind, n in seen.items())}")


if __name__ == "__main__":
    main(*sys.argv[1:])
