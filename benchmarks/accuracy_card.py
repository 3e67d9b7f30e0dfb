#!/usr/bin/python3
"""How often `dyewort read` finds a reference card by itself, and how far the middles of its patches are from the truth, as a share of their distance.

usage: benchmarks/accuracy_card.py --made DIR,DIR,… --layout sheet.json [--photos ../shared/photos/set] [--simulator ../shared/sim]

DIR are folders of simulated scenes with a card (accuracy_reading.py leaves some in its --work folder). `--photos` adds real photos with published
patches; those have no sheet, so a spot in a corner of the picture stands for it."""
import argparse, json, os, subprocess, sys
import cv2
import numpy as np

from simulated import dyewort

ap = argparse.ArgumentParser()
ap.add_argument("--made", default="")
ap.add_argument("--layout", default="")
ap.add_argument("--photos", default="")
ap.add_argument("--work", default="/tmp/dyewort-card")
a = ap.parse_args()
os.makedirs(a.work, exist_ok=True)
card, spots = os.path.join(a.work, "card.txt"), os.path.join(a.work, "spots.json")


def read(photo, patches, where):
    lines = ["CGATS.17", "BEGIN_DATA_FORMAT", "SAMPLE_ID LAB_L LAB_A LAB_B", "END_DATA_FORMAT", "BEGIN_DATA"] + ["%d %.3f %.3f %.3f" % (i + 1, *p) for i, p in enumerate(patches)] + ["END_DATA", ""]
    open(card, "w").write("\n".join(lines))
    done = subprocess.run([dyewort, "read", photo, *where, "--card", card, "--card-grid", "6x4", "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    return (json.loads(done.stdout), "") if done.returncode == 0 else (None, done.stderr.strip().splitlines()[-1] if done.stderr else str(done.returncode))


def off(corners, centres):
    """Largest distance of a patch's middle from the truth over the distance of neighbours."""
    H = cv2.getPerspectiveTransform(np.array([[0, 0], [6, 0], [6, 4], [0, 4]], np.float32), np.array(corners, np.float32))
    grid = np.array([[i % 6 + .5, i // 6 + .5] for i in range(24)], np.float32)[None]
    found = cv2.perspectiveTransform(grid, H)[0]
    return float(np.linalg.norm(found - centres, axis=1).max() / np.linalg.norm(centres[1] - centres[0]))


for folder in [f for f in a.made.split(",") if f]:
    offs, missed = [], []
    for scene in sorted(os.listdir(folder)):
        truth = json.load(open(os.path.join(folder, scene, "truth.json")))
        answer, why = read(os.path.join(folder, scene, "photo.jpg"), [p["published_lab_d50"] for p in truth["card"]["patches"]], ["--layout", a.layout])
        if answer is None:
            missed.append("%s: %s" % (scene, why))
            continue
        # The simulator's card: patches of 15 mm every 18 mm, the first 4.5 mm from its corner.
        w, h = truth["card"]["size_mm"]
        H = cv2.getPerspectiveTransform(np.array([[0, 0], [w, 0], [w, h], [0, h]], np.float32), np.array(truth["card"]["corners_px_displayed"], np.float32))
        centres = cv2.perspectiveTransform(np.array([[12 + (i % 6) * 18, 12 + (i // 6) * 18] for i in range(24)], np.float32)[None], H)[0]
        offs.append(off(answer["card"]["cornersPx"], centres))
    print("%s: %d of %d found, farthest patch off by %s of the pitch%s" % (os.path.basename(folder), len(offs), len(offs) + len(missed), ", ".join("%.3f" % o for o in offs), "".join("\n  " + m for m in missed)), flush=True)

for name in sorted(f for f in os.listdir(a.photos) if f.endswith(".json") and f[0].isdigit()) if a.photos else []:
    truth = json.load(open(os.path.join(a.photos, name)))
    grid = truth["grids"][0]
    patches = sorted(grid["patches"], key=lambda p: p["nr"])
    if len(patches) != 24: continue
    size = cv2.imread(os.path.join(a.photos, truth["file"])).shape
    json.dump([dict(id="s1", polygonPx=[[2, 2], [0.03 * size[1], 2], [0.03 * size[1], 0.03 * size[0]], [2, 0.03 * size[0]]])], open(spots, "w"))
    answer, why = read(os.path.join(a.photos, truth["file"]), [p["lab_d50_ref"] for p in patches], ["--spots", spots])
    if answer is None: print("%s: not found: %s" % (name, why), flush=True)
    else: print("%s: farthest patch off by %.3f of the pitch, leave-one-out %.1f" % (name, off(answer["card"]["cornersPx"], np.array([np.mean(p["sample_quad"], 0) for p in patches])), answer["calibration"]["leaveOneOutDe00"] or 0), flush=True)
