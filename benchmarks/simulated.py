"""What every accuracy run needs: the simulator, a folder to work in, and the program under test."""
import json, os, subprocess, sys

root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
dyewort = os.path.join(root, "dyewort")
run = lambda *c: subprocess.run(c, check=True, stdout=subprocess.PIPE, text=True).stdout


def options(ap, work):
    ap.add_argument("--work", default=work)
    ap.add_argument("--simulator", default=os.path.join(os.path.dirname(root), "shared", "sim"))


def begin(a):
    """The simulator's own colour arithmetic, and paths in the working folder."""
    if not os.path.exists(os.path.join(a.simulator, "simulate.py")):
        sys.exit("The simulator is not at %s; give its folder with --simulator." % a.simulator)
    sys.path.insert(0, a.simulator)
    import spectral
    os.makedirs(a.work, exist_ok=True)
    return spectral, lambda *p: os.path.join(a.work, *p)


def sheet(path, page, cells):
    """A printed sheet as a picture, and its cells for the simulator; the layout."""
    if not os.path.exists(path("sheet.png")):
        run(dyewort, "sheet", "--cells", cells, "--page", page, "--out", path("sheet.pdf"), "--layout", path("sheet.json"))
        run("pdftoppm", "-r", "300", "-png", "-singlefile", path("sheet.pdf"), path("sheet"))
    layout = json.load(open(path("sheet.json")))
    json.dump([dict(id=c["id"], polygon=c["polygonMm"]) for c in layout["cells"]], open(path("cells.json"), "w"))
    return layout


def photograph(a, picture, size, cells, out, *more, black=4.0):
    """Has the simulator paint and photograph a sheet whose print reflects `black` per cent of its paper; the simulator's own figure is 4."""
    program = os.path.join(a.simulator, "simulate.py")
    start = [program]
    if black != 4:
        text, ours = open(program).read(), "(1 - .04) * (1 - grey)"
        if text.count(ours) != 1: sys.exit("The simulator no longer says how black it prints where this script looks for it.")
        other = os.path.join(a.work, "simulate_black_%g.py" % black)
        open(other, "w").write(text.replace(ours, "(1 - %g) * (1 - grey)" % (black / 100)))
        start = ["-c", "import runpy, sys; sys.path.insert(0, sys.argv[1]); sys.argv = sys.argv[2:]; runpy.run_path(sys.argv[0], run_name='__main__')", a.simulator, other]
    run("/usr/bin/python3", *start, "--sheet", picture, "--size-mm", size, "--cells", cells, "--out", out, "--seed", str(a.seed), *more)
