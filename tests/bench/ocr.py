"""How well typed pages are read: `python -m tests.bench.ocr [PAGES]`. Pages are the notes of `tests/golden`, drawn; two
numbers: from which to which. `--typed` leaves the handwriting out, `--every` prints what went wrong.

Counted are the words with a figure in them. `silent` are those that came out as another word, or not at all, or from
nowhere, and are no doubt of the page: nobody is asked about them. The pages are drawn, with fonts: no real typewriter,
scanner or telephone was tested.
"""

from __future__ import annotations

import random
import sys
import textwrap
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from rapidfuzz.distance import Levenshtein

from notesparse.errors import InputError
from notesparse.language.cache import known_words
from notesparse.outcome import Doubt
from notesparse.span import Span
from notesparse.staging.interval import wilson
from notesparse.typed.page import Typed, read_typed
from tests.bench.made import GOLDEN
from tests.typed.drawn import BY_HAND, TYPED, as_bytes, by_hand, font_file, photo, scan

PAGES = 40
WIDTH = 76  # letters on a line: a typewriter's
LONGEST = 2600  # letters of a note that goes on one page
GAP = 0.7  # what it costs in an alignment to leave a word out
EVEN = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "—": "-", "–": "-"})
FIGURES = str.maketrans("lIiOoSs|", "11100551")  # the corpus holds damaged figures, and `l2` read as 12 is right
LETTERS = str.maketrans("105", "los")
Drawn = Callable[[str, str, int], Any]


def notes(seed: int = 1) -> list[str]:
    """The notes that a typewriter can write, mixed, their lines broken as on paper."""
    texts = [f.read_text("utf-8") for f in sorted(GOLDEN.glob("*.txt"))]
    texts = [t for t in texts if t.isascii() and len(t) <= LONGEST]
    random.Random(seed).shuffle(texts)
    return ["\n".join(p for line in t.splitlines() for p in broken(line)) for t in texts]


def broken(line: str) -> list[str]:
    return textwrap.wrap(line, WIDTH) if len(line) > WIDTH else [line]


def words(text: str) -> list[tuple[Span, str]]:
    """The words of a text with their places, without the marks around them."""
    out, end = [], 0
    for word in text.split():
        start = text.index(word, end)
        end = start + len(word)
        bare = word.translate(EVEN).strip(".,;:()[]'\"*!?-=~").casefold()
        if bare:
            out.append((Span(start, end), bare.translate(FIGURES) if any(c.isdigit() for c in bare) else bare))
    return out


def figure(word: str) -> bool:
    """Whether a word has a figure in it, and is no word of letters damaged in typing, as `b100m` is."""
    if not any(c.isdigit() for c in word):
        return False
    letters = sum(c.isalpha() for c in word)
    return letters == 0 or word == "p1" or word.translate(LETTERS) not in known_words().singles


def aligned(a: Sequence[str], b: Sequence[str]) -> Iterator[tuple[int | None, int | None]]:
    """Which word of `b` came of which of `a`: the cheapest way to edit the one into the other."""

    def apart(x: str, y: str) -> float:
        return 0.0 if x == y else 0.2 + 0.9 * Levenshtein.normalized_distance(x, y)

    cost = [[GAP * (i + j) for j in range(len(b) + 1)] for i in range(len(a) + 1)]
    for i in range(1, len(a) + 1):
        for j in range(1, len(b) + 1):
            cost[i][j] = min(cost[i - 1][j] + GAP, cost[i][j - 1] + GAP, cost[i - 1][j - 1] + apart(a[i - 1], b[j - 1]))
    i, j = len(a), len(b)
    while i or j:
        if i and j and abs(cost[i][j] - cost[i - 1][j - 1] - apart(a[i - 1], b[j - 1])) < 1e-9:
            i, j = i - 1, j - 1
            yield i, j
        elif i and abs(cost[i][j] - cost[i - 1][j] - GAP) < 1e-9:
            i -= 1
            yield i, None
        else:
            j -= 1
            yield None, j


def judge(text: str, page: Typed, told: Counter[str], show: Callable[[str], None]) -> None:
    """Adds a page to the counts: figures, wrong, asked, silent."""
    there, read = words(text), words(page.text)

    def doubt(span: Span) -> Doubt | None:
        return next((d for d in page.doubts if d.span.overlaps(span)), None)

    for i, j in aligned([w for _, w in there], [w for _, w in read]):
        was = there[i][1] if i is not None else ""
        now = read[j][1] if j is not None else ""
        asked = j is not None and doubt(read[j][0]) is not None
        if not figure(was or now):
            told["words"] += 1
            same = was.translate(FIGURES) == now.translate(FIGURES)
            told["words wrong"] += not same
            told["words silent"] += not same and not asked
            if not same and not asked:
                show(f"  a word silently wrong: {was!r} became {now!r}")
            continue
        told["figures"] += bool(was)
        told["asked"] += asked
        told["wrong"] += was != now
        if was != now and not asked:
            told["silent"] += 1
            show(f"  silently wrong: {was!r} became {now!r}")


def measure(name: str, draw: Drawn, fonts: Sequence[str], texts: Sequence[str], every: bool) -> None:
    told: Counter[str] = Counter()
    began = time.perf_counter()
    for nth, text in enumerate(texts):
        try:
            page = read_typed(as_bytes(draw(text, fonts[nth % len(fonts)], nth)), "page.png")
        except InputError:
            told["refused"] += 1
            if every:
                print(f"  page {nth} in {fonts[nth % len(fonts)]} was refused")
            continue
        judge(text, page, told, print if every else lambda _: None)
    seconds = (time.perf_counter() - began) / max(1, len(texts))
    print(f"{name}: {len(texts)} pages, {told['refused']} refused, {seconds:.1f} s a page")
    if told["figures"]:
        n = told["figures"]
        low, high = wilson(told["silent"], n)
        print(
            f"  {n} figures: wrong {told['wrong']} ({told['wrong'] / n:.1%}), doubted {told['asked']} "
            f"({told['asked'] / n:.1%}), silently wrong {told['silent']} ({told['silent'] / n:.2%}, "
            f"95 % interval {low:.2f} to {high:.2f} %)"
        )
        print(f"  {told['words']} other words: wrong {told['words wrong']}, of these silently {told['words silent']}")


def main() -> None:
    numbers = [int(a) for a in sys.argv[1:] if a.isdigit()]
    first, last = numbers if len(numbers) == 2 else (0, *(numbers or [PAGES]))
    every = "--every" in sys.argv
    texts = notes()[first:last]
    typed, hand = ([f for f in fonts if font_file(f)] for fonts in (TYPED, BY_HAND))
    if typed:
        measure("typed, scanned", scan, typed, texts, every)
        measure("typed, photographed", photo, typed, texts, every)
    if hand and "--typed" not in sys.argv:
        measure("fonts like handwriting", by_hand, hand, texts, every)
    print("Pages were drawn with fonts; no real typewriter, scanner or telephone was tested.")


if __name__ == "__main__":
    main()
