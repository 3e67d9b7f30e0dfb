#!/usr/bin/python3
"""How well `dyewort read` reads simulated photos whose truth is known; prints the table of docs/accuracy.md.

usage: benchmarks/accuracy_reading.py [--seed 90210] [--scenes 5] [--page A4] [--cells 4x6] [--presets easy,phone,hard,scan]
                                      [--black 4] [--work DIR] [--simulator ../shared/sim] [--oracle] [--keep FILE]
       benchmarks/accuracy_reading.py --pool FILE,FILE

Makes a sheet with `dyewort sheet`, renders it with pdftoppm, has the simulator paint and photograph it, reads every photo four ways
(paper guessed or known, without and with the reference card) and compares with the true median ink colours by the simulator's own
CIEDE2000. `--oracle` adds the plain readers and the cross-validated oracle that come with the simulator, given the true geometry.
`--keep FILE` keeps every error; `--pool FILE,FILE` prints the table of all that such files hold, and reads nothing. `--make` only makes
the photos. `--black 6` prints the sheet with a black of 6 % of its paper (the simulator's own is 4 %).
Needs /usr/bin/python3 with numpy, scipy, opencv and PIL, pdftoppm, and the simulator's folder beside the checkout. Scenes already
made in DIR are used again. `--glare` adds how often shine is recognised where the simulator put it on 30 % of a cell and more, and warned of where there is none."""
import argparse, json, os, subprocess, sys
import numpy as np

from simulated import begin, dyewort, options, photograph, sheet

ap = argparse.ArgumentParser()
ap.add_argument("--seed", type=int, default=90210)
ap.add_argument("--scenes", type=int, default=5)
ap.add_argument("--page", default="A4")
ap.add_argument("--cells", default="4x6")
ap.add_argument("--presets", default="easy,phone,hard,scan")
ap.add_argument("--black", type=float, default=4)
ap.add_argument("--make", action="store_true", help="only make the photos")
options(ap, "/tmp/dyewort-accuracy")
ap.add_argument("--oracle", action="store_true")
ap.add_argument("--glare", action="store_true")
ap.add_argument("--keep", default="")
ap.add_argument("--pool", default="")
a = ap.parse_args()


def table(kept):
    """Prints what runs kept: for each preset and way the pages found of those made, and error, ± and whether it holds for every swatch."""
    print("| preset | way | scenes | mean | median | 95th | within ± | median ± |\n|---|---|---|---|---|---|---|---|")
    for one in kept:
        e = np.array(one["errors"])
        inside = "%.0f %% | %.1f" % (100 * np.mean(e <= np.array(one["bounds"])), np.median(one["bounds"])) if one["bounds"] else "– | –"
        print("| %s | %s | %s | %.2f | %.2f | %.2f | %s |" % (one["preset"], one["way"], one["scenes"], e.mean(), np.median(e), np.quantile(e, .95), inside), flush=True)


if a.pool:
    pooled = {}
    for one in (one for name in a.pool.split(",") for one in json.load(open(name))):
        both = pooled.setdefault((one["preset"], one["way"]), dict(one, scenes="0/0", errors=[], bounds=[]))
        both["errors"] += one["errors"]; both["bounds"] += one["bounds"]
        both["scenes"] = "/".join(str(int(x) + int(y)) for x, y in zip(both["scenes"].split("/"), one["scenes"].split("/")))
    table(pooled.values())
    sys.exit()

S, path = begin(a)
layout = sheet(path, a.page, a.cells)
size = layout["page"]


def scene(preset, i):
    folder = path(preset if a.black == 4 else "%s black %g" % (preset, a.black), "scene_%03d" % i)
    if not os.path.exists(os.path.join(folder, "truth.json")):
        photograph(a, path("sheet.png"), "%gx%g" % (size["widthMm"], size["heightMm"]), path("cells.json"), os.path.dirname(folder), "--scenes", "1", "--first", str(i), "--preset", preset, "--card", "always", black=a.black)
    return folder


def card_file(truth):
    lines = ["CGATS.17", 'ORIGINATOR "accuracy run"', "NUMBER_OF_FIELDS 4", "BEGIN_DATA_FORMAT", "SAMPLE_ID LAB_L LAB_A LAB_B", "END_DATA_FORMAT",
             "NUMBER_OF_SETS %d" % len(truth["card"]["patches"]), "BEGIN_DATA"]
    lines += ["%d %.3f %.3f %.3f" % (i + 1, *p["published_lab_d50"]) for i, p in enumerate(truth["card"]["patches"])]
    open(path("card.txt"), "w").write("\n".join(lines + ["END_DATA", ""]))
    return path("card.txt")


def oracle(folder, truth):
    """The simulator's plain readers with the true geometry in place of their own marker finder."""
    import cv2, baseline
    mm = np.array([c["polygonMm"] for c in layout["cells"]], float).reshape(-1, 2)
    px = np.array([{c["id"]: c for c in truth["cells"]}[c["id"]]["polygon_px"] for c in layout["cells"]], float).reshape(-1, 2)
    H = cv2.findHomography(mm, px, 0)[0]
    baseline.find_sheet = lambda img, markers: (H, 4)
    rect = lambda p: [p[0][0], p[0][1], p[1][0] - p[0][0], p[2][1] - p[1][1]]
    return baseline.read_scene(folder, dict(cells=[dict(id=c["id"], rect=rect(c["polygonMm"])) for c in layout["cells"]], markers=[]))["de"]


if a.make:
    for preset in a.presets.split(","):
        for i in range(a.scenes): scene(preset, i)
    sys.exit()

shine = []
ways, kept = ["sheet alone", "sheet + card", "paper known", "paper known + card"], []
for preset in a.presets.split(","):
    errors, bounds, plain, found = {w: [] for w in ways}, {w: [] for w in ways}, {}, 0
    for i in range(a.scenes):
        folder = scene(preset, i)
        truth = json.load(open(os.path.join(folder, "truth.json")))
        corners = ",".join("%.2f,%.2f" % tuple(p) for p in truth["card"]["corners_px_displayed"])
        for way in ways:
            command = [dyewort, "read", os.path.join(folder, "photo.jpg"), "--layout", path("sheet.json"), "--json"]
            if "known" in way: command += ["--paper", "%.3f,%.3f,%.3f" % tuple(truth["sheet"]["paper_lab_d65"])]
            if "card" in way: command += ["--card", card_file(truth), "--card-corners", corners, "--card-grid", "6x4"]
            done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
            if done.returncode != 0:
                print("%s: %s" % (folder, done.stderr.strip().splitlines()[0] if done.stderr else done.returncode), file=sys.stderr)
                continue
            if way == ways[0]: found += 1
            swatches = {s["id"]: s for s in json.loads(done.stdout)["swatches"]}
            for c in truth["cells"]:
                if not c.get("true"): continue
                s = swatches[c["id"]]
                e = float(S.de2000(np.array(s["lab"]), np.array(c["true"]["ink_median_lab_d65"])))
                errors[way].append(e); bounds[way].append(s["uncertaintyDe00"])
                codes = s["warnings"]
                if way == "paper known": shine.append((preset, c.get("glare_fraction", 0), "glare" in codes, bool({"overexposed", "clipped"} & set(codes))))
        if a.oracle:
            for name, de in oracle(folder, truth).items(): plain.setdefault(name, []).extend(map(float, de))
    count = "%d/%d" % (found, a.scenes)
    kept += [dict(preset=preset, way=way, scenes=count, errors=errors[way], bounds=bounds[way]) for way in ways]
    kept += [dict(preset=preset, way="*plain: %s*" % name, scenes=count, errors=plain[name], bounds=[])
             for name in ("paper guessed 95,-0.5,3", "paper known", "card 3x3 + paper known", "oracle 3x3 (4-fold)") if name in plain]
table(kept)
if a.glare:
    print("\n| preset | shine found, sound photo | shine found, burnt-out paper | warned of without |\n|---|---|---|---|")
    count = lambda rows: "%d of %d" % (sum(warned for _, _, warned, _ in rows), len(rows))
    for preset in a.presets.split(","):
        mine = [one for one in shine if one[0] == preset]
        print("| %s | %s | %s | %s |" % (preset, *(count([o for o in mine if o[1] >= .3 and o[3] == burnt]) for burnt in (False, True)), count([o for o in mine if o[1] < .01])))
if a.keep: json.dump(kept, open(a.keep, "w"))
