#!/usr/bin/env python3
"""Are a sheet's markers large enough to be found? Prints sheets, paints them, tilts them before a simulated 8-megapixel camera, reads them.

Rerun from the repository's root: /usr/bin/python3 tests/Dyewort.Print.Tests/tilted_sheets.py
Needs numpy, OpenCV and pdftoppm. Our own camera: pinhole, focal length 3000 pixels, blur of 1.5 and 1 pixels, noise of 3 of 255, JPEG quality 88, seed 3.
"""
import json
import pathlib
import subprocess
import tempfile

import cv2
import numpy as np

ROOT = pathlib.Path(__file__).resolve().parents[2]
SHEETS = [("A4", "6x8"), ("A5", "4x6"), ("A6", "3x4"), ("420x594", "12x16")]
VIEWS = [(0, "x", 0.85), (30, "x", 0.80), (30, "y", 0.80), (40, "x", 0.70)]
WIDTH, HEIGHT, FOCAL = 2448, 3264, 3000.0


def dyewort(*arguments):
    return subprocess.run([str(ROOT / "dyewort"), *map(str, arguments)], capture_output=True, text=True)


def painted(folder, page, cells, rng):
    pdf, layout = folder / f"{page}.pdf", folder / f"{page}.json"
    done = dyewort("sheet", "--cells", cells, "--page", page, "--chart", "C9", "--out", pdf, "--layout", layout)
    assert done.returncode == 0, done.stderr
    subprocess.run(["pdftoppm", "-png", "-r", "250", "-singlefile", pdf, folder / page], check=True)
    picture, layout = cv2.imread(str(folder / f"{page}.png")), json.loads(layout.read_text())
    scale = picture.shape[1] / layout["page"]["widthMm"]
    for cell in layout["cells"]:
        (left, top), _, (right, bottom), _ = cell["polygonMm"]
        colour = [int(value) for value in rng.integers(50, 200, 3)]
        cv2.rectangle(picture, (int(left * scale + 5), int(top * scale + 5)), (int(right * scale - 5), int(bottom * scale - 5)), colour, -1)
    return picture, layout


def photograph(picture, layout, tilt, axis, fill, rng):
    width, height = layout["page"]["widthMm"], layout["page"]["heightMm"]
    angle = np.radians(tilt)
    turn = cv2.Rodrigues(np.array([angle if axis == "x" else 0, angle if axis == "y" else 0, 0.2]))[0]
    corners = np.array([[-width, -height, 0], [width, -height, 0], [width, height, 0], [-width, height, 0]]) / 2
    corners = corners @ turn.T + [0, 0, FOCAL * height / (HEIGHT * fill)]
    pixels = np.stack([FOCAL * corners[:, 0] / corners[:, 2] + WIDTH / 2, FOCAL * corners[:, 1] / corners[:, 2] + HEIGHT / 2], 1).astype(np.float32)
    source = np.array([[0, 0], [picture.shape[1], 0], [picture.shape[1], picture.shape[0]], [0, picture.shape[0]]], np.float32)
    table = cv2.resize(rng.integers(60, 140, (HEIGHT // 40, WIDTH // 40, 3)).astype(np.uint8), (WIDTH, HEIGHT), interpolation=cv2.INTER_NEAREST)
    view = cv2.warpPerspective(cv2.GaussianBlur(picture, (0, 0), 1.5), cv2.getPerspectiveTransform(source, pixels), (WIDTH, HEIGHT), dst=table, borderMode=cv2.BORDER_TRANSPARENT)
    view = cv2.GaussianBlur(view.astype(np.float32) * 0.85, (0, 0), 1.0) + rng.normal(0, 3, view.shape)
    return np.clip(view, 0, 255).astype(np.uint8)


def main():
    rng = np.random.default_rng(3)
    missed = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for page, cells in SHEETS:
            picture, layout = painted(folder, page, cells, rng)
            for tilt, axis, fill in VIEWS:
                cv2.imwrite(str(folder / "photo.jpg"), photograph(picture, layout, tilt, axis, fill, rng), [cv2.IMWRITE_JPEG_QUALITY, 88])
                read = dyewort("read", folder / "photo.jpg", "--layout", folder / f"{page}.json", "--json")
                found = len(json.loads(read.stdout)["swatches"]) if read.returncode == 0 else 0
                missed += len(layout["cells"]) - found
                print(f"{page:8} tilted {tilt:2} degrees about {axis}, {fill:.0%} of the picture: {found} of {len(layout['cells'])} cells {read.stderr.strip()}", flush=True)
    print(f"{missed} cells missed")
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
