"""Folds written flat patterns and prints, as JSON, what each cap measures.

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
    """Places of both faces from the street edge on, 0.1 mm apart, and straights by name."""
    hi, lo = ring[:, 1].max(), ring[:, 1].min()
    bends = sorted(bends, key=lambda b: -float(b["y1"]))
    at, direction, s = np.zeros(2), np.array([1.0, 0.0]), 0.0
    finish, back, straight = [], [], {}
    used = set()

    def run(to, name):
        nonlocal at, s
        left = np.array([-direction[1], direction[0]])
        straight[name] = (at.copy(), direction.copy(), len(finish))
        for d in np.append(np.arange(0, to - s, 0.1), to - s):
            finish.append(at + direction * d)
            back.append(at + direction * d - left * thick)
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
        at, direction, s = centre + turned(at - centre, turn), turned(direction, turn), s + ba
    run(hi - lo, "last")
    return np.array(finish), np.array(back), straight


def main(folder):
    out = {}
    bends = rows(os.path.join(folder, "bends.csv"))
    for r in rows(os.path.join(folder, "list.csv")):
        own = [b for b in bends if b["file"] == r["file"]]
        if not r["street-side leg"] or not own or any(abs(float(b["y1"]) - float(b["y2"])) > 0.0005 for b in own):
            continue
        unit = 25.4 if r["unit"] == "in" else 1.0
        thick = float(r["thickness"]) * unit
        finish, back, straight = fold(outline(os.path.join(folder, r["file"])), own, unit, thick)
        if not {"front leg", "top", "rear leg"} <= set(straight):
            if "rear leg" not in straight and "last" in straight and "top" in straight:
                straight["rear leg"] = straight["last"]
            else:
                continue
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
    json.dump(out, sys.stdout)


main(sys.argv[1])
