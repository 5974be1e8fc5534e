"""A job of its own, not of the ordinary run: coverage-guided fuzzing of `read` (needs atheris).

    python -m tests.fuzz.fuzz_read -max_total_time=600 -max_len=600 FOLDER_FOR_FINDS

Half of the inputs are text as it comes, half are words of the vocabulary that the bytes choose. Every law of
`tests/properties/laws.py` is checked.
"""

from __future__ import annotations

import sys

try:
    import atheris
except ImportError:
    print("atheris is not installed: nothing to run (pip install atheris)")
    sys.exit(0)

with atheris.instrument_imports(include=["notesparse"]):  # all of it here: what is imported later is not watched
    from notesparse.language.cache import known_phrases, known_words
    from tests.properties.laws import check

from tests.properties.strategies import MADE, spellings

WORDS = [
    *sorted({w for some in (*spellings().values(), *MADE.values()) for w in some}),
    "\n",
    ". ",
    ", ",
    "  ",
    "\t",
    '"',
]


def note_of(data: bytes) -> str:
    given = atheris.FuzzedDataProvider(data)
    if given.ConsumeBool():
        return given.ConsumeUnicode(400)
    return " ".join(WORDS[given.ConsumeIntInRange(0, len(WORDS) - 1)] for _ in range(given.ConsumeIntInRange(1, 40)))


def one(data: bytes) -> None:
    text = note_of(data)
    try:
        check(text)
    except Exception:
        print(f"NOTE {text!r}")
        raise


if __name__ == "__main__":
    known_words(), known_phrases()
    atheris.Setup(sys.argv, one)
    atheris.Fuzz()
