"""Which field is meant by a name: the same name folded, or a name that was joined to it; names that look alike are asked."""

from __future__ import annotations

import re
import sqlite3

from rapidfuzz import fuzz

from notesparse.lazy import pattern

_ALIKE = 82.0  # of 100: from here on two names look alike
_SMALL = pattern(r"\b(the|field|fld|farm|piece of)\b")


def folded(name: str) -> str:
    """A name in small letters, without marks, articles and the word field: by it a field is known again."""
    words = re.sub(r"[^a-z0-9 ]+", " ", name.casefold().replace("'s", "s"))
    bare = " ".join(_SMALL.sub(" ", words).split()) or " ".join(words.split())
    return bare or name.casefold().strip()


def names(log: sqlite3.Connection) -> list[str]:
    """Every name that a field is shown under or was joined to another by."""
    shown_as = [str(row[0]) for row in log.execute("SELECT name FROM fields ORDER BY name")]
    there = {folded(name) for name in shown_as}
    return shown_as + [row[0] for row in log.execute("SELECT folded FROM names ORDER BY folded") if row[0] not in there]


def known(log: sqlite3.Connection, name: str) -> int | None:
    """The field that a name stands for, if it is known by this name."""
    row = log.execute("SELECT field FROM names WHERE folded = ?", (folded(name),)).fetchone()
    return int(row[0]) if row else None


def called(log: sqlite3.Connection, name: str, step: int) -> int:
    """The field of a name; a name that is not known makes a field of its own."""
    found = known(log, name)
    if found is not None:
        return found
    field = log.execute("INSERT INTO fields (name) VALUES (?)", (shown(name),)).lastrowid
    assert field is not None
    log.execute("INSERT INTO names (folded, field, step) VALUES (?, ?, ?)", (folded(name), field, step))
    return field


def shown(name: str) -> str:
    """`wagon gate`, `WAGON GATE`: shown as Wagon Gate."""
    name = " ".join(name.split())
    return name.title().replace("'S", "'s") if name in (name.lower(), name.upper()) else name


def look_alike(log: sqlite3.Connection) -> list[tuple[str, str]]:
    """Pairs of names of different fields that may be one field, and were never answered: the one with fewer visits
    first."""
    rows = log.execute(
        "SELECT n.folded, n.field, (SELECT count(*) FROM visits v WHERE v.field = n.field) AS visits FROM names n "
        "ORDER BY n.field, n.folded"
    ).fetchall()
    answered = {(row[0], row[1]) for row in log.execute("SELECT one, two FROM apart")}
    pairs: list[tuple[str, str]] = []
    for i, (old, old_field, old_visits) in enumerate(rows):
        for new, new_field, new_visits in rows[i + 1 :]:
            if old_field != new_field and alike(old, new) and tuple(sorted((old, new))) not in answered:
                pairs.append((new, old) if new_visits <= old_visits else (old, new))
    return pairs


def alike(one: str, two: str) -> bool:
    """Whether two folded names may be one: a slip of the hand or the ear, or one being the beginning of the other.

    Names that differ in a number, or in a point of the compass, are two fields.
    """
    if _telling(one) != _telling(two):
        return False
    squeezed = fuzz.ratio(one.replace(" ", ""), two.replace(" ", ""))
    return squeezed >= _ALIKE or one.startswith(f"{two} ") or two.startswith(f"{one} ")


def _telling(name: str) -> list[str]:
    far = {"north", "south", "east", "west", "n", "s", "e", "w", "upper", "lower", "big", "little", "home", "back"}
    return sorted(word for word in name.split() if word.isdigit() or word in far)


def join(log: sqlite3.Connection, name: str, to: str, step: int) -> int:
    """From now on `name` stands for the field `to`, another one; its visits go there. How many visits moved."""
    one, two = known(log, name), known(log, to)
    if one is None or two is None:
        raise KeyError(name if one is None else to)
    log.execute("UPDATE names SET field = ?, step = ? WHERE field = ?", (two, step, one))
    moved = log.execute("UPDATE visits SET field = ? WHERE field = ?", (two, one)).rowcount
    log.execute("DELETE FROM fields WHERE id = ?", (one,))
    return moved


def part(log: sqlite3.Connection, one: str, two: str) -> None:
    """Two names are two fields, however much they look alike: never asked again."""
    pair = sorted((folded(one), folded(two)))
    log.execute("INSERT OR IGNORE INTO apart (one, two) VALUES (?, ?)", pair)
