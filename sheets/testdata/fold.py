"""Folds written flat patterns and prints, as JSON, what each cap measures, how deep metal
stands in metal, and how far apart the bodies of each piece stand along their seams.

Reads DXF with ezdxf and reckons with numpy; takes a folder with the DXF files, list.csv,
bends.csv and job.json, which has what no file for machines tells: where chairs stand.
Millimetres. On a blank x runs to the right and y up, its finish towards the viewer; in
space x runs along, y to the street and z up.
"""
import csv
import json
import os
import sys

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):  # short arrays: more threads only wait
    os.environ.setdefault(threads, "1")

import ezdxf  # noqa: E402
import numpy as np  # noqa: E402

HAIR = 1e-3
STEP = 0.1  # between places along a cut
LAYERS = np.linspace(0, 1, 7)  # through the metal


def rows(path):
    with open(path, newline="") as f:
        return list(csv.DictReader(f))


def outline(path):
    doc = ezdxf.readfile(path)
    unit = {1: 25.4, 4: 1.0}[doc.units]
    for e in doc.modelspace():
        if e.dxf.layer == "CUT" and e.dxftype() == "LWPOLYLINE":
            ring = np.array([p[:2] for p in e.get_points("xy")]) * unit
            a, b = ring, np.roll(ring, -1, axis=0)
            return ring if (a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]).sum() > 0 else ring[::-1]
    raise SystemExit(path + ": nothing is cut")


def inside(ring, pts):
    """Which of some places lie in a ring."""
    out = ((pts >= ring.min(axis=0)) & (pts <= ring.max(axis=0))).all(axis=1)
    if out.any():
        out[out] = within(ring, pts[out])
    return out


def within(ring, pts):
    a, b = ring, np.roll(ring, -1, axis=0)
    x, y = pts[:, 0, None], pts[:, 1, None]
    cross = (a[:, 1] > y) != (b[:, 1] > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        at = a[:, 0] + (y - a[:, 1]) / (b[:, 1] - a[:, 1]) * (b[:, 0] - a[:, 0])
    return (cross & (x < at)).sum(axis=1) % 2 == 1


def parted(ring, mid, u):
    """A ring in two, along a line through a place of it from edge to edge."""
    n = np.array([-u[1], u[0]])
    off = (ring - mid) @ n
    after = np.roll(off, -1)
    hit = np.flatnonzero((off > 0) != (after > 0))
    k = off[hit] / (off[hit] - after[hit])
    at = ring[hit] + (np.roll(ring, -1, axis=0)[hit] - ring[hit]) * k[:, None]
    t = (at - mid) @ u
    i, j = np.flatnonzero(t < 0), np.flatnonzero(t >= 0)
    i, j = i[np.argmax(t[i])], j[np.argmin(t[j])]
    (p, e), (q, f) = (at[i], hit[i]), (at[j], hit[j])

    def walk(start, first, last, end):
        count = (last - first - 1) % len(ring) + 1
        return np.vstack([start, ring[(first + 1 + np.arange(count)) % len(ring)], end])

    return walk(q, f, e, p), walk(p, e, f, q)


class Hinge:
    """A bend between two faces, told from its parent."""

    def __init__(self, b, unit):
        p, q = (np.array([float(b["x" + k]), float(b["y" + k])]) * unit for k in "12")
        self.mid, self.long = (p + q) / 2, np.linalg.norm(q - p) / 2
        self.u = (q - p) / np.linalg.norm(q - p)
        self.v = np.array([-self.u[1], self.u[0]])
        self.half = float(b["bend allowance"]) * unit / 2
        self.turn = np.radians(float(b["turn"])) * (-1 if b["up or down"] == "down" else 1)
        self.radius = float(b["inside radius"]) * unit
        self.names = b["between"], b["and"]
        self.past = HAIR if b["and"].endswith(" tab") else 5.0
        self.parent = None


def plain(name):
    return name.replace("left ", "", 1) if name.startswith("left ") else name.replace("right ", "", 1) if name.startswith("right ") else name


class Body:
    """A blank folded."""

    def __init__(self, folder, row, bends):
        self.row, self.unit = row, 25.4 if row["unit"] == "in" else 1.0
        self.thick = self.mm("thickness")
        self.ring = outline(os.path.join(folder, row["file"]))
        self.hinges = [Hinge(b, self.unit) for b in bends]
        self.faces, self.names, self.frames, self.on = [self.ring], [], [], []
        for h in self.hinges:
            for i, f in enumerate(self.faces):
                if inside(f, h.mid[None])[0]:
                    self.faces[i], other = parted(f, h.mid, h.u)
                    self.faces.append(other)
                    break
        self.grow()

    def mm(self, name):
        return float(self.row[name] or 0) * self.unit

    def numbers(self, name):
        return [float(f) for f in self.row[name].split()]

    def lap(self, right):
        words = self.row["lap"].split()
        return "" if not words else words[-1] if right else words[0]

    def grow(self):
        """Hangs the faces on one another from the one that bends start from."""
        n = len(self.faces)
        self.names, self.frames, self.on = [""] * n, [None] * n, [[] for _ in range(n)]
        children = {h.names[1] for h in self.hinges}
        pair, count = [], np.zeros(n)
        for h in self.hinges:
            side = [next(i for i, f in enumerate(self.faces) if inside(f, (h.mid + way * 1e-4 * h.v)[None])[0]) for way in (1, -1)]
            pair.append(side)
            if h.names[0] not in children:
                count[side] += 1
        root = int(np.argmax(count))
        if len(self.hinges) == 1:  # the lower one
            root = pair[0][0 if self.hinges[0].v[1] < 0 else 1]
        self.root = root
        self.frames[root] = (np.zeros(3), np.eye(3))
        self.names[root] = next((h.names[0] for h, s in zip(self.hinges, pair) if root in s), "flat")
        queue = [root]
        while queue:
            at = queue.pop(0)
            for h, side in zip(self.hinges, pair):
                if at not in side:
                    continue
                to = side[1 - side.index(at)]
                if self.frames[to] is not None:
                    continue
                if side[0] == at:
                    h.v = -h.v  # from parent to child
                h.parent = at
                self.on[at].append(h)
                self.on[to].append(h)
                self.names[to] = h.names[0] if plain(h.names[1]) == plain(self.names[at]) else h.names[1]
                start, normal, way = self.bend(h, np.array([0.0]), np.array([1.0]))
                along = self.frames[at][1][:, :2] @ h.u
                frame = np.column_stack([along * h.u[0] + way[0] * h.v[0], along * h.u[1] + way[0] * h.v[1], normal[0]])
                self.frames[to] = (start[0] - frame[:, :2] @ (h.mid + h.v * h.half), frame)
                queue.append(to)

    def bend(self, h, t, part):
        """Finish face, its normal and the way on at parts of a bend, t along it."""
        o, frame = self.frames[h.parent]
        v, n = frame[:, :2] @ h.v, frame[:, 2]
        begin = (h.mid - h.v * h.half) + t[:, None] * h.u
        p = o + begin @ frame[:, :2].T
        angle = np.abs(h.turn) * part
        cos, sin = np.cos(angle)[:, None], np.sin(angle)[:, None]
        way, r = (1, h.radius) if h.turn > 0 else (-1, h.radius + self.thick)
        normal = n * cos - way * v * sin
        centre = p + way * n * r
        return centre - way * normal * r, normal, v * cos + way * n * sin

    def folded(self, pts, face):
        """Finish face and its normal at places of the blank that lie on a face."""
        o, frame = self.frames[face]
        finish, normal = o + pts @ frame[:, :2].T, np.tile(frame[:, 2], (len(pts), 1))
        found = np.full(len(pts), np.inf)
        for h in self.on[face]:
            d = pts - h.mid
            across, along = d @ h.v, d @ h.u
            near = (np.abs(across) < h.half) & (np.abs(across) < found) & (np.abs(along) < h.long + h.past)
            if near.any():
                f, m, _ = self.bend(h, along[near], (across[near] + h.half) / (2 * h.half))
                finish[near], normal[near], found[near] = f, m, np.abs(across[near])
        return finish, normal

    def cut(self, edges=None):
        """Places along the outline, of some of its edges: on the blank, which edge, which
        face, finish and normal."""
        a, b = self.ring, np.roll(self.ring, -1, axis=0)
        pts, edge, step = [], [], STEP
        for i, (p, q) in enumerate(zip(a, b)):
            if edges is not None and not edges[i]:
                continue
            long = np.linalg.norm(q - p)
            n = max(2, int(np.ceil(long / step)) + 1)
            k = np.linspace(0, 1, n)[:, None]
            left = np.array([-(q - p)[1], (q - p)[0]]) / max(long, 1e-12)
            pts.append(p + (q - p) * k + left * 1e-5)
            edge += [i] * n
        pts, edge = np.vstack(pts), np.array(edge)
        face = np.full(len(pts), -1)
        finish, normal = np.zeros((len(pts), 3)), np.zeros((len(pts), 3))
        for i, f in enumerate(self.faces):
            on = (face < 0) & inside(f, pts)
            if on.any():
                face[on] = i
                finish[on], normal[on] = self.folded(pts[on], i)
        keep = face >= 0
        return Cut(self, pts[keep], edge[keep], face[keep], finish[keep], normal[keep])

    def stance(self):
        """The turn and shift that stand it with its front leg plumb, that leg's face in y = 0
        and its fold's mold line in z = 0; and the fall of its top to the roof."""
        top, leg = self.frames[self.root], self.frames[self.face("front leg")]
        n = leg[1][:, 2]
        turn = np.array([[1, 0, 0], [0, n[1], n[2]], [0, -n[2], n[1]]])
        way, o, f = turn @ top[1][:, 1], turn @ top[0], turn @ leg[0]
        slope = way[2] / way[1]
        return turn, -np.array([0, f[1], o[2] + (f[1] - o[1]) * slope]), slope

    def face(self, name):
        return next((i for i, n in enumerate(self.names) if plain(n) == name), None)

    def sides(self):
        """Of each edge of the outline: 0 along a raw edge, 1 at the right end, 2 at the left."""
        lo, hi = self.ring[:, 1].min(), self.ring[:, 1].max()
        y = np.stack([self.ring[:, 1], np.roll(self.ring[:, 1], -1)])
        foot, top = y.max(axis=0) - lo < HAIR, hi - y.min(axis=0) < HAIR
        out, side, n = np.zeros(len(self.ring), int), 1, len(self.ring)
        first = np.flatnonzero(foot)[-1]
        for k in range(n):
            i = (first + k) % n
            if foot[i]:
                side = 1
            elif top[i]:
                side = 2
            else:
                out[i] = side
        return out

    def ends(self, ys):
        """Where the blank ends at levels of it, at its left and its right."""
        a, b = self.ring, np.roll(self.ring, -1, axis=0)
        y = np.asarray(ys)[:, None]
        with np.errstate(divide="ignore", invalid="ignore"):
            x = np.where((a[:, 1] > y) != (b[:, 1] > y), a[:, 0] + (y - a[:, 1]) / (b[:, 1] - a[:, 1]) * (b[:, 0] - a[:, 0]), np.nan)
        return np.nanmin(x, axis=1), np.nanmax(x, axis=1)

    def end(self, y, right):
        """Where the blank ends at a level of it."""
        return self.ends([y])[int(right)][0]

    def middle(self, name):
        """A level of the blank half way over a face."""
        f = self.faces[self.face(name)]
        return (f[:, 1].min() + f[:, 1].max()) / 2


class Cut:
    """The edges of a body in space, moved as it is."""

    def __init__(self, body, pts, edge, face, finish, normal):
        self.body, self.pts, self.edge, self.face, self.finish, self.normal = body, pts, edge, face, finish, normal

    def only(self, which):
        return Cut(self.body, self.pts[which], self.edge[which], self.face[which], self.finish[which], self.normal[which])

    def moved(self, turn, by):
        return Cut(self.body, self.pts, self.edge, self.face, self.finish @ turn.T + by, self.normal @ turn.T)

    def named(self, *names):
        return np.isin(self.face, [i for i, n in enumerate(self.body.names) if plain(n) in names])

    def cloud(self):
        return np.vstack([self.finish - self.normal * self.body.thick * k for k in LAYERS])

    def off(self, normal):
        """How far places stand off a plane through the origin, whichever skin is nearer."""
        return np.minimum(self.finish @ normal, (self.finish - self.normal * self.body.thick) @ normal)

    def stood(self):
        turn, by, _ = self.body.stance()
        return self.moved(turn, by)


def least(a, b, reach=4.0):
    """The least distance between two clouds of points; reach where they are farther."""
    best = reach
    if not len(a) or not len(b):
        return float(best)
    long = np.argsort(np.ptp(b, axis=0))  # sorted along its longest extent, the last
    a, b = a[:, long], b[:, long]
    a, b = a[np.lexsort(np.floor(a / 8).T)], b[np.argsort(b[:, 2])]
    for every, chunk in ((41, 100), (7, 60), (1, 60)):  # a few of them tell how far the rest have to be looked for
        few = b[::every]
        for i in range(0, len(a), chunk * every):
            p = a[i:i + chunk * every:every]
            lo, hi = p.min(axis=0) - best, p.max(axis=0) + best
            q = few[np.searchsorted(few[:, 2], lo[2]):np.searchsorted(few[:, 2], hi[2])]
            q = q[((q[:, :2] >= lo[:2]) & (q[:, :2] <= hi[:2])).all(axis=1)]
            if len(q):
                p = p[((p >= q.min(axis=0) - best) & (p <= q.max(axis=0) + best)).all(axis=1)]
            if len(q) and len(p):
                d = p[:, None, 0] - q[:, 0]
                far = d * d
                for k in (1, 2):
                    d = p[:, None, k] - q[:, k]
                    far += d * d
                best = min(best, np.sqrt(far.min()))
    return float(best)


def corner_at(b, cut, right, at):
    """The station where front folds meet, at one end of a leg: a written length from its
    square end. A middle has none, and stands as far from the planes of both its turns."""
    long = b.numbers("street-side fold of each leg")[at] * b.unit
    y = b.middle("front leg")
    if b.row["body"] != "middle":
        return b.end(y, False) + long if right else b.end(y, True) - long
    sides = b.sides()[cut.edge]

    def least_off(side, normal):
        off = cut.off(normal)
        if b.lap(side == 1) in ("over", "under"):  # beside its tab the top keeps to the plane
            return np.median(np.sort(off[(sides == side) & cut.named("top")])[-20:])
        return off[(sides == side) & cut.named("front leg")].min()

    def plane(turn, way):
        half = np.radians(turn) / 2
        return np.array([way * np.cos(half), np.sin(half), 0])

    left, rightn = plane(float(b.row["turn at left end"]), 1), plane(float(b.row["turn at right end"]), -1)
    l0, r0 = least_off(2, left), least_off(1, rightn) + long * abs(rightn[0])
    x0 = (l0 - r0) / (abs(left[0]) + abs(rightn[0]))
    return x0 + long if right else x0


def corner(legs, at):
    """How far two legs stand apart, turned about the point where their front folds meet;
    positive turns are to the right, towards the roof, and positive changes of slope down."""
    a, b = legs[at], legs[at + 1]
    turns, pitches = a.numbers("turn at right end"), a.numbers("change of slope at right end")
    if (a.row["right end"], turns, pitches) != (b.row["left end"], b.numbers("turn at left end"), b.numbers("change of slope at left end")):
        raise SystemExit(a.row["file"] + ": its right end is not the left end of the next")
    gap = a.mm("seam gap")
    ends_a, ends_b = a.sides(), b.sides()
    one, two = a.cut(ends_a > 0 if a.row["body"] == "middle" else ends_a == 1).stood(), b.cut(ends_b > 0 if b.row["body"] == "middle" else ends_b == 2).stood()
    half = np.radians((pitches or turns)[0]) / 2
    sin, cos = np.sin(2 * half), np.cos(2 * half)
    if pitches:
        normal = np.array([-np.cos(half), 0, np.sin(half)])
        turn = np.array([[cos, 0, sin], [0, 1, 0], [-sin, 0, cos]])
    else:
        normal = np.array([-np.cos(half), np.sin(half), 0])
        turn = np.array([[cos, sin, 0], [-sin, cos, 0], [0, 0, 1]])
    one = one.moved(np.eye(3), np.array([-corner_at(a, one, True, at), 0, 0]))
    two = two.moved(np.eye(3), np.array([-corner_at(b, two, False, at + 1), 0, 0])).moved(turn, np.zeros(3))
    one, two = one.only(ends_a[one.edge] == 1), two.only(ends_b[two.edge] == 2)
    kind = "pitch" if pitches else "corner"
    lapped = a.lap(True) in ("over", "under")
    if lapped:  # what goes on in one plane is jogged under the other, and is no bend
        flat = ("front leg", "rear leg") if pitches else ("top",)
        own = gap / 2 - 0.01  # from the seam's plane, where a tab is past its leg's own cut
        one = one.only(~((one.off(normal) < own) & one.named(*flat)))
        two = two.only(~((two.off(-normal) < own) & two.named(*flat)))
        kind = "lap over a break" if pitches else "lap"
    middle = "middle" in (a.row["body"], b.row["body"])
    return {"file": a.row["file"], "kind": kind, "middle": middle, "inside corner": bool(not pitches and turns[0] < 0),
            "lapped": lapped, "least": least(one.cloud(), two.cloud()), "gap": gap}


def along(cut):
    """Which places lie on an edge along the bend that its face hangs on: raw ones."""
    b = cut.body
    a, q = b.ring, np.roll(b.ring, -1, axis=0)
    d = (q - a) / np.linalg.norm(q - a, axis=1)[:, None]
    out = np.zeros(len(cut.face), bool)
    for i in range(len(b.faces)):
        for h in b.on[i]:
            if h.parent != i:
                out |= (cut.face == i) & (np.abs(d[cut.edge] @ h.v) < HAIR)
    return out


def transition(legs):
    """How far the two bodies of a transition stand apart, and the rear legs of its taper
    among themselves; and how wide the taper is where its legs reach."""
    k = int(len(legs[1].faces) > len(legs[0].faces))
    taper, narrow = legs[k], legs[1 - k]
    wide_right = k == 1

    def set_up(b, seam_right):
        cut = b.cut().stood()
        f = b.faces[b.face("front leg")]
        long = b.mm("street-side fold, left end to right end")
        x = f[:, 0].min() + long if seam_right else f[:, 0].max() - long
        return cut.moved(np.eye(3), np.array([-x, 0, 0]))

    one, two = set_up(taper, not wide_right), set_up(narrow, wide_right)

    def near(cut):
        return cut.only((np.abs(cut.finish[:, 0]) < 3 * cut.body.thick + 5) & ~along(cut))

    gap = taper.mm("seam gap")
    out = [{"file": taper.row["file"], "kind": "transition", "least": least(near(one).cloud(), near(two).cloud()), "gap": gap}]
    sides = []
    for i, name in enumerate(taper.names):
        if plain(name) != "rear leg":
            continue
        hung = {i}
        for _ in taper.names:
            hung |= {j for j in range(len(taper.names)) for h in taper.on[j] if h.parent in hung and h.parent != j}
        sides.append(one.only(np.isin(one.face, list(hung)) & ~along(one)).cloud())
    out.append({"file": taper.row["file"], "kind": "rear legs of a taper", "least": least(sides[0], sides[1]), "gap": gap})
    return out


def tee(legs):
    """How far the branch of a tee stands off the opening in the main's rear leg."""
    main, branch = legs
    cut, how, other = main.cut().stood(), main.stance(), branch.cut(branch.sides() > 0).stood()
    a, q = main.ring, np.roll(main.ring, -1, axis=0)
    d = (q - a) / np.linalg.norm(q - a, axis=1)[:, None]
    slant = cut.only((np.abs(d[cut.edge][:, 0]) > 0.5) & cut.named("rear leg") & ~along(cut))
    left, right = slant.finish[np.argmin(slant.finish[:, 0])], slant.finish[np.argmax(slant.finish[:, 0])]
    front, way = (left, -1.0) if left[2] > right[2] else (right, 1.0)
    o, _ = main.frames[main.face("rear leg")]
    rear = (how[0] @ o + how[1])[1]
    y, long = branch.middle("front leg"), branch.mm("street-side fold, left end to right end")
    side, at = (2, branch.end(y, True) - long) if way > 0 else (1, branch.end(y, False) + long)
    other = other.only(branch.sides()[other.edge] == side)
    turn = np.array([[0, way, 0], [-way, 0, 0], [0, 0, 1.0]])
    other = other.moved(turn, np.array([front[0], rear + way * at, front[2]]))
    x = cut.finish[:, 0]
    mouth = cut.only(~along(cut) & (x > left[0] - HAIR) & (x < right[0] + HAIR) & (cut.face != main.root) & (cut.finish[:, 1] < rear / 2))
    return {"file": branch.row["file"], "kind": "tee", "least": least(other.cloud(), mouth.cloud()), "gap": branch.mm("seam gap")}


def section(b, stand=True):
    """The middle of the metal of a body across its run, from the street edge on: y to the
    roof and z up, and its lengths along the sheet."""
    lo, hi = b.ring[:, 1].min() + 1e-6, b.ring[:, 1].max() - 1e-6
    y = np.append(np.arange(hi, lo, -0.3), lo)
    pts = np.column_stack([sum(b.ends(y)) / 2, y])
    finish, normal = np.zeros((len(pts), 3)), np.zeros((len(pts), 3))
    for i, f in enumerate(b.faces):
        on = inside(f, pts)
        if on.any():
            finish[on], normal[on] = b.folded(pts[on], i)
    mid = finish - normal * b.thick / 2
    if stand:
        turn, by, _ = b.stance()
        mid = mid @ turn.T + by
    return np.column_stack([-mid[:, 1], mid[:, 2]])


def off(p, line):
    """How far places stand off a chain of lines."""
    a, u = line[:-1], np.diff(line, axis=0)
    k = np.clip(((p[:, None] - a) * u).sum(axis=2) / np.maximum((u * u).sum(axis=1), 1e-12), 0, 1)
    return np.sqrt(((p[:, None] - a - k[:, :, None] * u) ** 2).sum(axis=2)).min(axis=1)


def nearest(p, line):
    """How far the nearest of places in a row stands off a chain of lines: some of them tell
    how near the others have to look."""
    best = min(off(p[i:i + 1], line)[0] for i in range(0, len(p), max(1, len(p) // 12)))
    lo, hi = np.minimum(line[:-1], line[1:]), np.maximum(line[:-1], line[1:])
    for i in range(0, len(p), 30):
        q = p[i:i + 30]
        near = np.flatnonzero(((lo <= q.max(axis=0) + best) & (hi >= q.min(axis=0) - best)).all(axis=1))
        for part in np.split(near, np.flatnonzero(np.diff(near) > 1) + 1):
            if len(part):
                best = min(best, off(q, line[part[0]:part[-1] + 2]).min())
    return best


def clash(b):
    """How deep a section stands in itself: places that are no neighbours along it."""
    mid = section(b, False)
    apart = max([np.pi * (h.radius + b.thick) + 2 * b.thick for h in b.hinges] + [0])
    n = int(apart / 0.3) + 1
    deep = 0.0
    for i in range(0, len(mid), 30):
        p, at = mid[i:i + 30], np.arange(i, min(i + 30, len(mid)))
        other = np.flatnonzero(((mid > p.min(axis=0) - b.thick) & (mid < p.max(axis=0) + b.thick)).all(axis=1))
        far = np.sqrt(((p[:, None] - mid[other]) ** 2).sum(axis=2))
        deep = max(deep, b.thick - far[other - at[:, None] >= n].min(initial=1e9))
    return float(deep)


def sectioned(b):
    """One section from edge to edge, but for a flange at an end."""
    lo, hi = b.ring[:, 0].min(), b.ring[:, 0].max()
    for h in b.hinges:
        level, across = abs(h.u[1]) < 1e-6, abs(h.u[0]) < 1e-6
        if not level and not (across and min(h.mid[0] - lo, hi - h.mid[0]) < (hi - lo) / 2):
            return False
    return any(abs(h.u[1]) < 1e-6 for h in b.hinges)


def measured(b):
    """Inside width, fall of the top and drop of the rear leg of a cap that stands, and its
    depth to the roof."""
    turn, by, slope = b.stance()
    o, frame = b.frames[b.face("rear leg")]
    rear = turn @ o + by
    low = np.inf
    after = {i for i, n in enumerate(b.names) if plain(n) in ("rear leg", "hook", "hem")}
    after = {i for i in after if b.faces[i][:, 1].max() < b.faces[b.root][:, 1].max()}
    # The middle of a tee's main is its opening, where there is no metal: one of the hooks
    # beside it is measured.
    hooks = [i for i in after if plain(b.names[i]) == "hook"]
    beside = b.faces[min(hooks)][:, 0].mean() if len(hooks) > 1 else None
    for i in after:
        f = b.faces[i]
        if beside is not None and not f[:, 0].min() < beside < f[:, 0].max():
            continue
        y = np.linspace(f[:, 1].min() + 1e-6, f[:, 1].max() - 1e-6, 400)
        pts = np.column_stack([sum(b.ends(y)) / 2 if beside is None else np.full(y.shape, beside), y])
        finish, normal = b.folded(pts, i)
        for skin in (finish, finish - normal * b.thick):
            low = min(low, (skin @ turn.T + by)[:, 2].min())
    return {"inside": float(-rear[1] - 2 * b.thick), "slope": float(slope), "rear": float(slope * rear[1] - low)}


def fits(parts, caps, job):
    """How deep splice plates, chairs and end plates stand in the metal of their caps."""
    out = []
    for b in parts:
        kind, inside_width = b.row["kind"], b.row["inside width"]
        cap = next((c for c in caps if c.row["inside width"] == inside_width and c.row["inside width, right end"] == inside_width), None)
        if cap is None or inside_width != b.row["inside width, right end"] or b.face("front leg") is None:
            continue
        hull = section(cap)
        slope = cap.stance()[2]
        t = cap.thick
        if kind == "splice plate" and b.face("rear leg") is not None:
            own = section(b)
            play = (float(inside_width) * cap.unit - (own[:, 0].max() - own[:, 0].min() + b.thick)) / 2
            own = own + [t + play, -slope * (t + play) - t * np.hypot(1, slope)]
        elif kind == "chair" and b.row["mark"] in job["before"]:
            own = section(b, False)
            o, frame = b.frames[b.root]
            base = b.faces[b.root]
            h = max((h for h in b.on[b.root]), key=lambda h: h.mid[1])
            # The outer mold line of the base at its front, from the bend in it.
            front = -(h.mid[1] - h.half + (h.radius + b.thick) * np.tan(abs(h.turn) / 2))
            rear = float(inside_width) * cap.unit + t
            seat = -slope * rear - t * np.hypot(1, slope) - job["rise"]
            own = own + [t + job["front edge"] + job["before"][b.row["mark"]] - front, seat + b.thick - o[2]]
        else:
            continue
        deep = (t + b.thick) / 2 - nearest(own, hull)
        out.append({"file": b.row["file"], "kind": kind, "deep": float(deep)})
    return out


def plates(all_bodies):
    """How far each end plate stands off the cap that it closes, all round. Its highest
    point lies the gap under the top, or under the bend beside the front leg."""
    out = []
    for cap, b in zip(all_bodies, all_bodies[1:]):
        if b.row["body"] != "end plate" or b.row["mark"] != cap.row["mark"]:
            continue
        hull, gap, t, slope = section(cap), b.mm("seam gap"), cap.thick, cap.stance()[2]
        r, slant = cap.mm("inside radius"), np.hypot(1, slope)
        centre = np.array([r + t, -(slope + slant) * (r + t)])  # of the bend between front leg and top
        x = max(t + gap, centre[0] + slope / slant * (r - gap))
        high = -slope * x - (t + gap) * slant
        if r > gap:
            high = max(high, centre[1] + r - gap)
        wide = b.ring[:, 0].max() - b.ring[:, 0].min()
        off_metal = []
        for flip in (False, True):  # its street side is the higher
            u = b.ring[:, 0].max() - b.ring[:, 0] if flip else b.ring[:, 0] - b.ring[:, 0].min()
            edge = np.column_stack([t + gap + u, b.ring[:, 1] - b.ring[:, 1].max() + high])
            rim = np.vstack([p + (q - p) * np.linspace(0, 1, max(2, int(np.linalg.norm(q - p) / 0.3)))[:, None] for p, q in zip(edge, np.roll(edge, -1, axis=0))])
            off_metal.append(nearest(rim, hull) - t / 2)
        out.append({"file": b.row["file"], "wide": float(wide), "off": float(min(off_metal, key=lambda d: abs(d - gap))), "gap": gap})
    return out


def main(folder):
    bends = rows(os.path.join(folder, "bends.csv"))
    with open(os.path.join(folder, "job.json")) as f:
        job = json.load(f)
    bodies = [Body(folder, r, [b for b in bends if b["file"] == r["file"]]) for r in rows(os.path.join(folder, "list.csv"))]
    capped = [b for b in bodies if b.row["street-side leg"]]
    caps = [b for b in capped if b.face("front leg") is not None and b.face("rear leg") is not None]
    out = {"caps": {}, "seams": [], "clashes": {}, "fits": [], "plates": plates(bodies)}
    for b in caps:
        if sectioned(b):
            out["caps"][b.row["file"]] = measured(b)
    for b in bodies:
        if sectioned(b) and (b.row["kind"], b.row["body"]) != ("tee", "main"):  # that has an opening
            out["clashes"][b.row["file"]] = clash(b)
    whole = [b for b in caps if sectioned(b) and b.row["kind"] not in ("tee",)]
    out["fits"] = fits([b for b in bodies if not b.row["street-side leg"]], whole, job)
    marks = {}
    for b in bodies:
        if b.row["body"] != "end plate" and b in capped or b.row["kind"] in ("transition", "tee"):
            marks.setdefault(b.row["mark"], []).append(b)
    for legs in marks.values():
        kind = legs[0].row["kind"]
        if kind == "transition":
            out["seams"] += transition(legs)
        elif kind == "tee":
            out["seams"].append(tee(legs))
        else:
            out["seams"] += [corner(legs, i) for i in range(len(legs) - 1)]
    json.dump(out, sys.stdout)


main(sys.argv[1])
