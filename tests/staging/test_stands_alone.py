"""The staging package works with every third-party library of the project kept from import."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

PROGRAM = """
import importlib.abc, sys

BLOCKED = {"lark", "rapidfuzz", "pandas", "typer", "word2number", "numpy", "scipy"}

class Shut(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in BLOCKED:
            raise ImportError(f"{name} is shut out")
        return None

sys.meta_path.insert(0, Shut())
try:
    import pandas
except ImportError as error:
    print(error)

from notesparse.facts import PlantFacts, Stated, Tally
from notesparse.staging.bbch import bbch
from notesparse.staging.field import field_stage, stage_plant
from notesparse.staging.plausible import doubts
from notesparse.staging.scale import agrees

plants = [
    stage_plant(PlantFacts(trifoliates=11, flowers=True, flowers_from_top=(1, 2))),
    stage_plant(PlantFacts(trifoliates=12, pods_from_top=(3,), pod_mm=6.35, inch_lengths=frozenset({"pod_mm"}))),
]
field = field_stage(plants, [Tally("R3", 3, 10)], Stated(r="R3"))
print(field.v, field.r, field.interval_r_percent, bbch(field.r), agrees("early R3", field.r))
print(plants[1].r.why)
print(len(doubts(PlantFacts(trifoliates=22))))
ours = {name for name in sys.modules if name.startswith("notesparse.")}
print(*sorted(name for name in ours if not name.startswith("notesparse.staging")))
print(*sorted({name.split(".")[0] for name in sys.modules} & BLOCKED))
"""


def test_staging_needs_no_library() -> None:
    root = Path(__file__).resolve().parents[2]
    run = subprocess.run([sys.executable, "-c", PROGRAM], cwd=root, capture_output=True, text=True, check=False)
    assert run.stderr == ""
    assert run.stdout.splitlines() == [
        "pandas is shut out",
        "V12 R3 (9.5, 90.5) 71 True",
        "pod 6.35 mm (>= 3/16 in) at node 3 from the top: R3",
        "1",
        "notesparse.facts notesparse.lazy",
        "",
    ]
