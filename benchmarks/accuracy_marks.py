#!/usr/bin/python3
"""How often pencil marks in a painted cell are found, how often a clean cell is accused, and what a mark does to the reading.

usage: benchmarks/accuracy_marks.py [--seed 9310] [--scenes 4] [--presets easy,phone,hard,scan] [--page A5] [--cells 4x6]
                                    [--work DIR] [--simulator ../shared/sim] [--each]

Makes photos as accuracy_reading.py does, reads each as it is (every warning of a mark is false there), then draws pencil into every second painted
cell of the same photo and reads it again. The pencil is this script's own: lines 0.3 to 0.7 mm wide, broken by the paper's grain, grey, lighter than
its darkest on hard strokes only; a code of two or three characters, a line across, a cross or a tick. It is mixed into the linear light of the photo
at the place of the cell and blurred as much as the photo is. Only cells whose *read* part holds at least 4 mm of stroke count as marked."""
import argparse, json, os, subprocess, sys
import cv2
import numpy as np
from PIL import Image

from simulated import begin, dyewort, options, photograph, sheet

CENTRAL = 0.54  # the part of a cell that is read
to_linear = lambda v: np.where(v <= .04045, v / 12.92, ((v + .055) / 1.055) ** 2.4)
to_code = lambda v: np.where(v <= .0031308, v * 12.92, 1.055 * np.clip(v, 0, None) ** (1 / 2.4) - .055)


def stroke(rng, w, h, ppm):
    """Coverage by graphite (0 to 1) over a cell of w x h mm, the length of the strokes in its read part in mm, and what was drawn."""
    shape = (int(h * ppm), int(w * ppm))
    lines, kind = [], str(rng.choice(["code", "line", "cross", "tick"], p=[.5, .3, .1, .1]))
    wave = lambda p, q, bend: [(np.array(p) * (1 - t) + np.array(q) * t) + np.array([q[1] - p[1], p[0] - q[0]]) * bend * np.sin(np.pi * t) for t in np.linspace(0, 1, 25)]
    if kind == "code":
        text = str(rng.choice(list("ABCDEFGHKLMNPRST"))) + str(rng.integers(1, 99)); height = rng.uniform(5, 9)
        base = cv2.getTextSize(text, cv2.FONT_HERSHEY_SIMPLEX, 1, 1)[0]; scale = height * ppm / base[1]
        mask = np.zeros(shape, np.uint8); at = (rng.uniform(.3, .6, 2) * [w, h] - [height * .6, -height * .5]) * ppm
    elif kind == "line":
        side = rng.integers(2); a, b = rng.uniform(.25, .75, 2)
        lines = [wave((0, a * h), (w, b * h), rng.normal(0, .03)) if side else wave((a * w, 0), (b * w, h), rng.normal(0, .03))]
    else:
        c, r = rng.uniform(.4, .6, 2) * [w, h], rng.uniform(3, 6)
        ends = [(-1, -1, 1, 1), (-1, 1, 1, -1)] if kind == "cross" else [(-.6, 0, 0, .7), (0, .7, 1, -1)]
        lines = [wave(c + np.array(e[:2]) * r, c + np.array(e[2:]) * r, rng.normal(0, .05)) for e in ends]
    wide = rng.uniform(.3, .7)
    if kind == "code":
        cv2.putText(mask, text, tuple(int(v) for v in at), cv2.FONT_HERSHEY_SIMPLEX, scale, 255, max(1, int(round(wide * ppm))), cv2.LINE_AA)
        M = cv2.getRotationMatrix2D((float(at[0]), float(at[1])), rng.normal(0, 8), 1); mask = cv2.warpAffine(mask, M, shape[::-1])
    else:
        mask = np.zeros(shape, np.uint8)
        for l in lines: cv2.polylines(mask, [np.round(np.array(l) * ppm * 16).astype(np.int32)], False, 255, max(1, int(round(wide * ppm))), cv2.LINE_AA, 4)
    m = mask.astype(np.float32) / 255
    inner = np.zeros(shape, bool); y, x = [int(s * (1 - CENTRAL) / 2) for s in shape]; inner[y:shape[0] - y, x:shape[1] - x] = True
    length = (m * inner).sum() / ppm ** 2 / wide
    # Graphite stays on the tops of the grain: how much, pressure says.
    grain = sum(cv2.GaussianBlur(rng.standard_normal(shape).astype(np.float32), (0, 0), s * ppm) * s for s in (.07, .18)); grain = (grain - grain.mean()) / grain.std()
    press = rng.uniform(.35, .8)
    cover = m * np.clip(.5 + (press - .5) * 3 + .8 * grain, 0, 1) * rng.uniform(.45, .95)
    return cover, float(length), dict(kind=kind, wide=round(wide, 2), press=round(press, 2))


def draw(image, truth, size_mm, ids, rng):
    """The photo with pencil in the given cells; what was drawn by cell."""
    linear = to_linear(image.astype(np.float64) / 255); drawn = {}; ppm = 20
    blur = 0.6 if truth["preset"] == "scan" else 0.9
    for c in truth["cells"]:
        if c["id"] not in ids: continue
        w, h = size_mm[c["id"]]
        while True:
            cover, length, what = stroke(rng, w, h, ppm)
            if length >= 4: break
        quad = np.array(c["polygon_px_displayed"], np.float32)
        lo, hi = np.floor(quad.min(0)).astype(int) - 3, np.ceil(quad.max(0)).astype(int) + 3
        if (lo < 0).any() or hi[0] > image.shape[1] or hi[1] > image.shape[0]: continue
        # Three times as fine as the photo, then averaged: the lines are narrower than a pixel at places.
        H = cv2.getPerspectiveTransform(np.array([[0, 0], [w * ppm, 0], [w * ppm, h * ppm], [0, h * ppm]], np.float32), np.float32((quad - lo) * 3))
        n = (hi - lo); fine = cv2.warpPerspective(cover, H, (int(n[0] * 3), int(n[1] * 3)), flags=cv2.INTER_LINEAR)
        g = cv2.GaussianBlur(cv2.resize(fine, (int(n[0]), int(n[1])), interpolation=cv2.INTER_AREA), (0, 0), blur)[..., None].astype(np.float64)
        part = linear[lo[1]:hi[1], lo[0]:hi[0]]
        # Graphite gives back about an eighth of what the paper does, whatever lies under it.
        light = np.quantile(part.reshape(-1, 3), .97, axis=0)
        part[:] = part * (1 - g) + g * .12 * light
        drawn[c["id"]] = dict(what, length=round(length, 1))
    return np.clip(np.round(to_code(linear) * 255), 0, 255).astype(np.uint8), drawn


def read(photo):
    done = subprocess.run([dyewort, "read", photo, "--layout", path("sheet.json"), "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    if done.returncode != 0:
        print("%s: %s" % (photo, done.stderr.strip()), file=sys.stderr)
        return None
    return {s["id"]: s for s in json.loads(done.stdout)["swatches"]}


if __name__ == "__main__":
    ap = argparse.ArgumentParser()
    ap.add_argument("--seed", type=int, default=9310)
    ap.add_argument("--scenes", type=int, default=4)
    ap.add_argument("--page", default="A5")
    ap.add_argument("--cells", default="4x6")
    ap.add_argument("--presets", default="easy,phone,hard,scan")
    options(ap, "/tmp/dyewort-marks")
    ap.add_argument("--each", action="store_true")
    a = ap.parse_args()
    S, path = begin(a)
    layout = sheet(path, a.page, a.cells)
    page = layout["page"]
    size_mm = {c["id"]: (c["polygonMm"][1][0] - c["polygonMm"][0][0], c["polygonMm"][2][1] - c["polygonMm"][1][1]) for c in layout["cells"]}
    rows = []
    for preset in a.presets.split(","):
        for i in range(a.scenes):
            folder = path(preset, "scene_%03d" % i)
            if not os.path.exists(os.path.join(folder, "truth.json")):
                photograph(a, path("sheet.png"), "%gx%g" % (page["widthMm"], page["heightMm"]), path("cells.json"), path(preset), "--scenes", "1", "--first", str(i), "--preset", preset)
            truth = json.load(open(os.path.join(folder, "truth.json")))
            clean = read(os.path.join(folder, "photo.jpg"))
            painted = [c["id"] for c in truth["cells"] if c.get("true")]
            image, drawn = draw(cv2.imread(os.path.join(folder, "photo.jpg")), truth, size_mm, painted[i % 2::2], np.random.default_rng([a.seed, i, len(preset)]))
            Image.fromarray(image[..., ::-1]).save(path("marked.jpg"), quality=90, subsampling=0, **{k: v for k, v in Image.open(os.path.join(folder, "photo.jpg")).info.items() if k in ("icc_profile", "dpi")})
            marked = read(path("marked.jpg"))
            if clean is None or marked is None: continue
            has = lambda s: any(w["code"] == "mark" if isinstance(w, dict) else w == "mark" for w in s["warnings"])
            for c in truth["cells"]:
                if c["id"] not in painted: continue
                t, one, two = np.array(c["true"]["ink_median_lab_d65"]), clean[c["id"]], marked[c["id"]]
                rows.append(dict(preset=preset, scene=i, id=c["id"], light=t[0], style=c["style"], accused=has(one), drawn=drawn.get(c["id"]), found=has(two),
                                 moved=float(S.de2000(np.array(one["lab"]), np.array(two["lab"])))))
                r = rows[-1]
                if a.each and (r["accused"] or (r["drawn"] and not r["found"])): print(r, file=sys.stderr)
    share = lambda l, key: "%d of %d (%.0f %%)" % (sum(r[key] for r in l), len(l), 100 * np.mean([r[key] for r in l])) if l else "–"
    moved = lambda l: "%.2f / %.2f" % (np.median([r["moved"] for r in l]), np.quantile([r["moved"] for r in l], .95)) if l else "–"
    print("| cells | marks found | clean cells accused | moved by the mark, median / 95th |\n|---|---|---|---|")
    groups = [(p, lambda r, p=p: r["preset"] == p) for p in a.presets.split(",")]
    groups += [(s, lambda r, s=s: r["style"] == s) for s in sorted({r["style"] for r in rows})]
    groups += [("L* %s" % n, lambda r, lo=lo, hi=hi: lo <= r["light"] < hi) for n, lo, hi in (("80 and more", 80, 999), ("60 to 80", 60, 80), ("40 to 60", 40, 60), ("below 40", -9, 40))] + [("all", lambda r: True)]
    for name, test in groups:
        these = [r for r in rows if test(r)]
        print("| %s | %s | %s | %s |" % (name, share([r for r in these if r["drawn"]], "found"), share(these, "accused"), moved([r for r in these if r["drawn"]])))
