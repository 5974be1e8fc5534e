"""Ways to say a thing: every phrase of `tests/corpus/*.toml` is read as a note of its own (see corpus/README.md)."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from notesparse import read

FOLDER = Path(__file__).with_name("corpus")
NOTE_DATE = "2026-07-14"
PLANT = (
    "trifoliates nodes top_leaf emerged unifoliates flowers flowers_from_top pods pods_from_top pod_mm "
    "pods_full_length seeds seeds_from_top seed_mm seed_fill mature_pods mature_pods_percent stated_v stated_r"
).split()
HEAD = "field planted emerged variety maturity_group row_spacing_in".split()
NAMES_A_VISIT = ("plant", "plants", "visit", "tallies", "stated", "findings")
_NO_NAME = re.compile(r"^(?:the )?(?:field|fld)[ .]+(?=\w)|\bfield$|^the ")  # words that are no part of a name
BLOCK_KEYS = {
    "rule",
    "say",
    "before",
    "after",
    "known",
    "plant",
    "plants",
    "visit",
    "visits",
    "tallies",
    "stated",
    "findings",
    "stages",
    "corrected",
    "unread",
    "told",
    "choices",
}


def blocks() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """(topic, verdict, block) of every corpus file."""
    for file in sorted(FOLDER.glob("*.toml")):
        data = tomllib.loads(file.read_text(encoding="utf-8"))
        assert set(data) <= {"says", "never", "asks"}, file.name
        for verdict in ("says", "never", "asks"):
            for block in data.get(verdict, ()):
                assert set(block) <= BLOCK_KEYS, (
                    f"{file.name}: {sorted(set(block) - BLOCK_KEYS)} in {block['say'][0]!r}"
                )
                yield file.stem, verdict, block


def phrases() -> list[Any]:
    out = []
    for topic, verdict, block in blocks():
        for said in block["say"]:
            marks = [pytest.mark.xfail(reason=block["known"], strict=True)] if "known" in block else []
            out.append(
                pytest.param(verdict, block, said, id=f"{topic}-{verdict}-{said}".replace("\n", "/"), marks=marks)
            )
    return out


def record_of(block: dict[str, Any], said: str) -> dict[str, Any]:
    """The JSON record of the phrase between its `before` and `after`."""
    return json.loads(read(block.get("before", "") + said + block.get("after", ""), date=NOTE_DATE).to_json())


def _same(want: Any, got: Any) -> bool:
    if isinstance(want, bool) or isinstance(got, bool):
        return want is got
    if isinstance(want, (int, float)) and isinstance(got, (int, float)):
        return abs(want - got) < 0.06
    if isinstance(want, list) and isinstance(got, list):
        return len(want) == len(got) and all(map(_same, want, got))
    if isinstance(want, str) and isinstance(got, str):
        return want.casefold() == got.casefold()
    return want == got


def _same_facts(want: dict[str, Any], got: dict[str, Any]) -> bool:
    return set(want) == set(got) and all(_same(v, got[k]) for k, v in want.items())


def _within(want: dict[str, Any], got: dict[str, Any]) -> bool:
    return all(_same(v, got.get(k)) for k, v in want.items())


def plant_facts(plant: dict[str, Any]) -> dict[str, Any]:
    """What the note says of a plant: no derived values."""
    return {k: plant[k] for k in PLANT if plant[k] is not None and k not in plant["derived"]}


def faults_of_visit(want: dict[str, Any], visit: dict[str, Any]) -> list[str]:
    """Where a visit differs from what the block lists: anything that is not listed must not be there."""
    out = []
    plants = want.get("plants") or ({"1": want["plant"]} if "plant" in want else {})
    got = {p["plant"]: plant_facts(p) for p in visit["plants"]}
    if plants == {"1": {}} and not got:  # a plant that is only named
        plants = {}
    if set(plants) != set(got) or not all(_same_facts(plants[k], got[k]) for k in plants):
        out.append(f"plants: want {plants}, got {got}")
    head = dict(want.get("visit", {}))
    have = {k: visit[k] for k in HEAD if visit[k] is not None}
    if "date" in head:
        have["date"] = visit["date"]
    for values in (head, have):
        if "field" in values:
            values["field"] = _NO_NAME.sub("", values["field"].casefold())
    if not _same_facts(head, have):
        out.append(f"visit: want {head}, got {have}")
    for key in ("tallies", "findings"):
        if len(want.get(key, ())) != len(visit[key]) or not all(map(_within, want.get(key, ()), visit[key])):
            out.append(f"{key}: want {want.get(key, [])}, got {visit[key]}")
    stated = {k: v for k, v in (visit["stated"] or {}).items() if k in "vr" and v is not None}
    if not _same_facts(want.get("stated", {}), stated):
        out.append(f"stated: want {want.get('stated', {})}, got {stated}")
    for label, stage in want.get("stages", {}).items():
        seen = next(({k: p[f"{k}_stage"] for k in stage} for p in visit["plants"] if p["plant"] == label), None)
        if seen != stage:
            out.append(f"stage of {label}: want {stage}, got {seen}")
    return out


def faults(block: dict[str, Any], record: dict[str, Any]) -> list[str]:
    visits = block.get("visits") or ([block] if any(k in block for k in NAMES_A_VISIT) else [])
    if not visits and all(not faults_of_visit({}, v) for v in record["visits"]):
        return []
    if len(visits) != len(record["visits"]):
        out = [f"visits: want {len(visits)}, got {[v['field'] for v in record['visits']]}"]
        return [*out, *(f for v in record["visits"] for f in faults_of_visit({}, v))] if not visits else out
    out = [f for want, visit in zip(visits, record["visits"], strict=True) for f in faults_of_visit(want, visit)]
    if "corrected" in block and block["corrected"] != len(record["corrected"]):
        out.append(f"corrected: want {block['corrected']}, got {record['corrected']}")
    return out


def judged(verdict: str, block: dict[str, Any], said: str) -> list[str]:
    """What is wrong with the reading of a phrase."""
    record = record_of(block, said)
    asked = [(q["rule"], q["quote"], [c["makes"] for c in q["choices"]]) for q in record["questions"]]
    unread = [u["quote"] for u in record["unread"] if u["why"] != "taken back"]
    out = faults(block, record)
    if verdict == "never":
        vanished = block.get("told") is not False and not unread and not asked
        return [*out, "content vanished"] if vanished else out
    if unread != block.get("unread", []):
        out.append(f"unread: want {block.get('unread', [])}, got {unread}")
    if verdict == "says":
        return [*out, f"a clear phrase is asked about: {asked}"] if asked else out
    hits = [makes for rule, _, makes in asked if rule == block["rule"]]
    if not hits:
        return [*out, f"no question by rule {block['rule']}: {asked}"]
    for key, values in block.get("choices", {}).items():
        offered = [[m.get(key, "") for m in makes] for makes in hits]
        if not any(len(o) == len(values) and all(any(_same(v, x) for x in o) for v in values) for o in offered):
            out.append(f"choices of {key}: want {values}, got {offered}")
    return out


@pytest.mark.parametrize(("verdict", "block", "said"), phrases())
def test_phrase(verdict: str, block: dict[str, Any], said: str) -> None:
    assert judged(verdict, block, said) == []


def test_every_topic_has_a_file() -> None:
    topics = {
        "leaves",
        "stem",
        "flowers",
        "pods",
        "seeds",
        "maturity",
        "lengths",
        "stages",
        "tallies",
        "labels",
        "headers",
        "corrections",
        "findings",
        "columns",
    }
    assert {f.stem for f in FOLDER.glob("*.toml")} == topics


def test_no_phrase_stands_twice() -> None:
    seen: set[tuple[str, str]] = set()
    for topic, _, block in blocks():
        for said in block["say"]:
            key = (topic, block.get("before", "") + said + block.get("after", ""))
            assert key not in seen, key
            seen.add(key)
