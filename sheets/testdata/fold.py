"""Folds written flat patterns and prints, as JSON, what each cap measures and how
far apart the two legs of each corner stand along their seam.

Reads DXF with ezdxf and reckons with numpy; takes a folder with the DXF files,
list.csv and bends.csv. Millimetres; y to the roof, z up.
"""
import csv
import json
import os
import sys

import ezdxf
import numpy as np


def rows(path):
    with open(path, newline="") as f:
        return list(csv.DictReader(f))


def outline(path):
    doc = ezdxf.readfile(path)
    unit = {1: 25.4, 4: 1.0}[doc.units]
    for e in doc.modelspace():
        if e.dxf.layer == "CUT" and e.dxftype() == "LWPOLYLINE":
            return np.array([p[:2] for p in e.get_points("xy")]) * unit
    raise SystemExit(path + ": nothing is cut")


def turned(v, deg):
    a = np.radians(deg)
    return np.array([v[0] * np.cos(a) - v[1] * np.sin(a), v[0] * np.sin(a) + v[1] * np.cos(a)])


def fold(ring, bends, unit, thick):
    """Places of both faces from the street edge on, 0.1 mm apart, straights by name, and
    how far down the blank each place lies."""
    hi, lo = ring[:, 1].max(), ring[:, 1].min()
    bends = sorted(bends, key=lambda b: -float(b["y1"]))
    at, direction, s = np.zeros(2), np.array([1.0, 0.0]), 0.0
    finish, back, straight, down = [], [], {}, []
    used = set()

    def run(to, name):
        nonlocal at, s
        left = np.array([-direction[1], direction[0]])
        straight[name] = (at.copy(), direction.copy(), len(finish))
        for d in np.append(np.arange(0, to - s, 0.1), to - s):
            finish.append(at + direction * d)
            back.append(at + direction * d - left * thick)
            down.append(s + d)
        at, s = at + direction * (to - s), to

    for i, b in enumerate(bends):
        ba, turn, radius = float(b["bend allowance"]) * unit, float(b["turn"]), float(b["inside radius"]) * unit
        if b["up or down"] == "down":
            turn = -turn
        pair = [b["between"], b["and"]]
        nxt = [bends[i + 1]["between"], bends[i + 1]["and"]] if i + 1 < len(bends) else []
        name = pair[1] if pair[0] in nxt else pair[0]
        run(hi - float(b["y1"]) * unit - ba / 2, name if name not in used else name + " again")
        used.add(name)
        left = np.array([-direction[1], direction[0]])
        side, reach = (left, radius) if turn > 0 else (-left, radius + thick)
        centre = at + side * reach
        for k in np.linspace(0, 1, 40):
            u = turned(-side, turn * k)
            inner, outer = centre + u * radius, centre + u * (radius + thick)
            finish.append(inner if turn > 0 else outer)
            back.append(outer if turn > 0 else inner)
            down.append(s + ba * k)
        at, direction, s = centre + turned(at - centre, turn), turned(direction, turn), s + ba
    run(hi - lo, "last")
    return np.array(finish), np.array(back), straight, np.array(down)


def ends(ring, levels, right):
    """Where a blank ends at its right or its left, at levels up from its foot."""
    a, b = ring, np.roll(ring, -1, axis=0)
    out = np.empty(len(levels))
    for i, y in enumerate(np.clip(levels, ring[:, 1].min() + 1e-6, ring[:, 1].max() - 1e-6)):
        hit = (a[:, 1] > y) != (b[:, 1] > y)
        p, q = a[hit], b[hit]
        x = p[:, 0] + (y - p[:, 1]) / (q[:, 1] - p[:, 1]) * (q[:, 0] - p[:, 0])
        out[i] = x.max() if right else x.min()
    return out


def stood(folded):
    """A section stood up: 0 at the street face of the front leg and at the front fold."""
    finish, back, straight, _ = folded
    at, direction, _ = straight["front leg"]
    turn = 90 - np.degrees(np.arctan2(direction[1], direction[0]))
    front, top, slope = turned(at, turn), turned(straight["top"][0], turn), turned(straight["top"][1], turn)
    origin = np.array([front[0], top[1] + (front[0] - top[0]) / slope[0] * slope[1]])
    return [np.array([turned(p, turn) for p in skin]) - origin for skin in (finish, back)]


def end_face(ring, folded, long, right):
    """The cut end of a leg through its thickness: along the run from the corner, to the
    street, up. The other end is cut square; long is the front fold between the two."""
    finish, back = stood(folded)
    down, hi = folded[3], ring[:, 1].max()
    i = folded[2]["front leg"][2] + 20  # a place on the front leg
    square = ends(ring, [hi - down[i]], not right)[0]
    corner = square + long if right else square - long
    x = ends(ring, hi - down, right) - corner
    layers = []
    for k in np.linspace(0, 1, 7):
        p = finish * (1 - k) + back * k
        layers.append(np.column_stack([x, -p[:, 0], p[:, 1]]))
    return np.vstack(layers)


def least(a, b, reach=4.0):
    """The least distance between two clouds of points; reach where they are farther."""
    best = reach
    a, b = a[np.argsort(a[:, 2])], b[np.argsort(b[:, 2])]
    for i in range(0, len(a), 100):
        p = a[i:i + 100]
        lo, hi = p.min(axis=0) - best, p.max(axis=0) + best
        q = b[np.searchsorted(b[:, 2], lo[2]):np.searchsorted(b[:, 2], hi[2])]
        q = q[((q[:, :2] >= lo[:2]) & (q[:, :2] <= hi[:2])).all(axis=1)]
        if len(q):
            best = min(best, np.sqrt(((p[:, None, :] - q[None, :, :]) ** 2).sum(axis=2).min()))
    return float(best)


def seam(left, right):
    """How far apart the legs of a corner stand, turned about the point where their front
    folds meet; positive turns are to the right, towards the roof."""
    unit = 25.4 if left[0]["unit"] == "in" else 1.0
    a, b = (end_face(ring, folded, float(r["street-side fold, left end to right end"]) * unit, r is left[0]) for r, ring, folded in (left, right))
    turn = np.radians(float(left[0]["turn"]))
    sin, cos = np.sin(turn), np.cos(turn)
    b = np.column_stack([b[:, 0] * cos + b[:, 1] * sin, -b[:, 0] * sin + b[:, 1] * cos, b[:, 2]])
    return {"file": left[0]["file"], "inside corner": bool(turn < 0), "least": least(a, b), "gap": float(left[0]["seam gap"]) * unit}


def main(folder):
    out, legs, seams = {}, {}, []
    bends = rows(os.path.join(folder, "bends.csv"))
    for r in rows(os.path.join(folder, "list.csv")):
        own = [b for b in bends if b["file"] == r["file"]]
        if not r["street-side leg"] or not own or any(abs(float(b["y1"]) - float(b["y2"])) > 0.0005 for b in own):
            continue
        unit = 25.4 if r["unit"] == "in" else 1.0
        thick = float(r["thickness"]) * unit
        ring = outline(os.path.join(folder, r["file"]))
        folded = fold(ring, own, unit, thick)
        finish, back, straight, _ = folded
        if not {"front leg", "top", "rear leg"} <= set(straight):
            if "rear leg" not in straight and "last" in straight and "top" in straight:
                straight["rear leg"] = straight["last"]
            else:
                continue
        if r["kind"] == "corner" and r["lap"] == "" and r["change of slope"] == "":
            legs.setdefault(r["mark"], {})[r["body"]] = (r, ring, folded)
        at, direction, _ = straight["front leg"]
        turn = 90 - np.degrees(np.arctan2(direction[1], direction[0]))
        front, top, rear = (turned(straight[n][0], turn) for n in ("front leg", "top", "rear leg"))
        slope = turned(straight["top"][1], turn)
        skins = np.array([turned(p, turn) for p in np.vstack([finish, back])])
        rear_fold = top[1] + (rear[0] - top[0]) / slope[0] * slope[1]
        after = straight["rear leg"][2]
        low = min(turned(p, turn)[1] for p in np.vstack([finish[after:], back[after:]]))
        out[r["file"]] = {
            "inside": rear[0] - front[0] - 2 * thick,
            "slope": -slope[1] / slope[0],
            "rear": rear_fold - low,
            "wide": float(skins[:, 0].max() - front[0]),
        }
    for both in legs.values():
        if {"left leg", "right leg"} == set(both):
            seams.append(seam(both["left leg"], both["right leg"]))
    json.dump({"caps": out, "seams": seams}, sys.stdout)


main(sys.argv[1])
