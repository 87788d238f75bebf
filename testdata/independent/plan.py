#!/usr/bin/env python3
"""Works out by hand what bench plans for its built-in recipes.

It shares no code with bench and reads nothing that bench writes: only the
recipes, the workshop and the published table of oils. Run it in this folder:

    python3 plan.py            writes plan.txt and plan.json
    python3 plan.py --check    fails if they are not what it would write

Sources: atomic weights CIAAW (abridged, from memory); definition of the
saponification value ISO 3657; density of lye solution Laliberte, J. Chem. Eng.
Data 54 (2009) 1725, doi 10.1021/je8008123; density of water Kell, in the same
paper; change of an oil's density with temperature Noureddini et al., JAOCS 69
(1992) 1184 (from memory). The density of potassium hydroxide solution is read
off a table at 15 degrees (International Critical Tables, as Perry's gives it,
from memory), and warmed by what sodium hydroxide of the same strength loses;
bench uses a formula instead. What is common practice or bench's own assumption,
without a source, says so below.
"""

import csv
import json
import math
import os
import re
import sys
from fractions import Fraction

import columns

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
RECIPES = os.path.join(ROOT, "recipes")
OILS = os.path.join(ROOT, "internal", "oils", "oils.csv")

# ---------------------------------------------------------------- documents


def scalar(text):
    text = text.strip()
    if text.startswith("{"):
        return dict(pair(p) for p in pieces(text[1:-1]))
    if text.startswith("["):
        return [scalar(p) for p in pieces(text[1:-1])]
    return text.strip("\"'")


def pieces(text):
    """Cuts at commas that are not inside brackets."""
    out, depth, last = [], 0, 0
    for i, c in enumerate(text):
        depth += (c in "[{") - (c in "]}")
        if c == "," and depth == 0:
            out.append(text[last:i])
            last = i + 1
    out.append(text[last:])
    return [p for p in out if p.strip()]


def pair(text):
    key, _, value = text.partition(":")
    return key.strip(), scalar(value)


def read(path):
    """Reads the little of YAML that the built-in documents use."""
    lines = []
    with open(path, encoding="utf-8") as f:
        for line in f:
            line = re.sub(r"(^|\s)#.*$", "", line.rstrip("\n")).rstrip()
            if line.strip():
                lines.append((len(line) - len(line.lstrip()), line.strip()))
    value, rest = block(lines, 0, 0)
    assert rest == len(lines), f"{path}: line not understood: {lines[rest]}"
    return value


def block(lines, i, indent):
    if lines[i][1].startswith("- "):
        return sequence(lines, i, indent)
    out = {}
    while i < len(lines) and lines[i][0] == indent and not lines[i][1].startswith("- "):
        key, _, value = lines[i][1].partition(":")
        i += 1
        if value.strip() == ">":
            words = []
            while i < len(lines) and lines[i][0] > indent:
                words.append(lines[i][1])
                i += 1
            out[key] = " ".join(words)
        elif value.strip():
            out[key] = scalar(value)
        else:
            out[key], i = block(lines, i, lines[i][0])
    return out, i


def sequence(lines, i, indent):
    out = []
    while i < len(lines) and lines[i][0] == indent and lines[i][1].startswith("- "):
        item = lines[i][1][2:].strip()
        if item.startswith("{"):
            out.append(scalar(item))
            i += 1
            continue
        lines[i] = (indent + 2, item)
        value, i = block(lines, i, indent + 2)
        out.append(value)
    return out, i


UNITS = {"g": 1, "kg": 1000, "mm": 1, "%": 0.01, "g/kg": 0.001, "°C": 1}


def amount(text):
    """A number with its unit, in g, mm, °C or as a share of 1."""
    m = re.match(r"^([\d.]+)\s*(%|g/kg|kg|g|mm|°C)(?: of (oils|batter))?$", text)
    assert m, f"amount not understood: {text}"
    return float(m[1]) * UNITS[m[2]]


# ------------------------------------------------------------- showing work

WORK = []


def say(text=""):
    WORK.append(text)


# ---------------------------------------------------------------- chemistry

H, O, NA, K = 1.008, 15.999, 22.98976928, 39.0983
NAOH, KOH = NA + O + H, K + O + H


def water_density(t):
    """kg/m3, Kell."""
    p = (((((-2.8054253e-10 * t + 1.0556302e-7) * t - 4.6170461e-5) * t - 0.0079870401) * t + 16.945176) * t
         + 999.83952)
    return p / (1 + 0.01687985 * t)


def lye_density(w, t):
    """g/mL of aqueous sodium hydroxide, mass fraction w, Laliberte."""
    c0, c1, c2 = 319.020509469838, 528.592358475315, -0.102197896602724
    c3, c4 = 0.000350420706415566, 765.970470238438
    apparent = (c0 * w + c1) * math.exp(1e-6 * (t + c4) ** 2) / (w + c2 + c3 * t)
    return 1 / ((1 - w) / water_density(t) + w / apparent) / 1000


# g/mL at 15 °C by percent of potassium hydroxide, ICT in Perry's (from memory).
POTASH = [(0, 0.9991), (10, 1.0918), (20, 1.1884), (30, 1.2905), (40, 1.3991), (50, 1.5143)]


def potash_density(w, t):
    """g/mL: the table, warmed as sodium hydroxide of that strength is."""
    for (a, low), (b, high) in zip(POTASH, POTASH[1:]):
        if 100 * w <= b:
            at15 = low + (high - low) * (100 * w - a) / (b - a)
            return at15 * lye_density(w, t) / lye_density(w, 15)
    raise ValueError(w)


def mixed_density(naoh, koh, water, t):
    """Each hydroxide in its own part of the water; the volumes add up."""
    w = (naoh + koh) / (naoh + koh + water)
    whole = naoh + koh
    return whole / (naoh / lye_density(w, t) + (koh / potash_density(w, t) if koh else 0))


EXPANSION = -0.00067  # g/mL per °C, Noureddini
SCENT, ADDITIVE, COLOUR = 0.95, 1.1, 2.8  # g/mL, bench's assumptions, no source


def oil_table():
    table = {}
    with open(OILS, encoding="utf-8", newline="") as f:
        for row in csv.DictReader(f):
            at, ref = float(row["density_at_c"] or 0), float(row["density_water_c"] or 4)
            relative = (float(row["density_low"]) + float(row["density_high"])) / 2
            table[row["key"]] = {
                "name": row["name"],
                "low": float(row["sv_low"]), "high": float(row["sv_high"]),
                "melts": float(row["melts_high_c"] or 0),
                "density": lambda t, r=relative, a=at, w=ref: r * water_density(w) / 1000 + EXPANSION * (t - a),
            }
    return table


# ----------------------------------------------------------------- geometry

SLICE = 0.002  # mm


class Embed:
    """A stick in the cross-section: its width at every height."""

    def __init__(self, spec, surface):
        m = re.match(r"^(rectangle|ellipse|circle) ([\d.]+) mm(?: x ([\d.]+) mm)?$", spec["shape"])
        assert m, f"shape not understood: {spec['shape']}"
        self.name, self.shape = spec["name"], m[1]
        self.w, self.h = float(m[2]), float(m[3] or m[2])
        self.bottom = surface - amount(spec["sink"])
        self.top = self.bottom + self.h

    def width(self, y):
        if not self.bottom < y < self.top:
            return 0.0
        if self.shape == "rectangle":
            return self.w
        t = (y - self.bottom - self.h / 2) / (self.h / 2)
        return self.w * math.sqrt(max(0.0, 1 - t * t))


def free_area(width, low, high, embeds):
    """mm2 of the section between two heights that embeds leave, by slices."""
    n = max(1, round((high - low) / SLICE))
    dy = (high - low) / n
    return sum((width - sum(e.width(low + (i + 0.5) * dy) for e in embeds)) * dy for i in range(n))


def filled_to(width, base, area, embeds):
    """Height that so much area of batter reaches, slice upon slice."""
    y = base
    while area > 0:
        step = (width - sum(e.width(y + SLICE / 2) for e in embeds)) * SLICE
        if step >= area:
            return y + SLICE * area / step
        area -= step
        y += SLICE
    return y


# ------------------------------------------------------------------- scales


class Shop:
    """The workshop: on which scale a vessel stands, and what it shows."""

    def __init__(self, doc):
        self.doc = doc
        self.scales = sorted((amount(s["reads"]), amount(s["max"]), s["name"]) for s in doc["scales"])
        self.left = amount(doc["left in vessel"])

    def vessel(self, kind, i):
        have = [v for v in self.doc["vessels"] if v["kind"] == kind]
        return amount(have[i]["tare"]) if i < len(have) else 0.0

    def material(self, name):
        return next((m for m in self.doc["materials"] if m["name"] == name), {})

    def oil_name(self, key, table):
        for m in self.doc["materials"]:
            if m["kind"] == "oil" and m["oil"] == key:
                return m["name"]
        return table[key]["name"]

    def reads(self, load):
        """What the finest scale that carries the load reads to."""
        for reads, most, _ in self.scales:
            if load <= most:
                return reads
        return self.scales[-1][0]


def rounded(g, reads):
    return math.floor(g / reads + 0.5) * reads


def portions(net, n, reads):
    """Equal portions by largest remainder; all in whole readings."""
    units = math.floor(net / reads + 1e-6)
    return [(units // n + (1 if i < units % n else 0)) * reads for i in range(n)]


def shares(net, weights, reads):
    """Portions by weights, largest remainder, ties to the earlier one."""
    units = math.floor(net / reads + 1e-6)
    exact = [Fraction(units) * Fraction(w) / sum(Fraction(x) for x in weights) for w in weights]
    out = [math.floor(e) for e in exact]
    for i in sorted(range(len(out)), key=lambda i: out[i] - exact[i])[: units - sum(out)]:
        out[i] += 1
    return [u * reads for u in out]


# --------------------------------------------------------------------- plan


M = {"sodium hydroxide": NAOH, "potassium hydroxide": KOH}
SHORT = {"sodium hydroxide": "NaOH", "potassium hydroxide": "KOH"}


def alkalis(b):
    """Each alkali of a batter with its share of the alkali needed."""
    return [(name, amount(share)) for name, share in b.get("alkali", {"sodium hydroxide": "100 %"}).items()]


def purity_of(shop, name):
    return amount(shop.material(name).get("purity", "100 %"))


def purity_ends(shop, name):
    """Stated: half a point either way, 100 % at most; not stated: 95 to 100 %."""
    if "purity" not in shop.material(name):
        return 0.95, 1.0
    return purity_of(shop, name) - 0.005, min(1, purity_of(shop, name) + 0.005)


def per_oil(shop, table, b, layer):
    """What goes with each gram of a layer's oils, and the batter's density."""
    t = amount(b["mix at"])
    superfat = amount(b["superfat"])
    koh = sum(amount(s) * (table[o]["low"] + table[o]["high"]) / 2000 for o, s in b["oils"].items())
    pure = {name: koh * (1 - superfat) * share * M[name] / KOH for name, share in alkalis(b)}
    weighed = {name: g / purity_of(shop, name) for name, g in pure.items()}
    alkali = sum(weighed.values())
    strength = amount(b["water"])  # the built-in recipes state the lye concentration
    water = alkali * (1 - strength) / strength
    lye = mixed_density(pure.get("sodium hydroxide", 0), pure.get("potassium hydroxide", 0),
                        water + alkali - sum(pure.values()), t)
    additives = sum(amount(a["rate"]) for a in b.get("additives", []))
    colours = sum(amount(c["rate"]) for c in layer.get("colours", []))
    scents = sum(amount(s["rate"]) for s in layer.get("scents", []))
    total = 1 + alkali + water + additives + colours + scents
    ml = (sum(amount(s) / table[o]["density"](t) for o, s in b["oils"].items())
          + (alkali + water) / lye
          + additives / ADDITIVE + colours / COLOUR + scents / SCENT)
    return {"koh": koh, "alkali": weighed, "water": water, "total": total, "density": total / ml, "lye": lye}


def plan(doc, shop, table):
    loaves = int(doc["loaves"])
    mould = next(m for m in shop.doc["moulds"] if m["name"] == doc["mould"])
    length, width, height = (amount(mould[k]) for k in ("length", "width", "height"))
    batters = {b["name"]: b for b in doc["batters"]}
    layers = doc["layers"]
    for l in layers:
        l.setdefault("batter", doc["batters"][0]["name"])
    say(f"=== {doc['recipe']}, {loaves} loaves ===")
    say(f"Mould {mould['name']}: {length:g} x {width:g} x {height:g} mm"
        + (" at the rim, its walls lean." if "floor width" in mould else f", {length * width * height / 1000:.1f} mL to the rim."))
    say()

    if "floor width" in mould:
        fill = columns.geometry(layers, mould, RECIPES)
    else:
        fill = geometry(layers, length, width, height)
    for l, f in zip(layers, fill):
        how = f"{f['area']:.2f} mm2 of batter in the section x {length:g} mm" if "area" in f else "column by column"
        say(f"{l['name']}: {how} = {f['ml']:.2f} mL a loaf;"
            f" pour to {f['line']:.2f} mm, {height - f['line']:.2f} mm under the rim; finished at {f['surface']:.2f} mm.")
    say()

    for l, f in zip(layers, fill):
        b = batters[l["batter"]]
        f["mix"] = m = per_oil(shop, table, b, l)
        siblings = [x for x in layers if x["batter"] == l["batter"]]
        f["cling"] = shop.left * ((loaves if loaves > 1 else 0) + (1 if len(siblings) > 1 else 0) + 1 / len(siblings))
        poured = f["ml"] * m["density"] * loaves
        f["oils"] = (poured + f["cling"]) / m["total"]
        say(f"{l['name']}: 1 g of oils takes {m['koh']:.5f} g KOH = "
            + " + ".join(f"{g:.5f} g {SHORT[n]}" for n, g in m["alkali"].items()) + " after the superfat and"
            f" {m['water']:.5f} g water (lye solution {m['lye']:.4f} g/mL): {m['total']:.5f} g of batter at {m['density']:.4f} g/mL.")
        say(f"    {loaves} x {f['ml']:.2f} mL x {m['density']:.4f} = {poured:.1f} g, and {f['cling']:.1f} g stays in vessels:"
            f" {poured + f['cling']:.1f} g, from {f['oils']:.2f} g of oils.")
    say()

    out = {"recipe": doc["recipe"], "loaves": loaves, "oils_g": 0,
           "mould": {"name": mould["name"], "capacity_ml": length * width * height / 1000}, "batters": [], "layers": []}
    for i, b in enumerate(doc["batters"]):
        mine = [(l, f) for l, f in zip(layers, fill) if l["batter"] == b["name"]]
        batter, made = weigh_batter(shop, table, i, b, mine, loaves)
        out["batters"].append(batter)
        out["layers"] += made
        out["oils_g"] += sum(o["g"] for o in batter["oils"])
    say()
    return out


def geometry(layers, length, width, height):
    """Batter's area and lines of each layer, floor first."""
    embeds = [[Embed(e, amount(l["surface"])) for e in l.get("embeds", [])] for l in layers]
    every, standing, base, out = sum(embeds, []), [], 0.0, []
    for l, own in zip(layers, embeds):
        surface = amount(l["surface"])
        area = free_area(width, base, surface, every)
        out.append({"area": area, "ml": area * length / 1000, "surface": surface,
                    "line": filled_to(width, base, area, standing), "height": height})
        standing, base = standing + own, surface
    return out


def weigh_batter(shop, table, i, b, mine, loaves):
    """What the scales are to show, each weight following from those before."""
    total = sum(f["oils"] for _, f in mine)
    full = sum(f["oils"] * f["mix"]["total"] for _, f in mine)
    reads = shop.reads(shop.vessel("pot", i) + full)
    say(f"Batter {b['name']}: {total:.2f} g of oils; {full:.0f} g in a pot of {shop.vessel('pot', i):g} g: the scale reads to {reads:g} g.")
    oils = [{"name": shop.oil_name(o, table), "g": rounded(total * amount(s), reads), "reads_g": reads, "key": o}
            for o, s in b["oils"].items()]
    koh = low = high = 0.0
    for o in oils:
        t = table[o["key"]]
        mid = (t["low"] + t["high"]) / 2
        koh += o["g"] * mid / 1000
        low += (o["g"] - reads) * t["low"] / 1000
        high += (o["g"] + reads) * t["high"] / 1000
        say(f"    {o['name']}: {o['g']:.2f} g x SV {t['low']:g} to {t['high']:g}, middle {mid:g} -> {o['g'] * mid / 1000:.3f} g KOH")
    weighed = sum(o["g"] for o in oils)
    superfat = amount(b["superfat"])
    exact = {n: koh * (1 - superfat) * share * M[n] / KOH / purity_of(shop, n) for n, share in alkalis(b)}
    fine = shop.reads(shop.vessel("cup", 0) + sum(exact.values()))  # one on top of the other, in one cup
    dry = {n: rounded(g, fine) for n, g in exact.items()}
    got = 100 * (1 - sum(g * purity_of(shop, n) * KOH / M[n] for n, g in dry.items()) / koh)
    worst_low = 100 * (1 - sum((g + fine) * purity_ends(shop, n)[1] * KOH / M[n] for n, g in dry.items()) / low)
    worst_high = 100 * (1 - sum((g - fine) * purity_ends(shop, n)[0] * KOH / M[n] for n, g in dry.items()) / high)
    say(f"    together {koh:.3f} g KOH; less {superfat:.0%} superfat: " + "; ".join(
        f"{share:.0%} x {M[n]:.4f}/{KOH:.4f} / purity {purity_of(shop, n):.0%} = {exact[n]:.3f} g {SHORT[n]}: the scale shows {dry[n]:.2f} g"
        for n, share in alkalis(b))
        + f" (superfat {got:.2f} %, at worst {worst_low:.2f} to {worst_high:.2f} %)")
    alkali = sum(dry.values())
    strength = amount(b["water"])
    exact = alkali * (1 - strength) / strength
    wreads = shop.reads(shop.vessel("lye jug", i) + exact + alkali)
    water = rounded(exact, wreads)
    say(f"    water for {strength:.0%}: {exact:.3f} g, {water:.1f} g on the scale")
    additives = []
    for a in b.get("additives", []):
        exact = amount(a["rate"]) * weighed
        areads = shop.reads(shop.vessel("cup", 1) + exact)
        additives.append({"name": a["material"], "g": rounded(exact, areads), "reads_g": areads})
        say(f"    {a['material']}: {amount(a['rate']):.2%} of {weighed:.1f} g = {exact:.3f} g")
    base = weighed + alkali + water + sum(a["g"] for a in additives)
    say(f"    all of it {base:.2f} g")

    made, mass, density = layers_of(shop, i, b, mine, loaves, weighed, base, total)
    say(f"    with colour and scent {mass:.1f} g at {density:.4f} g/mL")
    for o in oils:
        del o["key"]
    return {"name": b["name"], "oils": oils,
            "alkali": [{"name": n, "g": g, "reads_g": fine} for n, g in dry.items()],
            "water_g": water, "water_reads_g": wreads, "additives": additives,
            "batter_g": mass, "density_g_per_ml": density,
            "superfat": {"percent": got, "worst_low": worst_low, "worst_high": worst_high}}, made


def layers_of(shop, i, b, mine, loaves, weighed, base, total):
    """Colours, scents and portions of every layer that a pot feeds."""
    made, mass, grams, ml = [], base, 0.0, 0.0
    pot = shop.vessel("pot", i)
    parts, out = [base], 1
    if len(mine) > 1:
        net = rounded(pot + base, shop.reads(pot + base)) - pot
        parts = shares(net - shop.left, [f["oils"] for _, f in mine], shop.reads(pot + base))
        out = 1 - shop.left / net
        say(f"    shared out, {shop.left:g} g left in the pot: " + ", ".join(f"{p:.1f} g" for p in parts))
    for n, (l, f) in enumerate(mine):
        oils = weighed * f["oils"] / total * out
        colours, scents = [], []
        for c in l.get("colours", []):
            g = amount(c["rate"]) * oils
            reads = shop.reads(shop.vessel("cup", 1) + g)
            colours.append({"name": c["material"], "g": rounded(g, reads), "reads_g": reads})
        bare = parts[n] + sum(c["g"] for c in colours)
        where = placed(shop, l)
        vessel = pot if len(mine) == 1 else shop.vessel("jug", loaves + n)
        if where == "pot":
            for s in l.get("scents", []):
                g = amount(s["rate"]) * oils
                reads = shop.reads(shop.vessel("cup", 1) + g)
                g = rounded(g, reads)
                scents.append({"name": s["material"], "g": g, "reads_g": reads, "where": where})
        inside = bare + sum(s["g"] for s in scents)
        reads = shop.reads(vessel + inside)
        net = rounded(vessel + inside, reads) - vessel
        split = portions(net - shop.left, loaves, reads) if loaves > 1 else []
        for s in scents:  # What stays in the pot keeps its share.
            s["portions_g"] = [s["g"] * p / net for p in split] or [s["g"] * (1 - shop.left / inside)]
        if where == "portions":
            for s in l.get("scents", []):
                cup = amount(s["rate"]) * oils / loaves * (1 - shop.left / bare if loaves > 1 else 1)
                reads_cup = shop.reads(shop.vessel("cup", 1) + cup)
                cup = rounded(cup, reads_cup)
                # A portion within a twentieth of the plan takes all that is in its cup.
                assert all(abs(p - bare / loaves) < bare / loaves / 20 for p in split)
                scents.append({"name": s["material"], "g": cup * loaves, "reads_g": reads_cup, "where": where,
                               "portions_g": [cup] * loaves})
        inside = bare + sum(s["g"] for s in scents)
        added = inside - parts[n] if len(mine) > 1 else inside - base
        mass += added
        grams += inside
        ml += inside / f["mix"]["density"]
        say(f"    {l['name']}: {oils:.1f} g of oils; " + "; ".join(f"{c['name']} {c['g']:.2f} g" for c in colours + scents)
            + f"; scent into the {where}; {inside:.1f} g in all"
            + (f"; portions {', '.join(f'{p:.1f}' for p in split)} g of {net:.1f} g" if split else ""))
        made.append({"name": l["name"], "batter": l["batter"], "batter_g": inside, "split_reads_g": reads, "portions_g": split,
                     "colours": colours, "scents": scents, "surface_mm": f["surface"], "pour_line_mm": f["line"],
                     "rim_mm": f["height"] - f["line"], "loaf_g": f["ml"] * f["mix"]["density"]})
    return made, mass, grams / ml


def placed(shop, layer):
    """Where the scent goes (common practice, no source): into each portion if
    it spoils batter, or thickens it where the layer must stay thin."""
    does = set()
    for s in layer.get("scents", []):
        d = shop.material(s["material"]).get("does", [])
        does |= set(d if isinstance(d, list) else [d])
    if does & {"rices", "seizes", "separates"}:
        return "portions"
    if "accelerates" in does and layer["trace"] in ("emulsion", "light"):
        return "portions"
    return "pot"


def tidy(x):
    if isinstance(x, float):
        return round(x, 4)
    if isinstance(x, dict):
        return {k: tidy(v) for k, v in x.items()}
    if isinstance(x, list):
        return [tidy(v) for v in x]
    return x


def main():
    shop, table = Shop(read(os.path.join(RECIPES, "workshop.yaml"))), oil_table()
    say(f"M(NaOH) = {NA} + {O} + {H} = {NAOH:.4f} g/mol; M(KOH) = {KOH:.4f} g/mol; ratio {NAOH / KOH:.5f}.")
    say(f"Densities without a source: scent {SCENT}, additives {ADDITIVE}, colour {COLOUR} g/mL; {shop.left:g} g stays in each vessel.")
    say()
    names = sorted(n for n in os.listdir(RECIPES) if n.endswith(".yaml") and n != "workshop.yaml")
    plans = {n: tidy(plan(read(os.path.join(RECIPES, n)), shop, table)) for n in names}
    files = {"plan.txt": "\n".join(WORK).rstrip() + "\n",
             "plan.json": json.dumps(plans, indent=1, ensure_ascii=False) + "\n"}
    stale = 0
    for name, text in files.items():
        path = os.path.join(HERE, name)
        if "--check" in sys.argv:
            with open(path, encoding="utf-8") as f:
                if f.read() != text:
                    print(f"{path} is not what plan.py works out: run python3 {sys.argv[0]}")
                    stale = 1
            continue
        with open(path, "w", encoding="utf-8") as f:
            f.write(text)
    if "--check" not in sys.argv:
        print(files["plan.txt"], end="")
    sys.exit(stale)


if __name__ == "__main__":
    main()
