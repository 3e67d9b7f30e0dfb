"""Colours of simulated inks, their washes and mixtures: the reference that InkAccuracyTests compares with.
Usage: simulated_inks.py FOLDER_OF_SPECTRAL_PY COUNT SEED; writes CSV, CIELAB D65 2 degree."""
import sys
sys.path.insert(0, sys.argv[1])
sys.dont_write_bytecode = True
import numpy as np
import spectral as s

rng = np.random.default_rng(int(sys.argv[3]))
papers = sorted(s.PAPERS)
print("c1,c2," + ",".join(f"{k}{n}" for n in ("Paper", "First", "Second", "Half", "Quarter", "Mix") for k in "Lab"))
for _ in range(int(sys.argv[2])):
    paper, _glow = s.paper_base(papers[rng.integers(len(papers))], rng)
    first, second = s.random_ink(rng), s.random_ink(rng)
    a, b = s.ink_absorbance(first), s.ink_absorbance(second)
    c, d = first["c"], second["c"]
    film = lambda density: s.lab_of(paper * (s.SURFACE + (1 - s.SURFACE) * 10 ** (-2 * density)))
    rows = [s.lab_of(paper), film(a * c), film(b * d), film(a * c / 2), film(a * c / 4), film((a * c + b * d) / 2)]
    print(f"{c:.4f},{d:.4f}," + ",".join(f"{v:.6f}" for row in rows for v in row))
