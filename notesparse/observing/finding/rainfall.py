"""Rain told by its amount and its day, with no word for it: `we had six tenths saturday` (guide 4.20).

The trade says it so; the day behind it, and tenths or `we had` before it, leave no other sense.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding import units
from notesparse.observing.finding.findwords import Item
from notesparse.observing.finding.units import longest, text_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/rainfall")
_COMMON = cue_page("shared")

_SUBJECT = _LISTED.words("subject")
_HAD = _LISTED.words("had")
_LOOSE = _LISTED.words("loose")
_PARTS = _LISTED.words("parts")
_WHEN = _LISTED.words("when")
_BEFORE_A_DAY = _LISTED.words("before_a_day")
OF_A_DAY = _LISTED.words("of_a_day")
_MOST = 10  # inches in one rain


_FOR_FELL = _COMMON.words("none")


def fell(lattice: Lattice, i: int) -> tuple[Item, int] | None:
    """The rain that is told from piece i on, and its end."""
    k = i
    while text_at(lattice, k) in _SUBJECT | _LOOSE:
        k += 1
    k += text_at(lattice, k) in _HAD
    start, verb = _begins(lattice, k)
    had = verb != ""
    subject = text_at(lattice, start) in _SUBJECT
    while text_at(lattice, k) in _LOOSE:
        k += 1
    a = text_at(lattice, k) in {"a", "one"} and text_at(lattice, k + 1) in _PARTS
    length = units.length(lattice, k)
    many = None if a or length is not None else units.number(lattice, k)
    end = k + 2 if a else length.end if length is not None else many.end if many is not None else k
    value = 0.1 if a else length.value if length is not None else many.value if many is not None else None
    parts = a or any(text_at(lattice, j) in _PARTS for j in range(k, end))
    if isinstance(value, int) and length is None and text_at(lattice, end) in _PARTS:
        value, end, parts = value / (100 if text_at(lattice, end) == "hundredths" else 10), end + 1, True
    if text_at(lattice, k) in _FOR_FELL:
        value, end = 0, k + 1
    if not isinstance(value, int | float) or not 0 <= value <= _MOST:
        return None
    if length is not None and (length.unit != "in" or length.tall):
        return None
    gauge = _in_the_gauge(lattice, end)
    if gauge is not None:
        return Item("weather", "rain gauge", start, gauge, value, "in"), gauge
    if value == 0:
        return None
    whole = isinstance(value, int) and length is None
    opens = start == 0 or lattice.pieces[start - 1].form in {"mark", "nl"}
    told = (subject or opens) and had  # had .9" over wk end
    fell_so = not whole and (parts or told or verb in {"caught", "picked"}) and (had or parts)
    if fell_so and [text_at(lattice, j) for j in range(end, end + 3)] == ["of", "an", "inch"]:
        end += 3
    of_rain = text_at(lattice, end) == "of" and text_at(lattice, end + 1) == "rain"
    if not fell_so and not (of_rain and isinstance(value, float)):
        return None
    end += 2 * of_rain  # four tenths of rain
    when = _when(lattice, end)
    if of_rain:
        when = when or end
        return Item("weather", "rain", start, when, value, "in"), when
    if when is None:
        return None
    said = "An amount with its day and nothing named: inches of rain."
    return Item("weather", "rain", start, when, value, "in", assumed=said), when


_FOR_IN_THE_GAUGE = _COMMON.words("our") | {"that"}


def _in_the_gauge(lattice: Lattice, end: int) -> int | None:
    """`(.4) in the gauge`, `(six tenths) in my rain gauge`: where it ends; the `in` may have been taken for inches."""
    k = end + (text_at(lattice, end) in {"in", "on"})
    if text_at(lattice, k - 1) not in {"in", "on"} or text_at(lattice, k) not in _FOR_IN_THE_GAUGE:
        return None
    head = longest(lattice, k + 1, "WEATHER", sound=False)
    return head.end if head is not None and head.means == "rain gauge" else None


_WENT_ON = _LISTED.words("went_on")
_O_CLOCK = _COMMON.words("behind_an_hour")


def hour(lattice: Lattice, after: int, j: int, end: int) -> bool:
    """`rain quit about 8`, `rain around 4 this morning`: the number behind the rain that ends at piece `after` is a time
    of day, and no inches."""
    if end != j + 1:
        return False
    said = {text_at(lattice, k) for k in range(after, j)}
    behind = text_at(lattice, end)
    day = behind in {"this", "in", "yesterday"} and bool(
        {text_at(lattice, end + 1), text_at(lattice, end + 2)} & (OF_A_DAY - {"day", "week"})
    )
    before = text_at(lattice, j - 1)
    near = before in {"about", "around", "near"}
    return bool(said & _WENT_ON) or before in {"at", "by"} or behind in _O_CLOCK or (day and near)


def _begins(lattice: Lattice, k: int) -> tuple[int, str]:
    """Where the words before the amount begin, and their verb."""
    j = k - 1
    while text_at(lattice, j) in _LOOSE:
        j -= 1
    if text_at(lattice, j) not in _HAD:
        return k, ""
    verb = text_at(lattice, j)
    while text_at(lattice, j - 1) in _LOOSE | _SUBJECT:
        j -= 1
        if text_at(lattice, j) in _SUBJECT:
            break
    return j, verb


def _when(lattice: Lattice, k: int) -> int | None:
    """The end of the day that stands here: `saturday night`, `last night`, `on the 4th`, `since Monday`."""
    start = k
    while text_at(lattice, k) in _BEFORE_A_DAY | _WHEN:
        k += 1
    day = longest(lattice, k, "WEEKDAY", "TODAY", "YESTERDAY", "MONTH", sound=False)
    if day is None and k > start and text_at(lattice, k - 1) == "the":
        day = longest(lattice, k, "ORD", sound=False)
    if day is not None:
        k = day.end
        k += text_at(lattice, k) in OF_A_DAY
        return k
    if k > start and text_at(lattice, k) == "wk" and text_at(lattice, k + 1) == "end":
        return k + 2
    if k > start and text_at(lattice, k) in OF_A_DAY:
        return k + 1
    return k if k > start and text_at(lattice, k - 1) == "overnight" else None
