"""The sticks of an instance as an integer program, written as an LP file.

A two-sided arc-flow model. On one side a stick is a path over the lengths that
can be cut from it so far; on the other a row is a path over the places where a
piece may end. The two meet in the pieces: as many of a length are cut from a
lot as its rows use. Lengths are whole micrometres. It shares nothing with the
Go code but the instances.
"""


def stations(inst):
    """Where a piece may begin or end along the row: the two ends of the mould
    and the middle of every cut that the cutter will make."""
    length, bar, wire = inst["length"], inst["bar"], inst["wire"]
    near, far = inst["near"], inst["far"]
    cuts = []
    at = 0
    if near:
        cuts.append(near + wire // 2)
        at = near + wire
    stop = length - far - (wire if far else 0)
    bars = 0
    while at + bar <= stop:
        bars += 1
        at += bar
        if at < length:
            cuts.append(at + wire // 2)
        at += wire
    return bars, [0] + [c for c in cuts if 0 < c < length] + [length]


def pieces(inst):
    """The pieces of a row, as (from, to) station, and their lengths."""
    _, s = stations(inst)
    out = {}
    for i in range(len(s)):
        for j in range(i + 1, len(s)):
            if s[j] - s[i] >= inst["minimum"]:
                out[i, j] = s[j] - s[i]
    return out


def graph(lengths, knife, capacity):
    """Arcs (piece length, from, to) over the stick, longest pieces first so that
    one set of pieces is one path. The knife goes with every piece."""
    reach, arcs = {0}, []
    for l in sorted(set(lengths), reverse=True):
        w = l + knife
        done = set()
        for a in sorted(reach):
            b = a
            while b + w <= capacity and (b, l) not in done:
                done.add((b, l))
                arcs.append((l, b, b + w))
                b += w
        reach |= {b for _, _, b in arcs}
    return sorted(set(arcs)), sorted(reach)


class Model:
    def __init__(self, inst, special, whole=True):
        self.inst, self.special, self.whole = inst, special, whole
        self.rows, self.ints, self.bounds = [], set(), []
        self.piece = pieces(inst)
        _, self.stations = stations(inst)
        self.lots = sorted({s["lot"] for s in inst["sticks"]})
        self.knife = inst["knife"]
        self.build()

    def capacity(self, stick):
        # Half of the tolerance may be spent on a stick that is a little short;
        # the last piece needs no cut after it.
        return stick["length"] + self.inst["tolerance"] // 2 + self.knife

    def build(self):
        inst, last = self.inst, len(self.stations) - 1
        self.sticks, self.used, self.left = [], [], []
        sums = {}
        for lot in self.lots:
            classes = [(n, s) for n, s in enumerate(inst["sticks"]) if s["lot"] == lot]
            top = max(self.capacity(s) for _, s in classes)
            arcs, nodes = graph(self.piece.values(), self.knife, top)
            for copy in ["x"] + (["w"] if self.special else []):
                flow = {v: [] for v in nodes}
                for l, a, b in arcs:
                    v = f"{copy}{lot}_{l}_{a}"
                    flow[a].append(f"- {v}")
                    flow[b].append(f"+ {v}")
                    sums.setdefault((lot, l), []).append(v)
                    self.ints.add(v)
                source = []
                for n, s in classes:
                    for d in nodes:
                        if 0 < d <= self.capacity(s):
                            v = f"{copy}end{lot}_{n}_{d}"
                            flow[d].append(f"- {v}")
                            source.append(v)
                            sums.setdefault(("class", n), []).append(v)
                            if copy == "w":
                                self.left.append((max(0, s["length"] - d), v))
                            self.ints.add(v)
                for v in nodes:
                    if v:
                        self.rows.append((" ".join(flow[v]), "=", 0))
                self.sticks += source
                if copy == "w":
                    self.used += source
            out = {v: [] for v in range(last + 1)}
            for (i, j), l in self.piece.items():
                v = f"z{lot}_{i}_{j}"
                out[i].append(f"- {v}")
                out[j].append(f"+ {v}")
                sums.setdefault((lot, l, "row"), []).append(v)
                self.ints.add(v)
            self.ints.add(f"g{lot}")
            for v in range(1, last):
                if out[v]:
                    self.rows.append((" ".join(out[v]), "=", 0))
            self.rows.append((" ".join(out[0]) + f" + {inst['rows']} g{lot}", "=", 0))
            for l in set(self.piece.values()):
                cut = " ".join("+ " + v for v in sums.get((lot, l), []))
                laid = " ".join("- " + v for v in sums[lot, l, "row"])
                self.rows.append((cut + " " + laid, "=", 0))
        self.rows.append((" ".join(f"+ g{lot}" for lot in self.lots), "=", inst["loaves"]))
        for n, s in enumerate(inst["sticks"]):
            if ("class", n) in sums:
                self.rows.append((" ".join("+ " + v for v in sums["class", n]), "<=", s["count"]))
        if self.special:
            self.rows.append((" ".join("+ " + v for v in self.used), "=", 1))

    def laid(self):
        return [v for v in self.ints if v.startswith("z")]

    def objective(self, goal):
        if goal == "sticks":
            return " ".join("+ " + v for v in self.sticks)
        if goal == "pieces":
            return " ".join("+ " + v for v in sorted(self.laid()))
        return " ".join(f"- {l} {v}" for l, v in self.left if l) or "0 " + self.used[0]

    def fix(self, goal, value):
        self.rows.append((self.objective(goal), "=", value))

    def write(self, path, goal):
        with open(path, "w") as f:
            f.write("Minimize\n obj: " + wrap(self.objective(goal)) + "\nSubject To\n")
            for n, (terms, sign, value) in enumerate(self.rows):
                f.write(f" r{n}: {wrap(terms)} {sign} {value}\n")
            if self.whole:
                f.write("Generals\n" + "\n".join(sorted(self.ints)) + "\n")
            f.write("End\n")


def wrap(terms):
    """Keeps lines of an LP file short."""
    words, lines = terms.split(" "), []
    while words:
        cut = min(len(words), 24)
        lines.append(" ".join(words[:cut]))
        words = words[cut:]
    return "\n  ".join(lines)
