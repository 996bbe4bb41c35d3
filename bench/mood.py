"""Measure what a reference costs: time and peak memory for a 24-megapixel picture of each format, in fresh processes.

Run it from the project's root: ``python -m bench.mood``. Each figure is that of a process of its own which reads one
file, decodes it, makes its small copy and measures it: the first time as a web worker would after its start, and the
median of five more. The floor is what the imports alone take. Times depend on the machine and on what else it does.
"""

from __future__ import annotations

import json
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FORMATS = {
    "JPEG": ("24.jpg", {"Q": 90}),
    "JPEG with a wide profile": ("24p3.jpg", {"Q": 90, "profile": "p3"}),
    "JPEG, progressive": ("24p.jpg", {"Q": 90, "interlace": True}),
    "WebP": ("24.webp", {"Q": 85}),
    "TIFF, not packed": ("24.tif", {}),
    "PNG": ("24.png", {}),
}


def draw(folder: Path) -> None:
    """Write a picture of 6000 × 4000 pixels with soft shapes and grain in every format."""
    import pyvips

    bands = [pyvips.Image.perlin(6000, 4000, cell_size=size, seed=size).linear(70, 105) for size in (400, 300, 700)]
    image = bands[0].bandjoin(bands[1:]) + pyvips.Image.gaussnoise(6000, 4000, sigma=6, mean=0, seed=1)
    image = image.cast("uchar").copy(interpretation="srgb")
    for name, options in FORMATS.values():
        image.write_to_file(str(folder / name), **options)


def one(path: str) -> None:
    """Measure one file in this process and print the figures as JSON."""
    sys.path.insert(0, str(ROOT))
    from shoots.images import adapters
    from shoots.mood.core.lab import lab_of_srgb
    from shoots.mood.core.measure import MEASURED_PX, measure

    floor = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    times, first_peak = [], 0
    for turn in range(6):
        start = time.perf_counter()
        data = Path(path).read_bytes()
        adapters.header(data, taken=adapters.CONTENT_TYPES)
        seen = adapters.look_at(data, preview_px=1200, measured_px=MEASURED_PX)
        measure(lab_of_srgb(seen.srgb) if seen.lab is None else seen.lab, seen.opaque)
        times.append(time.perf_counter() - start)
        if turn == 0:
            first_peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    figures = {
        "first": times[0],
        "median": statistics.median(times[1:]),
        "floor": floor,
        "one": first_peak,
        "six": peak,
    }
    print(json.dumps(figures))


def main() -> None:
    print(f"{'6000 × 4000 pixels':26}{'file':>9}{'first':>9}{'median':>9}{'imports':>9}{'peak, 1':>9}{'peak, 6':>9}")
    with tempfile.TemporaryDirectory() as folder:
        # Drawn by a process of its own: a child's peak counts from what its parent held when it was forked.
        subprocess.run([sys.executable, __file__, "--draw", folder], cwd=ROOT, check=True)
        for name, (file, _) in FORMATS.items():
            path = Path(folder) / file
            done = subprocess.run(
                [sys.executable, __file__, str(path)], cwd=ROOT, capture_output=True, text=True, check=True
            )
            found = json.loads(done.stdout)
            print(
                f"{name:26}{path.stat().st_size / 1e6:6.1f} MB{1000 * found['first']:6.0f} ms"
                f"{1000 * found['median']:6.0f} ms"
                + "".join(f"{found[key] / 1024:6.0f} MB" for key in ("floor", "one", "six"))
            )


if __name__ == "__main__":
    if len(sys.argv) > 2:
        draw(Path(sys.argv[2]))
    elif len(sys.argv) > 1:
        one(sys.argv[1])
    else:
        main()
