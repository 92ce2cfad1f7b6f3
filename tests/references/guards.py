"""Limits, guards and judgements of single readings in exact fractions, compared with what the product says of them.

Written from the rules, not from the product's code. The limits are those of IEC 60364-6:2016, Table 6.1 (seen):
SELV and PELV 250 V and 0.5 MΩ; up to and including 500 V, and FELV by its supply, 500 V and 1.0 MΩ; above 500 V
1000 V and 1.0 MΩ.

usage: guards.py PROGRAM SEED CASES
"""
import json
import math
import random
import subprocess
import sys
from fractions import Fraction

UNITS = {"Ω": 1, "kΩ": 10**3, "MΩ": 10**6, "GΩ": 10**9}
SIGNS = {"": "exact", "> ": "more_than", "< ": "less_than"}
# The card's range of a single reading ends here, Ω.
TOP = 10**14


def limit(measure, volts, supply):
    """Test voltage in V and minimum in Ω."""
    if measure in ("selv", "pelv"):
        return 250, Fraction(500_000)
    deciding = supply if measure == "felv" else volts
    return (500 if deciding <= 500 else 1000), Fraction(1_000_000)


def case(chance):
    """One reading, most of them near the limit, where a judgement turns."""
    decimals = chance.choice([0, 1, 2, 3])
    unit = chance.choice(["kΩ", "MΩ", "MΩ", "MΩ", "GΩ"])
    near = {"kΩ": Fraction(1000), "MΩ": Fraction(1), "GΩ": Fraction(1, 1000)}[unit]
    spread = Fraction(chance.randint(30, 250), 100)
    number = near * spread if chance.random() < 0.8 else Fraction(chance.randint(0, 99_999), 10**decimals)
    mantissa = min(round(number * 10**decimals), 99_999)
    whole, part = divmod(mantissa, 10**decimals)
    digits = f"{whole}.{part:0{decimals}d}" if decimals else f"{whole}"
    if len(digits.replace(".", "")) > 5:
        digits, decimals = f"{whole}", 0
    volts = chance.choice([12, 24, 50, 120, 230, 400, 500, 690, 1000])
    measure = chance.choice(["none", "none", "selv", "pelv", "felv"])
    if measure in ("selv", "pelv", "felv"):
        volts = chance.choice([12, 24, 48])
    supply = chance.choice([230, 400, 690]) if measure == "felv" else None
    percent = Fraction(chance.randint(0, 400), 10)
    if chance.random() < 0.02:
        percent = Fraction(chance.choice([980, 990, 999]), 10)
    steps = chance.randint(0, 20)
    known = chance.random() < 0.95
    # A display shows whole steps, no digit finer than one, and some of them only tens.
    resolution = Fraction(1, 10**decimals)
    if decimals == 0 and chance.random() < 0.5:
        digits, resolution = f"{int(digits) // 10 * 10}", Fraction(10)
    shown = f"{float(resolution):.3f}".rstrip("0").rstrip(".")
    sign = chance.choice(["", "", "", "> ", "< "])
    return {
        "sign": sign,
        "ohms": Fraction(digits) * UNITS[unit],
        "percent": percent,
        "steps": steps,
        "step": resolution * UNITS[unit],
        "asked": {
            "reading": f"{sign}{digits} {unit}",
            "set": "iec-60364-6-2016",
            "nominal": str(volts),
            "measure": measure,
            "supply": None if supply is None else str(supply),
            "accuracy": f"{float(percent):.1f} % + {steps}" if known else None,
            "resolution": f"{shown} {unit}",
            "policy": chance.choice(["simple", "guarded", "guarded"]),
        },
        "limit": limit(measure, volts, supply),
    }


def guard_of(case):
    """p as a share and n·resolution; None where guarded and nothing is known."""
    if case["asked"]["policy"] == "simple":
        return Fraction(0), Fraction(0)
    if case["asked"]["accuracy"] is None:
        return None
    return case["percent"] / 100, case["steps"] * case["step"]


def expected(case):
    ohms, minimum, guard = case["ohms"], case["limit"][1], guard_of(case)
    smallest = None
    if guard is not None and guard[0] < 1:
        bound = (minimum + guard[1]) / (1 - guard[0])
        smallest = math.ceil(bound / case["step"]) * case["step"]
        smallest = smallest if smallest <= TOP else None
    kind = SIGNS[case["sign"]]
    width = acceptance = None
    if kind == "less_than":
        value = "below" if ohms <= minimum else "cannot_be_judged"
    elif ohms < minimum:
        value = "below" if kind == "exact" else "cannot_be_judged"
    elif guard is None:
        value = "cannot_be_judged"
    else:
        width = guard[0] * ohms + guard[1]
        value = "meets" if ohms >= minimum + width else "too_close"
        acceptance = minimum + width
    if case["asked"]["policy"] == "simple":
        width = acceptance = None
    return {
        "value": value,
        "indicated_ohm": ohms,
        "test_voltage_v": Fraction(case["limit"][0]),
        "minimum_ohm": minimum,
        "guard_ohm": width,
        "acceptance_ohm": acceptance,
        "smallest_indication_ohm": smallest,
    }


def main(program, seed, count):
    chance = random.Random(int(seed))
    cases = [case(chance) for _ in range(int(count))]
    asked = "".join(json.dumps(one["asked"], ensure_ascii=False) + "\n" for one in cases)
    told = subprocess.run([program], input=asked.encode(), stdout=subprocess.PIPE, check=True).stdout.decode()
    lines = told.splitlines()
    if len(lines) != len(cases):
        sys.exit(f"{len(cases)} readings were asked about and {len(lines)} answered")
    values = {}
    for one, line in zip(cases, lines):
        answer = json.loads(line)
        for name, figure in expected(one).items():
            said = answer[name]
            said = said if name == "value" or said is None else Fraction(said)
            if said != figure:
                sys.exit(f"{one['asked']}: {name} is {said} and should be {figure}")
        values[answer["value"]] = values.get(answer["value"], 0) + 1
    # A comparison that never met a kind of judgement would show nothing about it.
    missing = {"meets", "too_close", "below", "cannot_be_judged"} - values.keys()
    if missing:
        sys.exit(f"no reading came out as {', '.join(sorted(missing))}: more cases are needed")
    print(f"{len(cases)} readings agree: {', '.join(f'{count} {value}' for value, count in sorted(values.items()))}")


if __name__ == "__main__":
    main(*sys.argv[1:])
