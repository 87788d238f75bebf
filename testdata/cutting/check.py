#!/usr/bin/env python3
"""Makes seeded instances of sticks and loaves and has cbc solve them.

    check.py [COUNT] > instances.json

Each line is an instance with its plan: fewest sticks, then fewest joins (or the
other way round, where "first" says joins), then the longest single offcut. Each
aim is a run of its own with the aims before it held at their least. A plan is
null where the sticks do not suffice. An instance that cbc does not prove within
the limit is left out. See README.md for how the committed file was made.
"""

import json
import random
import re
import subprocess
import sys
import tempfile
import time

from model import Model

LIMIT = 20  # LIMIT is in seconds for each aim.


def instance(seed):
    r = random.Random(seed)
    bar = r.choice([25000, 25400, 22000, 30000, 28000])
    trim = r.choice([0, 0, 5000, 8000, 10000])
    large = seed % 8 == 7
    sizes = [12, 16, 24, 32, 40] if large else [1, 2, 3, 4, 5, 6, 8]
    inst = {
        "seed": seed,
        "first": r.choice(["sticks", "sticks", "joins"]),
        "length": r.choice([220000, 250000, 300000, 305000, 400000, 431800]),
        "bar": bar,
        "near": trim,
        "far": r.choice([trim, trim, 0]),
        "wire": r.choice([0, 0, 0, 1000]),
        "knife": r.choice([0, 0, 0, 1000]),
        "tolerance": r.choice([2000, 2000, 0]),
        "minimum": r.choice([2, 2, 2, 2, 2, 1, 3]) * bar,
        "loaves": r.choice(sizes),
        "rows": r.choice([1, 1, 2, 3, 4]),
        "sticks": [],
    }
    need = inst["loaves"] * inst["rows"] * inst["length"]
    lots = r.choice([1, 1, 2, 3])
    for lot in range(lots):
        kinds = r.choice([1, 1, 2, 3])
        for _ in range(kinds):
            length = r.choice([305, 304, 300, 330, r.randrange(110, 360), r.randrange(110, 360)]) * 1000
            count = max(1, round(need / length / lots / kinds * r.uniform(0.9, 2.2)))
            inst["sticks"].append({"lot": lot, "length": length, "count": count})
    return inst


def cbc(model, goal, folder):
    path = f"{folder}/model.lp"
    model.write(path, goal)
    command = ["cbc", path, "-preprocess", "off", "-sec", str(LIMIT), "-ratio", "0", "-solve"]
    begin = time.perf_counter()
    out = subprocess.run(command, capture_output=True, text=True).stdout
    took = time.perf_counter() - begin
    if "Result - Optimal solution found" in out:
        return round(float(re.search(r"Objective value:\s+(-?[\d.e+]+)", out).group(1))), took
    if "nfeasible" in out:
        return None, took
    if "Stopped on time" not in out:
        raise RuntimeError("cbc said: " + out[-500:])
    return "limit", took


def solve(inst, folder):
    """Gives the plan, or "limit", and how long cbc took, in seconds."""
    aims = ["sticks", "pieces"] if inst["first"] == "sticks" else ["pieces", "sticks"]
    fixed, took = {}, 0
    for goal in aims + ["offcut"]:
        model = Model(inst, goal == "offcut")
        for g, v in fixed.items():
            model.fix(g, v)
        value, seconds = cbc(model, goal, folder)
        took += seconds
        if value is None or value == "limit":
            return value if not fixed else "limit", took
        fixed[goal] = value
    joins = fixed["pieces"] - inst["loaves"] * inst["rows"]
    return {"sticks": fixed["sticks"], "joins": joins, "offcut": -fixed["offcut"]}, took


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 240
    impossible, seed, made = 0, 0, 0
    with tempfile.TemporaryDirectory() as folder:
        while made < count:
            inst = instance(seed)
            seed += 1
            try:
                plan, took = solve(inst, folder)
            except ValueError:  # Not one piece can be cut.
                continue
            if plan == "limit":
                print("not proven:", inst["seed"], file=sys.stderr)
                continue
            if plan is None:
                impossible += 1
                if impossible > count // 20:
                    continue
            inst["plan"], inst["cbc_s"] = plan, round(took, 2)
            print(json.dumps(inst), flush=True)
            made += 1


main()
