"""Measures how fast Hookwright is, all in one run, and writes docs/benchmarks.md.

Medians of several runs; where a bar is a ratio, both sides are measured in the same run. `make bench` runs it.
"""

import argparse
import gc
import math
import os
import platform
import subprocess
import sys
import tempfile
import tracemalloc
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parent))
import manuscripts

ROOT = Path(__file__).resolve().parents[1]
REPORT = ROOT / "docs" / "benchmarks.md"


@dataclass
class Measured:
    """One line of the table. value and bar in `unit`; `least` where the bar is one to reach, not to stay under."""

    what: str
    value: float
    bar: float | None
    unit: str
    least: bool = False
    note: str = ""

    def holds(self) -> bool:
        if self.bar is None:
            return True
        return self.value >= self.bar if self.least else self.value < self.bar


def seconds(run, times: int = 5, warm: int = 1) -> float:
    """Median seconds of `times` runs, after `warm` that are not counted."""
    for _ in range(warm):
        run()
    taken = []
    for _ in range(times):
        gc.collect()
        started = perf_counter()
        run()
        taken.append(perf_counter() - started)
    return median(taken)


def in_process(rounds: int):
    """The hat of 60 rounds and nine sizes, warm."""
    import hookwright

    text = manuscripts.hat()
    report = hookwright.check(text)
    correct(report)
    yield Measured("check, hat of 60 rounds in 9 sizes, warm", seconds(lambda: hookwright.check(text), rounds * 3, 3) * 1000, 50, "ms",
                   note=f"{worked(report):,} stitches in all sizes, {len(report.findings)} findings")
    sized = hookwright.check(text.replace("---\n", "---\nyarn: {weight: 4, metres: 100, grams: 50}\n", 1)) if "yarn:" not in text else report
    yield from charts(text, rounds)
    yield Measured("yarn of that hat in 9 sizes, warm", seconds(lambda: hookwright.yarn_for(sized), rounds * 3, 3) * 1000, 10, "ms")
    smock = hookwright.check((ROOT / "examples" / "saltmarsh-smock.md").read_text("utf-8"))
    yield Measured("schematics of a pullover of 4 pieces in 9 sizes, warm", seconds(lambda: hookwright.schematic(smock), rounds * 2, 2) * 1000, 100, "ms")
    yield Measured("its measures by counts", seconds(lambda: hookwright.measures(smock, solved=False), rounds * 2, 2) * 1000, 100, "ms")
    yield Measured("its measures by the solved shape, one size", seconds(lambda: hookwright.measures(smock, size="M"), rounds, 1) * 1000, 1000, "ms")


def charts(text: str, rounds: int):
    """A chart of the hat from a fresh report, so that the steps of its stitches are found each time, with the time of a check in the same run."""
    import hookwright

    checked, drawn, whole = [], [], []
    for _ in range(rounds * 2 + 1):  # in turn, so that a busy moment falls on all of them
        started = perf_counter()
        report = hookwright.check(text)
        checked.append(perf_counter() - started)
        for taken, folded in ((drawn, True), (whole, False)):
            report.__dict__.pop("step_spans", None)
            started = perf_counter()
            made = hookwright.chart(report, whole=not folded)
            taken.append(perf_counter() - started)
    check, drawn, whole = (median(times[1:]) for times in (checked, drawn, whole))
    yield Measured("chart of that hat, repeats shown once", drawn * 1000, 300, "ms")
    yield Measured("chart of that hat, every stitch", whole * 1000, 300, "ms", note=f"{made.symbols:,} symbols")
    yield Measured("chart of that hat, every stitch, beside a check of it in 9 sizes", whole / check, 4, "x", note=f"{check * 1000:.0f} ms for the check")


def cold(rounds: int):
    """The command from a cold start, beside Python importing NumPy."""
    environment = {**os.environ, "NO_COLOR": "1"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # both as installed: pip compiles what it installs, NumPy too
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "hat.md"
        file.write_text(manuscripts.hat(), "utf-8")

        commands = {
            "numpy": ("-c", "import numpy"),
            "check": ("-m", "hookwright.desk.main", "check", str(file)),
            "help": ("-m", "hookwright.desk.main", "--help"),
        }
        taken = {name: [] for name in commands}
        for _ in range(rounds * 2 + 1):  # in turn, so that a busy moment falls on all of them; the first time round warms the disc and compiles
            for name, words in commands.items():
                started = perf_counter()
                subprocess.run([sys.executable, *words], env=environment, capture_output=True)
                taken[name].append(perf_counter() - started)
        numpy, check, help_ = (median(times[1:]) for times in taken.values())
    yield Measured("`hookwright check` of that hat from cold, beside `import numpy`", check / numpy, 5, "x",
                   note=f"{check * 1000:.0f} ms beside {numpy * 1000:.0f} ms")
    yield Measured("`hookwright --help`", help_ * 1000, 400, "ms")


SORTS = {
    "blanket, two rows repeated": manuscripts.blanket,
    "blanket, every row written": lambda stitches: manuscripts.blanket(stitches, written_out=True),
    "triangle, no two rows the same": manuscripts.triangle,
}


def growing(rounds: int):
    """Pieces of 10,000 to 1,000,000 stitches, and how the time grows."""
    import hookwright

    for said, made in SORTS.items():
        points = []
        for stitches in (10_000, 100_000, 1_000_000):
            text = made(stitches)
            report = hookwright.check(text)
            correct(report)
            count = worked(report)
            del report
            took = seconds(lambda: hookwright.check(text), rounds if stitches < 1_000_000 else 1, 0)  # noqa: B023 - used at once
            points.append((count, took))
            bar = 1.5 if stitches == 100_000 else None
            yield Measured(f"{said}: {count:,} stitches", took, bar, "s", note=f"{took / max(count, 1) * 1e6:.2f} µs a stitch")
        (n1, t1), _, (n3, t3) = points
        slope = math.log(t3 / t1) / math.log(n3 / n1) if n3 > n1 > 0 else math.nan
        yield Measured(f"{said}: growth of time from 10,000 to 1,000,000 stitches (1 is in step)", slope, 1.1, "power")


def memory():
    """Memory of 100,000 stitches, at its highest and when done."""
    import hookwright

    hookwright.check(manuscripts.blanket(1000))
    for said, made in SORTS.items():
        text = made(100_000)
        gc.collect()
        tracemalloc.start()
        report = hookwright.check(text)
        kept, highest = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        count = worked(report)
        yield Measured(f"memory at its highest, 100,000 stitches, {said}", highest / count, 200, "bytes a stitch", note=f"{kept / count:.0f} kept")


def reading(rounds: int):
    """Rows read in a second, without working them."""
    from hookwright.notation import read

    text = manuscripts.rows(2000)
    yield Measured("reading", 2000 / seconds(lambda: read(text), rounds), 5000, "rows a second", least=True)


def writing(rounds: int):
    """Sheets of HTML and PDF, from a report that is there."""
    import hookwright

    hat, long = hookwright.check(manuscripts.hat()), hookwright.check(manuscripts.long_pattern())
    pages = sheet_pages(long)
    yield Measured("write HTML, the hat", seconds(lambda: hookwright.write(hat, to="html", terms="UK"), rounds), 0.3, "s")
    yield Measured(f"write PDF of {pages} pages", seconds(lambda: hookwright.write(long, to="pdf", terms="UK"), rounds), 1.5, "s")


def sizing(rounds: int):
    """Numbers found for all sizes at once, and a finished manuscript made to one maker's measures."""
    import hookwright
    from hookwright.fabric import work_pattern
    from hookwright.sizing import solve

    for said, text, bar in (("numbers of a top in 9 sizes", manuscripts.garment(), 500), ("numbers of a hat in 8 sizes", manuscripts.sideways_hat(), 50)):
        report = hookwright.check(text)
        correct(report)
        problem = report.sized.asked.problem
        solving = seconds(lambda: solve(problem), rounds * 2, 2)  # noqa: B023 - used at once
        working = seconds(lambda: work_pattern(report.pattern, sizes=report.sizes), rounds)  # noqa: B023 - used at once
        yield Measured(f"{said} found, warm", solving * 1000, bar, "ms",
                       note=f"{len(problem.wishes)} numbers, {len(problem.conditions)} conditions; {solving / working:.1f} x the time of working the rows")

    def made():
        report = hookwright.made_to_measure(manuscripts.garment(), measures={"bust": "97 cm", "upper arm": "31 cm"}, gauge="15 sts and 11 rows to 10 cm")
        hookwright.write(report, to="html")
        return report

    correct(made())
    yield Measured("made to measure: numbers found, worked, proved, HTML, warm", seconds(made, rounds * 2, 2), 0.5, "s")


def pictures(rounds: int):
    """Pieces of about 3,000 stitches drawn in their yarn, beside solving them; and their meshes."""
    import gzip

    import hookwright
    import pictures as bench

    for what, report, surface in bench.surfaces():
        solving = seconds(lambda: hookwright.surface_of(report), rounds)  # noqa: B023 - used at once
        drawing = seconds(lambda: bench.drawn(report, surface), rounds)  # noqa: B023 - used at once
        stitches = len(surface.at)
        yield Measured(f"{what} drawn in its yarn, {bench.PIXELS} px", drawing, 2, "s", note=f"{stitches:,} stitches; {drawing / solving:.1f} x solving its shape")
        mesh = bench.drawn(report, surface, "glb")
        yield Measured(f"{what} as a mesh (glTF)", len(mesh) / 1e6, 4, "MB",
                       note=f"{len(mesh) / stitches:,.0f} bytes a stitch, {len(gzip.compress(mesh)) / 1e6:.1f} MB with gzip")


def live(rounds: int):
    """The workbench: from a pause in typing to the findings at the page's end of the line, a manuscript of 400 rows in five sizes."""
    import live as bench

    taken = bench.pauses(12 * rounds)
    middle, most = (bench.percentile(taken, share) * 1000 for share in (0.5, 0.95))
    yield Measured("workbench: pause in typing to findings, 400 rows in 5 sizes, 95 of 100", most, 100, "ms", note=f"half of them within {middle:.0f} ms")


def shapes(rounds: int):
    """Pieces solved in space, beside the bars, memory and other ways."""
    import shapes as of_shapes

    yield from of_shapes.all_of(seconds, Measured, rounds)


def sheet_pages(report) -> int:
    """Pages of the PDF of a report."""
    import io

    import pypdf

    import hookwright

    data = hookwright.write(report, to="pdf", terms="UK")
    return len(pypdf.PdfReader(io.BytesIO(data[0] if isinstance(data, tuple) else data)).pages)


def worked(report) -> int:
    """Stitches worked in all sizes of a report."""
    return sum(row.stitches for fabric in report.fabrics for row in fabric.rows)


def correct(report) -> None:
    """The manuscripts are correct, so what is measured must be whole: all counts held."""
    proved = report.as_dict()["proved"]
    if report.must_mend or proved["disagree"]:
        print(f"  NOT WHOLE: {report.must_mend} things to mend, {proved['words']}", flush=True)


def shown(measured: Measured, number: float | None) -> str:
    if number is None:
        return ""
    digits = 0 if number >= 100 else 1 if number >= 10 else 2
    return f"{number:,.{digits}f} {measured.unit}"


def as_page(lines: list[Measured]) -> str:
    """The table as a page of the docs."""
    out = [
        "# How fast it is",
        "",
        "Medians, measured in one run by `make bench` (benchmarks/run.py); the manuscripts are made by benchmarks/manuscripts.py.",
        f"Python {platform.python_version()}, {platform.system()} {platform.machine()}, {os.cpu_count()} processors.",
        "",
        "| what | measured | bar | holds | |",
        "| --- | ---: | ---: | --- | --- |",
    ]
    for line in lines:
        bar = "" if line.bar is None else f"{'at least' if line.least else 'under'} {shown(line, line.bar)}"
        holds = "" if line.bar is None else "yes" if line.holds() else "**no**"
        out.append(f"| {line.what} | {shown(line, line.value)} | {bar} | {holds} | {line.note} |")
    return "\n".join([*out, ""])


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=5, help="runs of each measurement (default 5)")
    parser.add_argument("--only", nargs="*", default=[], help="in_process cold growing memory reading writing sizing shapes pictures live")
    parser.add_argument("--strict", action="store_true", help="end with 1 where a bar does not hold")
    asked = parser.parse_args()
    every = {
        "in_process": lambda: in_process(asked.rounds), "cold": lambda: cold(asked.rounds), "growing": lambda: growing(asked.rounds),
        "memory": memory, "reading": lambda: reading(asked.rounds), "writing": lambda: writing(asked.rounds),
        "sizing": lambda: sizing(asked.rounds), "shapes": lambda: shapes(asked.rounds), "pictures": lambda: pictures(asked.rounds), "live": lambda: live(asked.rounds),
    }
    lines = []
    for name, measure in every.items():
        if asked.only and name not in asked.only:
            continue
        for line in measure():
            print(f"{line.what}: {shown(line, line.value)}{'' if line.holds() else '  OVER THE BAR'}  {line.note}", flush=True)
            lines.append(line)
    if not asked.only:
        REPORT.write_text(as_page(lines), "utf-8")
        print(f"\nwritten to {REPORT.relative_to(ROOT)}")
    return int(asked.strict and not all(line.holds() for line in lines))


if __name__ == "__main__":
    sys.exit(main())
