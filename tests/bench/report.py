"""Prints the table of speed for DEVELOPERS.md: `python -m tests.bench.report`. CPU time of one process."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.made import GROWING, bare_parser, notes, pages, record

ROOT = Path(__file__).resolve().parents[2]
LEAST = 1.0  # seconds of CPU that a figure rests on


def seconds(job: Callable[[], object]) -> float:
    """CPU seconds of one run, the best of three loops of `LEAST` in all."""
    job()
    start, runs = time.process_time(), 0
    while time.process_time() - start < LEAST / 3:
        job()
        runs += 1
    best = (time.process_time() - start) / runs
    for _ in range(2):
        start = time.process_time()
        for _ in range(runs):
            job()
        best = min(best, (time.process_time() - start) / runs)
    return best


def speed(words: int) -> dict[str, float]:
    """Notes and characters a second, and how many bare parses one reading costs."""
    texts = notes(words)
    whole = seconds(lambda: [record(t) for t in texts])
    parser, tokens = bare_parser(texts)
    bare = seconds(lambda: [parser.parse(iter(t)) for t in tokens])
    return {"notes": len(texts) / whole, "characters": sum(map(len, texts)) / whole, "ratio": whole / bare}


def growth(name: str, sizes: tuple[int, ...]) -> list[float]:
    """Microseconds a character at each size; stops before a note of more than half a minute."""
    out = []
    for size in sizes:
        if out and out[-1] * size > 30e6:  # more than half a minute even if it grew no further
            break
        text = GROWING[name](size)
        record(text[:200])
        best, runs = 1e9, 0
        while runs < max(1, 20_000 // size) and runs < 50:
            gc.collect()
            start = time.process_time()
            record(text)
            best = min(best, time.process_time() - start)
            runs += 1
        out.append(best / size * 1e6)
    return out


MEMORY = """
import tracemalloc
tracemalloc.start()
from notesparse import read
from notesparse.language.cache import known_phrases, known_words
known_words(), known_phrases()
language = tracemalloc.get_traced_memory()[0]
text = open(0, encoding="utf-8").read()
read("plant 1 R3")
before = tracemalloc.get_traced_memory()[0]
tracemalloc.reset_peak()
read(text)
print(language / 1e6, (tracemalloc.get_traced_memory()[1] - before) / 1e6)
"""


def peak(size: int) -> tuple[float, float]:
    """Megabytes that Python holds for the language, and more at the peak of a page of so many characters."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1"}
    run = subprocess.run(
        [sys.executable, "-c", MEMORY],
        input=pages(size),
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=ROOT,
        env=env,
        check=True,
    )
    language, page = map(float, run.stdout.split())
    return language, page


def cold_start(runs: int = 12) -> tuple[float, float]:
    """Seconds of wall time: `python -m notesparse read` of one note, and the bare import of its two libraries.

    With the modules compiled, as an installation leaves them.
    """
    note = min((ROOT / "demo_notes").iterdir(), key=lambda f: f.stat().st_size)
    with tempfile.TemporaryDirectory() as kept:
        env = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": kept}
        env.pop("PYTHONDONTWRITEBYTECODE", None)

        def best(*command: str) -> float:
            times = []
            for _ in range(runs):
                start = time.perf_counter()
                subprocess.run([sys.executable, *command], capture_output=True, cwd=ROOT, env=env, check=True)
                times.append(time.perf_counter() - start)
            return min(times[1:])

        return best("-m", "notesparse", "read", str(note)), best("-c", "import lark, rapidfuzz")


def main() -> None:
    print("| words in a note | notes a second | characters a second | times a bare Lark parse of its phrases |")
    print("| --- | --- | --- | --- |")
    for words in (15, 60, 400):
        s = speed(words)
        print(f"| {words} | {s['notes']:,.0f} | {s['characters']:,.0f} | {s['ratio']:.1f} |", flush=True)
    sizes = (100, 1_000, 10_000, 100_000)
    print(f"\n| µs a character of | {' | '.join(f'{n:,}' for n in sizes)} |")
    print(f"| --- |{' --- |' * len(sizes)}")
    for name in GROWING:
        row = growth(name, sizes)
        print(f"| {name} | {' | '.join([f'{x:.1f}' for x in row] + ['-'] * (len(sizes) - len(row)))} |", flush=True)
    language, page = peak(20_000)
    print(
        f"\nMemory: {language:.1f} MB of Python objects for the language, "
        f"{page:.1f} MB more for a page of 20,000 characters."
    )
    read, libraries = cold_start()
    print(
        f"Cold start: {read * 1000:.0f} ms for one note, {libraries * 1000:.0f} ms for `import lark, rapidfuzz`: "
        f"ratio {read / libraries:.2f}."
    )


if __name__ == "__main__":
    main()
