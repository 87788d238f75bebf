"""Moulds that lean, slopes, and outlines with corners or curves, by columns.

Shares no code with bench and no method either: the cross-section is cut into
thin columns, upright from floor to rim, and each is as long as the mould is at
its height. Used by plan.py for what straight slices cannot do.
"""

import math
import os
import re

COLUMN = 0.02  # mm


def mm(text):
    return float(re.match(r"^([\d.]+)\s*mm$", text)[1])


def cubic(a, b, c, d, n=200):
    for i in range(1, n + 1):
        t = i / n
        u = 1 - t
        yield tuple(u**3 * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * c[k] + t**3 * d[k] for k in (0, 1))


def drawing(path):
    """The corners of a path of absolute M, C, Q and Z in an SVG file, up up."""
    with open(path, encoding="utf-8") as f:
        d = re.search(r'<path d="([^"]*)"', f.read())[1]
    points = []
    for letter, numbers in re.findall(r"([MCQZ])([^MCQZ]*)", d):
        v = [float(x) for x in numbers.split()]
        p = list(zip(v[::2], v[1::2]))
        if letter == "M":
            points.append(p[0])
        while letter == "C" and p:
            points += cubic(points[-1], *p[:3])
            p = p[3:]
        while letter == "Q" and p:
            a, c, e = points[-1], p[0], p[1]
            points += cubic(a, *(tuple((q[k] + 2 * c[k]) / 3 for k in (0, 1)) for q in (a, e)), e)
            p = p[2:]
    return [(x, -y) for x, y in points]


def outline(spec, folder, bottom):
    """The corners of a polygon or a path where it lies, given its lowest point."""
    if spec["shape"] == "polygon":
        points = [tuple(float(x) for x in re.match(r"^([\d.]+) x ([\d.]+) mm$", p).groups()) for p in spec["points"]]
    else:
        points = drawing(os.path.join(folder, spec["file"]))
    a = math.radians(float(spec.get("turn", "0°").rstrip("°")))
    points = [(x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a)) for x, y in points]
    left, right, low = min(x for x, _ in points), max(x for x, _ in points), min(y for _, y in points)
    dx = mm(spec["across"]) - (left + right) / 2
    return [(x + dx, y - low + bottom) for x, y in points]


class Loaf:
    def __init__(self, mould):
        self.width, self.height, self.long = (mm(mould[k]) for k in ("width", "height", "length"))
        self.floor = mm(mould.get("floor width", mould["width"]))
        self.short = mm(mould.get("floor length", mould["length"]))
        n = round(self.width / COLUMN)
        self.xs = [(i + 0.5) * self.width / n for i in range(n)]
        self.dx = self.width / n
        self.taken = [[] for _ in self.xs]  # (from, to, stands) of embeds, column by column

    def wall(self, x):
        """Height at which a column begins: the floor, or the leaning wall over it."""
        out = abs(x - self.width / 2) - self.floor / 2
        return 0.0 if out <= 0 else out * self.height / ((self.width - self.floor) / 2)

    def column(self, low, high):
        """Volume of a column of the section between two heights, from end to end."""
        if high <= low:
            return 0.0
        k = (self.long - self.short) / self.height
        return self.dx * (self.short * (high - low) + k * (high**2 - low**2) / 2)

    def put(self, points, there):
        for i, x in enumerate(self.xs):
            ys = []
            for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1]):
                if (x0 > x) != (x1 > x):
                    ys.append(y0 + (x - x0) / (x1 - x0) * (y1 - y0))
            ys.sort()
            self.taken[i] += [(a, b, there) for a, b in zip(ys[::2], ys[1::2])]

    def batter(self, under, over, there):
        """Volume between two surfaces round the embeds of which there(...) is true."""
        total = 0.0
        for i, x in enumerate(self.xs):
            low, high = max(under(x), self.wall(x)), min(over(x), self.height)
            total += self.column(low, high)
            for a, b, tag in self.taken[i]:
                if there(tag):
                    total -= self.column(max(a, low), min(b, high))
        return total


def geometry(layers, mould, folder):
    """What each layer takes in ml, and its lines in the middle, floor first."""
    loaf, surfaces = Loaf(mould), []
    for l in layers:
        by, slope = l.get("propped"), 0.0
        if by:
            sine = mm(by.rsplit(" ", 1)[0]) / loaf.floor
            slope = sine / math.sqrt(1 - sine * sine) * (1 if by.endswith("left") else -1)
        surfaces.append((mm(l["surface"]), slope))

    def line(y, slope):
        return lambda x: y + slope * (x - loaf.width / 2)

    base = line(0, 0)
    for n, l in enumerate(layers):
        for e in l.get("embeds", []):
            stood = bool(e.get("stood"))
            bottom = base(0) if stood else line(*surfaces[n])(mm(e["across"])) - mm(e["sink"])
            assert not stood or n == 0, "only on the floor"
            loaf.put(outline(e, folder, bottom), n if stood else n + 0.5)
        base = line(*surfaces[n])
    out, base = [], line(0, 0)
    for n, (y, slope) in enumerate(surfaces):
        over = line(y, slope)
        volume = loaf.batter(base, over, lambda tag: True)
        low, high = 0.0, loaf.height
        for _ in range(30):
            half = (low + high) / 2
            if loaf.batter(base, line(half, slope), lambda tag, n=n: tag <= n) < volume:
                low = half
            else:
                high = half
        out.append({"ml": volume / 1000, "surface": y, "line": high, "height": loaf.height})
        base = over
    return out
