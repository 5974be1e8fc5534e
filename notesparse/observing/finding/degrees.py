"""How warm it was, with no word for degrees: `it's 84 out`, `91 outside today`, `94°` (guide 4.20).

No plant has so many leaves, so an `out` behind the number is the air, and no leaf that has opened.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding.findwords import Item
from notesparse.observing.finding.units import number, text_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/degrees")

_LEAST, _MOST = 30, 115  # more leaves than any plant has, and as warm as it gets
_IS = _LISTED.words("is")
_OUT = _LISTED.words("out")
_BEHIND = _LISTED.words("behind")
_SHADE = _LISTED.ordered("shade")


def outdoors(lattice: Lattice, i: int) -> tuple[Item, int] | None:
    """The degrees told at piece i, and where their words end."""
    many = number(lattice, i)
    if many is None or not isinstance(many.value, int) or not _LEAST <= many.value <= _MOST or not _led(lattice, i):
        return None
    end = many.end
    if tuple(text_at(lattice, end + x) for x in range(len(_SHADE))) == _SHADE:
        end += len(_SHADE)
    elif _signed(lattice, end):
        end += text_at(lattice, end) == "out"
    elif text_at(lattice, end) in _OUT:
        end += 1 + (text_at(lattice, end + 1) in {"here", "there"})
    else:
        return None
    if not (_over(lattice, end) or _signed(lattice, end) or text_at(lattice, end) in _BEHIND):
        return None  # 84 out of 90
    return Item("weather", "degrees", i, end, many.value, "degrees", head_end=end), end


def _signed(lattice: Lattice, i: int) -> bool:
    """`94°`: the sign stands right before piece i."""
    return lattice.text.startswith("°", lattice.pieces[i - 1].span.end)


def _led(lattice: Lattice, i: int) -> bool:
    """Nothing stands before it in its clause but that it is so warm."""
    return i == 0 or lattice.pieces[i - 1].form in {"mark", "nl"} or text_at(lattice, i - 1) in _IS


def _over(lattice: Lattice, i: int) -> bool:
    return i >= len(lattice.pieces) or lattice.pieces[i].form in {"mark", "nl"}
