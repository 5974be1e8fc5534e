"""How far the reading of a note agrees with its agreed reading: facts right, told of, or silently wrong."""

from __future__ import annotations

import difflib
import re
from collections import Counter, defaultdict
from typing import Any

from notesparse.facts import PLANT_KEYS

IMPLIED = {
    "flowers": {"flowers_from_top"},
    "pods": {
        "pods_from_top",
        "pod_mm",
        "pods_full_length",
        "seeds",
        "seeds_from_top",
        "seed_mm",
        "seed_fill",
        "mature_pods",
        "mature_pods_percent",
    },
    "pods_from_top": {"seeds_from_top"},
    "seeds": {"seeds_from_top", "seed_mm", "seed_fill"},
    "mature_pods": {"mature_pods_percent"},
    "seed_fill": {"seeds", "seed_mm"},
    "emerged": {"unifoliates", "trifoliates", "stated_v"},
    "unifoliates": {"trifoliates"},
    "pods_full_length": {"pod_mm"},
}
"""What a fact may be known by, if it is not stated itself."""
HEAD = ("field", "planted", "emerged", "variety", "maturity_group", "row_spacing_in")
STAGE_OF = {"flowers": "R1", "flowering": "R1", "pods": "R3", "seeds": "R5", "mature_pods": "R7"}
Span = tuple[int, int]


def plain(text: object) -> str:
    words = re.sub(r"[^a-z0-9. ]+", " ", str(text).casefold()).split()
    return " ".join(w for w in words if w not in {"the", "field", "plant", "number", "no", "stop"})


def alike(a: object, b: object) -> bool:
    a, b = plain(a), plain(b)
    return a == b or (bool(a) and bool(b) and difflib.SequenceMatcher(None, a, b).ratio() >= 0.85)


def same(key: str, gold: Any, got: Any) -> bool:
    """Whether a value agrees with the agreed one of `key`."""
    if got is None:
        return False
    if key in {"field", "variety", "stop"}:
        return alike(gold, got)
    if key in {"stated_v", "stated_r"}:
        one, two = (
            [re.sub(r"[^a-z0-9. ]", "", str(s).casefold()).strip() for s in (x if isinstance(x, list) else [x])]
            for x in (gold, got)
        )
        return one == two
    if isinstance(gold, bool) or isinstance(got, bool):
        return gold is got
    if key.endswith("_mm"):
        one, two = (x if isinstance(x, list) else [x, x] for x in (gold, got))
        return all(abs(a - b) <= max(0.35, 0.02 * abs(a)) for a, b in zip(one, two, strict=False))
    if isinstance(gold, list):
        if not isinstance(got, list):
            return False
        one, two = (sorted(str(float(x)) if isinstance(x, int | float) else str(x) for x in xs) for xs in (gold, got))
        return one == two
    if isinstance(gold, int | float) and isinstance(got, int | float):
        return abs(gold - got) <= 1e-6 + 0.005 * abs(gold)
    return str(gold).casefold() == str(got).casefold()


def place(text: str, entry: dict[str, Any]) -> Span | None:
    at = -1
    for _ in range(entry.get("nth", 1)):
        at = text.find(entry["quote"], at + 1)
        if at < 0:
            return None
    return at, at + len(entry["quote"])


def meets(a: Span | None, b: Any) -> bool:
    return a is not None and b is not None and a[0] < b[1] and b[0] < a[1]


def same_tally(gold: dict[str, Any], got: dict[str, Any]) -> bool:
    def share(t: dict[str, Any]) -> float | None:
        if t.get("percent") is not None:
            return float(t["percent"])
        return 100.0 * t["count"] / t["of"] if t.get("count") is not None and t.get("of") else None

    one, two = (STAGE_OF.get(str(t.get("what")), str(t.get("what")).upper()) for t in (gold, got))
    a, b = share(gold), share(got)
    return one == two and (a is None or (b is not None and abs(a - b) <= 1))


def same_finding(gold: dict[str, Any], got: dict[str, Any]) -> bool:
    if gold.get("kind") and plain(gold["kind"]) != plain(got.get("kind")):
        return False
    if gold.get("name") and not alike(gold["name"], got.get("name") or ""):
        a, b = plain(gold["name"]).rstrip("s"), plain(got.get("name") or "").rstrip("s")
        if not (a and b and (a in b or b in a)):
            return False
    return gold.get("value") is None or same("value", gold["value"], got.get("value"))


def pairs_of_visits(
    gold: list[dict[str, Any]], got: list[dict[str, Any]]
) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Agreed visits with those read: by name where both have one, else in order."""
    left, out = list(got), []
    for i, g in enumerate(gold):
        name = next((f["value"] for f in g.get("facts", []) if f["key"] == "field"), None)
        best = next((v for v in left if v.get("field") and alike(name, v["field"])), None) if name is not None else None
        if best is None and len(gold) == len(got):
            best = got[i] if any(got[i] is v for v in left) else None
        best = left[0] if best is None and left else best
        left = [v for v in left if v is not best]
        out.append((g, best or {}))
    return out


def plant_of(visit: dict[str, Any], label: str, stop: str | None) -> dict[str, Any]:
    hits = [p for p in visit.get("plants", []) if plain(p["plant"]) == plain(label)]
    if stop is not None:
        hits = [p for p in hits if p.get("stop") is not None and alike(stop, p["stop"])] or hits
    return hits[0] if hits else {}


class Judge:
    """One note: `count` of each outcome, and the cases behind those that are not right."""

    def __init__(self, note: str, gold: dict[str, Any], got: dict[str, Any]) -> None:
        self.count: Counter[str] = Counter()
        self.cases: list[str] = []
        self.note, self.gold, self.got = note, gold, got
        self.told = [q["span"] for q in got["questions"]] + [u["span"] for u in got["unread"]]
        self.asks = [(a, place(note, a)) for a in gold.get("ask", [])]
        for agreed, visit in pairs_of_visits(gold.get("visits", []), got["visits"]):
            self._visit(agreed, visit)
        extra = len(got["visits"]) - len(gold.get("visits", []))
        for _ in range(max(0, extra if gold.get("visits") else extra - 1)):
            self._add("invented", "one visit too many")
        self._questions()
        self._remarks()

    def _add(self, what: str, case: str = "") -> None:
        self.count[what] += 1
        if what not in {"right", "stages"}:
            self.cases.append(f"{what}: {case}")

    def _is_told(self, where: Any) -> bool:
        return where is not None and any(meets(tuple(where), s) for s in self.told)

    def _visit(self, agreed: dict[str, Any], visit: dict[str, Any]) -> None:
        named: dict[str, set[str]] = defaultdict(set)
        facts = agreed.get("facts", [])
        for f in facts:
            self._fact(f, visit, named)
        for p in visit.get("plants", []):
            known = named[plain(p["plant"])]
            for key in PLANT_KEYS:
                if p[key] is None or key in p["derived"] or key in known or known & IMPLIED.get(key, set()):
                    continue
                if not self._is_told(p["spans"].get(key)):
                    self._add("invented", f"plant {p['plant']} {key} = {p[key]!r}")
        for key in HEAD:
            if visit.get(key) is not None and not any(f["key"] == key for f in facts):
                self._add("invented", f"{key} = {visit[key]!r}")
        for t in visit.get("tallies", []):
            if not self._is_told(t["span"]) and not any(
                f["key"] == "tally" and same_tally({**f["value"], "percent": None, "count": None}, t) for f in facts
            ):
                self._add("invented", f"tally {t}")
        for letter in "vr":
            stated = visit.get("stated") or {}
            if (
                stated.get(letter) is not None
                and not self._is_told(stated["span"])
                and not any(f["key"] == f"stated_{letter}" and f.get("plant") is None for f in facts)
            ):
                self._add("invented", f"statement {stated[letter]}")
        for name, stages in agreed.get("stages", {}).items():
            stop, _, label = name.rpartition("/")
            p = plant_of(visit, label, stop or None)
            told = any(plain(q["plant"]) == plain(label) for q in self.got["questions"]) or (not p and bool(self.told))
            for letter, want in stages.items():
                self._stage(f"plant {label}", want, p.get(f"{letter}_stage"), told)
        for letter, want in agreed.get("field_stage", {}).items():
            self._stage("field", want, (visit.get("field_stage") or {}).get(letter), bool(self.got["questions"]))

    def _stage(self, whose: str, want: Any, have: Any, told: bool) -> None:
        self._add("stages")
        if have != want and not told:
            self._add("stage silent", f"{whose}: want {want}, got {have}")

    def _fact(self, f: dict[str, Any], visit: dict[str, Any], named: dict[str, set[str]]) -> None:
        key, want, label = f["key"], f["value"], f.get("plant")
        where = place(self.note, f) if f.get("quote") else None
        told = self._is_told(where)
        accept = [want]
        for a, span in self.asks:
            if key in a.get("accept", {}) and (where is None or meets(where, span)):
                accept += a["accept"][key]
        have: Any
        if key == "tally":
            have = visit.get("tallies", [])
            hit = any(same_tally(want, t) for t in have)
        elif key == "finding":
            have = visit.get("findings", [])
            hit = any(same_finding(want, x) for x in have)
            told = told or any(meets(where, x["span"]) for x in have)
        elif label is None:
            have = (visit.get("stated") or {}).get(key[-1]) if key in {"stated_v", "stated_r"} else visit.get(key)
            hit = any(same(key, w, have) for w in accept)
        else:
            named[plain(label)].add(key)
            plant = plant_of(visit, label, f.get("stop"))
            have = plant.get(key)
            if have is None and want is True and any(plant.get(k) not in (None, False) for k in IMPLIED.get(key, ())):
                have = True
            hit = any(same(key, w, have) for w in accept)
            if not hit and key == "pods_from_top" and isinstance(have, list) and isinstance(want, list):
                seeds = plant.get("seeds_from_top")  # a pod is where its seeds are
                hit = isinstance(seeds, list) and set(want) <= set(have) <= set(want) | set(seeds)
        self._add(
            "right" if hit else "told" if told else "silent",
            f"plant {label} {key}: want {want!r}, got {have!r} <- {f.get('quote')!r}",
        )

    def _questions(self) -> None:
        for a, span in self.asks:
            if not any(meets(span, q["span"]) for q in self.got["questions"]):
                self._add("unasked", repr(a["quote"]))
        if not self.asks:
            for q in self.got["questions"]:
                self._add("nuisance", f"{q['ask']} <- {q['quote']!r}")

    def _remarks(self) -> None:
        kept = [*self.told, *(x["span"] for v in self.got["visits"] for x in v["findings"])]
        for r in self.gold.get("remarks", []):
            span = place(self.note, {"quote": r})
            inside = {i for k in kept for i in range(max(span[0], k[0]), min(span[1], k[1]))} if span else set()
            if not span or len(inside) < 0.4 * (span[1] - span[0]):
                self._add("vanished", repr(r))
