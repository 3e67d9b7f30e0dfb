#!/usr/bin/python3
"""How many painted areas `dyewort read --propose` finds on unmarked paper, and how many of its proposals are none.

usage: benchmarks/accuracy_proposals.py [--seed 4410] [--scenes 4] [--presets easy,phone,hard,scan] [--work DIR]
                                        [--simulator ../shared/sim] [--made DIR,DIR,…] [--least 0.15]

The simulator paints cells on a plain white page (twelve of loose sizes and places, then 24 in a grid) and photographs it. A cell counts as found when a
proposal shares at least half of their common area with it. "Visible" cells differ from their paper by CIEDE2000 3 and more.
`--made` uses folders of scenes that are there already. Needs what accuracy_reading.py needs."""
import argparse, json, os, random, subprocess, sys
import cv2
import numpy as np

from simulated import begin, dyewort, options, photograph

ap = argparse.ArgumentParser()
ap.add_argument("--seed", type=int, default=4410)
ap.add_argument("--scenes", type=int, default=4)
ap.add_argument("--presets", default="easy,phone,hard,scan")
options(ap, "/tmp/dyewort-proposals")
ap.add_argument("--made", default="")
ap.add_argument("--least", type=float, default=0.15)
ap.add_argument("--each", action="store_true", help="say each photo's figures, and draw what was found")
a = ap.parse_args()
S, _ = begin(a)


def make():
    cv2.imwrite(os.path.join(a.work, "blank.png"), np.full((2481, 1749), 255, np.uint8))
    rng, loose, grid = random.Random(a.seed), [], []
    for row in range(4):
        for column in range(3):
            w, h = rng.uniform(16, 30), rng.uniform(16, 32)
            loose.append(dict(id="%s%d" % ("ABC"[column], row + 1), rect=[18 + column * 42 + rng.uniform(0, 30 - w), 20 + row * 46 + rng.uniform(0, 32 - h), w, h]))
    for row in range(6):
        for column in range(4):
            grid.append(dict(id="%s%d" % ("ABCD"[column], row + 1), rect=[14 + column * 32, 20 + row * 30, 24, 22]))
    for preset in a.presets.split(","):
        for name, cells in (("loose", loose), ("grid", grid)):
            json.dump(cells, open(os.path.join(a.work, name + ".json"), "w"))
            out = os.path.join(a.work, preset + "-" + name)
            if not os.path.exists(os.path.join(out, "scene_%03d" % (a.scenes - 1), "truth.json")):
                photograph(a, os.path.join(a.work, "blank.png"), "148x210", os.path.join(a.work, name + ".json"), out, "--scenes", str(a.scenes), "--preset", preset, "--card", "auto")
            yield out


def mask(shape, polygon):
    m = np.zeros(shape, np.uint8)
    cv2.fillPoly(m, [np.round(np.array(polygon)).astype(np.int32)], 1)
    return m.astype(bool)


rows = {}
for folder in a.made.split(",") if a.made else make():
    total = dict(photos=0, cells=0, found=0, visible=0, visible_found=0, false=0, order=0)
    for scene in sorted(os.listdir(folder)):
        truth = json.load(open(os.path.join(folder, scene, "truth.json")))
        photo, spots = os.path.join(folder, scene, "photo.jpg"), os.path.join(a.work, "spots.json")
        if os.path.exists(spots): os.remove(spots)
        done = subprocess.run([dyewort, "read", photo, "--propose", spots], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        found = [s for s in json.load(open(spots)) if s["confidence"] >= a.least] if os.path.exists(spots) else []
        size = truth["image"]["stored_size"]
        if any(c["polygon_px"][0] != c["polygon_px_displayed"][0] for c in truth["cells"]) and truth["image"]["exif_orientation"] > 4: size = size[::-1]
        scale, used, hits, seen, seen_hits = 600.0 / max(size), set(), 0, 0, 0
        shape = (int(size[1] * scale) + 1, int(size[0] * scale) + 1)
        proposals = [mask(shape, np.array(s["polygonPx"]) * scale) for s in found]
        paper = np.array(truth["sheet"]["paper_lab_d65"])
        painted = [c for c in truth["cells"] if c.get("true")]
        missed = []
        for c in painted:
            m = mask(shape, np.array(c["polygon_px_displayed"]) * scale)
            match = [i for i, p in enumerate(proposals) if (p & m).sum() >= 0.5 * (p | m).sum()]
            used.update(match)
            visible = float(S.de2000(np.array(c["true"]["ink_median_lab_d65"]), paper)) >= 3
            hits += bool(match); seen += visible; seen_hits += visible and bool(match)
            if visible and not match: missed.append(c["id"])
        false = len(found) - len(used)
        total["photos"] += 1; total["cells"] += len(painted); total["found"] += hits; total["visible"] += seen; total["visible_found"] += seen_hits; total["false"] += false
        if a.each:
            print("%s/%s: %d of %d, visible %d of %d, false %d, missed %s, %s %s" % (os.path.basename(folder), scene, hits, len(painted), seen_hits, seen, false, missed, truth["defects"], done.stderr.strip()[:90]), file=sys.stderr)
            img = cv2.resize(cv2.imread(photo), None, fx=scale * 1.5, fy=scale * 1.5, interpolation=cv2.INTER_AREA)
            for i, s in enumerate(found):
                p = np.round(np.array(s["polygonPx"]) * scale * 1.5).astype(np.int32)
                cv2.polylines(img, [p], True, (0, 255, 0) if i in used else (0, 0, 255), 2)
                cv2.putText(img, "%s %.2f" % (s["id"], s["confidence"]), tuple(int(v) for v in p.mean(0)), cv2.FONT_HERSHEY_SIMPLEX, 0.4, (255, 255, 255), 1)
            cv2.imwrite(os.path.join(a.work, "%s-%s.png" % (os.path.basename(folder), scene)), img)
    rows[os.path.basename(folder)] = total
print("| photos | painted cells | found | visible ones found | proposals that are none |\n|---|---|---|---|---|")
for name, t in rows.items():
    print("| %s, %d | %d | %.0f %% | %.0f %% | %d |" % (name, t["photos"], t["cells"], 100 * t["found"] / max(1, t["cells"]), 100 * t["visible_found"] / max(1, t["visible"]), t["false"]))
