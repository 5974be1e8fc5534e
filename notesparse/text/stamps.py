"""Times of day at the heads of lines, as logs and message programs put them: `08:10  Pumphouse`, `0810 Pumphouse`, `[7/14,
8:32 AM] Hazel Bank`. They say when a line was written, and are no more than a blank. Common practice, no source."""

from __future__ import annotations

import re
from itertools import pairwise

from notesparse.lazy import pattern

_STAMP = pattern(
    r"""(?mx)^[ \t]*(?P<open>[\[(])?
        (?P<day>\d{1,2}/\d{1,2}(?:/\d{2,4})?,[ ]*)?
        (?P<clock>(?:[01]?\d|2[0-3]):[0-5]\d(?::[0-5]\d)?|(?:[01]\d|2[0-3])[0-5]\d(?=[ ,]))(?P<half>[ \u202f]?[ap]\.?m\b\.?|[ap]\b)?
        (?P<shut>[\])])?[ \t]*(?:[-|,:][ \t]*)?(?=(?P<word>[^\W\d_]+))""",
    re.IGNORECASE,
)
_COUNTED = pattern(
    r"(?:t|tf|tris?|trips?|trif\w*|trifol\w*|tl|lvs|leaves|leaf|nds?|nodes?|plants?|pl|fl|flowers?|blooms?|pods?|seeds?|beans?|mm|cm|in|inch\w*|brown|tan|green|ripe|tall|high|open|no|x)\Z",
    re.IGNORECASE,
)  # 1:10 tf is plant 1 with ten
_FEWEST = 2  # lines, where nothing else shows that these are times


def clock_stamps(text: str) -> list[tuple[int, int]]:
    """The stretches of a note that are such times, as offsets; a day beside the time is left to be read."""
    found = [m for m in _STAMP.finditer(text) if not _COUNTED.match(m["word"]) and bool(m["open"]) == bool(m["shut"])]
    if len(found) < _FEWEST or not _goes_on([m["clock"] for m in found]):
        found = [m for m in found if m["half"] or m["open"] or m["clock"].startswith("0")]
    out: list[tuple[int, int]] = []
    for m in found:
        if m["day"]:
            out += [m.span("open")] if m["open"] else []
            out.append((m.end("day") - len(m["day"]) + len(m["day"].split(",")[0]), m.start("word")))
        else:
            out.append((m.start(), m.start("word")))
    return out


def _goes_on(clocks: list[str]) -> bool:
    """Each is later than the one before it, and none is in the small hours."""
    minutes = [_minutes(c) for c in clocks]
    return minutes[0] >= 5 * 60 and all(a < b for a, b in pairwise(minutes))


def _minutes(clock: str) -> int:
    hours, minutes = clock.split(":")[:2] if ":" in clock else (clock[:2], clock[2:])
    return int(hours) * 60 + int(minutes)
