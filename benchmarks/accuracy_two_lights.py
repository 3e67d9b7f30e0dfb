#!/usr/bin/python3
"""How well two photos of one painted chart under two lights agree, without and with a house strip.

usage: benchmarks/accuracy_two_lights.py [--seed 5150] [--scenes 4] [--presets easy,phone] [--work DIR] [--simulator ../shared/sim]
                                         [--patches 24] [--made DIR,DIR,… --layout sheet.json] [--each]

The simulator photographs one painted sheet (A5, 4 x 6 cells) in different scenes, with other lamps and cameras, beside a card whose published values are not
used: its patches are the strip. Every photo defines the strip once (`--strip-define`) and every other photo is then read with it. Reported is the
CIEDE2000 between the two readings of a cell, over all ordered pairs of photos, without and with the strip, with the paper guessed and with it known.
`--patches 6` hides all but the card's six colours of its second row, as a strip of six would. Needs what accuracy_reading.py needs."""
import argparse, json, os, subprocess, sys
import numpy as np

from simulated import begin, dyewort, options, photograph, sheet

ap = argparse.ArgumentParser()
ap.add_argument("--seed", type=int, default=5150)
ap.add_argument("--scenes", type=int, default=4)
ap.add_argument("--presets", default="easy,phone")
options(ap, "/tmp/dyewort-two-lights")
ap.add_argument("--patches", type=int, default=24, choices=[6, 24])
ap.add_argument("--made", default="")
ap.add_argument("--layout", default="")
ap.add_argument("--known", action="store_true", help="give the paper's true colour too")
ap.add_argument("--each", action="store_true")
a = ap.parse_args()
S, path = begin(a)
folders = [f for f in a.made.split(",") if f]
if not folders:
    a.layout = path("sheet.json")
    sheet(path, "A5", "4x6")
    for preset in a.presets.split(","):
        folders.append(path(preset))
        if not os.path.exists(path(preset, "scene_%03d" % (a.scenes - 1), "truth.json")):
            photograph(a, path("sheet.png"), "148x210", path("cells.json"), path(preset), "--scenes", str(a.scenes), "--preset", preset, "--card", "always", "--same-paint")

photos = [os.path.join(f, s) for f in folders for s in sorted(os.listdir(f))]
truth = [json.load(open(os.path.join(p, "truth.json"))) for p in photos]


def corners(t):
    """The 24 patches without the card's frame (15 mm every 18 mm, the first 4.5 mm from the corner), or its second row alone."""
    import cv2
    w, h = t["card"]["size_mm"]
    H = cv2.getPerspectiveTransform(np.array([[0, 0], [w, 0], [w, h], [0, h]], np.float32), np.array(t["card"]["corners_px_displayed"], np.float32))
    top, low = (3, 75) if a.patches == 24 else (21, 39)
    return ",".join("%.2f,%.2f" % tuple(p) for p in cv2.perspectiveTransform(np.array([[[3, top], [111, top], [111, low], [3, low]]], np.float32), H)[0])


def read(i, *more):
    command = [dyewort, "read", os.path.join(photos[i], "photo.jpg"), "--layout", a.layout, "--json", *more]
    if a.known: command += ["--paper", "%.3f,%.3f,%.3f" % tuple(truth[i]["sheet"]["paper_lab_d65"])]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    if done.returncode != 0: sys.exit("%s: %s" % (photos[i], done.stderr))
    answer = json.loads(done.stdout)
    return {s["id"]: np.array(s["lab"]) for s in answer["swatches"]}, answer["calibration"], answer["warningCodes"]


painted = [c["id"] for c in truth[0]["cells"] if c.get("true")]
grid = ["--card-grid", "6x4" if a.patches == 24 else "6x1"]
place = [[*grid, "--card-corners", corners(t)] for t in truth]
first = [read(i, "--strip-define", path("strip%d.txt" % i), *place[i])[0] for i in range(len(photos))]
without, withs, per_pair = [], [], []
off = lambda x, y: [float(S.de2000(x[c], y[c])) for c in painted]
for i in range(len(photos)):
    for j in range(len(photos)):
        if i == j: continue
        again, calibration, codes = read(j, "--strip", path("strip%d.txt" % i), *place[j])
        alone, brought = off(first[i], first[j]), off(first[i], again)
        without += alone; withs += brought; per_pair.append((np.median(alone), np.median(brought)))
        if a.each: print("%s -> %s: %.2f, with the strip %.2f (%s, leave-one-out %s) %s" % (photos[i][-16:], photos[j][-16:], *per_pair[-1], calibration["form"], calibration["leaveOneOutDe00"], codes), file=sys.stderr)
print("| %d photos, %d pairs, %d patches%s | mean | median | 95th | worst pair's median |\n|---|---|---|---|---|" % (len(photos), len(per_pair), a.patches, ", paper known" if a.known else ""))
for name, e, k in (("without the strip", without, 0), ("with the strip", withs, 1)):
    print("| %s | %.2f | %.2f | %.2f | %.2f |" % (name, np.mean(e), np.median(e), np.quantile(e, .95), max(p[k] for p in per_pair)))
