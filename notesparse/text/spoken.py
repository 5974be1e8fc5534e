"""Numbers in words: counts, ordinals, years, fractions."""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.text import numbers
from notesparse.text.net import Net
from notesparse.text.parts import and_fraction
from notesparse.text.words import after_plant

_COMMON = cue_page("shared")
_LISTED = cue_page("text/spoken")

_QUARTER = _LISTED.words("quarter")
_HEARD = _LISTED.table("heard", int)
_LONGEST = 8  # words in one number


def spoken(net: Net, i: int) -> None:
    """The number words at piece i, and what they begin."""
    w = net.at(i)
    ordinal = numbers.ordinal(w)
    if ordinal is not None:
        net.add(i, i + 1, "ORD", ordinal)
    _part_alone(net, i, w)
    if w in {"a", "couple"}:
        _a_couple(net, i, i + 1 if w == "a" else i)
    if w == "a":
        _a_part(net, i)
        return
    if w == "an" and net.at(i + 1) == "eighth":
        net.add(i, i + 2, "FRAC", Fraction(1, 8))
    if w in _HEARD and net.at(i + 1) == "and" and net.at(i + 2) == "a" and numbers.part(net.at(i + 3)):
        value = _HEARD[w] + Fraction(1, numbers.part(net.at(i + 3)))
        net.add(i, i + 4, "FRAC", value, 0.2, "sound")  # pods won and a half inch
    if w == "dozen":
        net.add(i, i + 1, "INT", 12)
    if w in {"nineteen", "twenty"}:
        _year(net, i, 1900 if w == "nineteen" else 2000)
    if numbers.is_number_word(w) or w == "oh" or (w == "point" and net.at(i - 1) != "pivot"):
        _run(net, i)
    if w == "point":
        _point_and_figures(net, i)


_BEFORE_A_POINT = _LISTED.words("before_a_point")


def _point_and_figures(net: Net, i: int) -> None:
    """`had point 6`, `1 point 25 in the gauge`, `group two point 9`, `1 point five cm`: a decimal of which only some figures
    were written as such."""
    behind = net.pieces[i + 1] if i + 1 < len(net.pieces) else None
    if behind is None or behind.glued:
        return
    figures = behind.text if behind.form == "int" else _figure(behind.text)
    if not figures or len(figures) > _MOST_PLACES:
        return
    whole = net.at(i - 1) if i else ""
    labelled = after_plant(net, i - 1)  # plant 3 | point 5 inch pods
    if labelled:
        whole = ""
    elif not whole.isdigit():
        whole = "" if numbers.is_number_word(net.at(i - 2)) or behind.form != "int" else _figure(whole)
    if whole and len(whole) <= _MOST_PLACES:
        net.add(i - 1, i + 2, "DEC", Fraction(f"{whole}.{figures}"))
        two = numbers.words_to_number((net.at(i), net.at(i + 1), net.at(i + 2))) if behind.form == "word" else None
        if two is not None:
            net.add(i - 1, i + 3, "DEC", int(whole) + two)  # 1 point two five
    elif behind.form == "int" and (labelled or net.at(i - 1) in _BEFORE_A_POINT):
        net.add(i, i + 2, "DEC", Fraction(f"0.{figures}"))


_MOST_PLACES = 2


def _figure(word: str) -> str:
    """The figures of a number in one word, ten and more too: `thirteen point 4`."""
    value = numbers.words_to_number((word,)) if numbers.is_number_word(word) else None
    return str(int(value)) if value is not None and value.denominator == 1 else ""


def _part_alone(net: Net, i: int, w: str) -> None:
    """half, half a, quarter, eighth."""
    if w == "half":
        behind = net.at(i + 1)
        if behind == "dozen":
            net.add(i, i + 2, "INT", 6)
        if behind == "a" and net.at(i + 2) == "dozen":
            net.add(i, i + 3, "INT", 6)
        net.add(i, i + 1, "FRAC", Fraction(1, 2))
        if behind in {"a", "an"}:
            net.add(i, i + 2, "FRAC", Fraction(1, 2), 0.05)
    if w in _QUARTER:
        net.add(i, i + 1, "FRAC", Fraction(1, 4))
    if (w in {"eighth", "8th"} and net.at(i + 1) in {"inch", "of", "in"}) or (w == "eighth" and net.at(i - 1) == "an"):
        net.add(i, i + 1, "FRAC", Fraction(1, 8))


_BEHIND_A_COUPLE = _COMMON.words("them")


def _a_couple(net: Net, i: int, k: int) -> None:
    if net.at(k) == "couple":
        if net.at(k + 1) == "of":
            net.add(i, k + 1, "INT", 2, 0.0, "couple")
            if net.at(k + 2) in _BEHIND_A_COUPLE:
                net.edges[i] = [e for e in net.edges[i] if e.kind != "SOMEW"]  # a couple | of them: two
        net.add(i, k + 2 if net.at(k + 1) in {"of", "a"} else k + 1, "INT", 2, 0.0, "couple")


def _a_part(net: Net, i: int) -> None:
    """a dozen, a pair, a half, a third of."""
    said = net.at(i + 1)
    if said == "dozen":
        net.add(i, i + 2, "INT", 12)
    if said == "half" and net.at(i + 2) == "dozen":
        net.add(i, i + 3, "INT", 6)  # a half dozen
        return
    if said == "pair":
        net.add(i, i + 2, "INT", 2)
    if said in {"half", "quarter"}:
        net.add(i, i + 2, "FRAC", Fraction(1, numbers.part(said) or 1))
    if said in {"eighth", "sixteenth"} and _of_an_inch(net, i + 2):
        net.add(i, i + 2, "FRAC", Fraction(1, numbers.part(said) or 16))  # a sixteenth of an inch
    if said in {"third", "fourth", "fifth"} and (net.at(i + 2) == "of" or _done_by_some(net, i + 2)):
        net.add(i, i + 2, "FRAC", Fraction(1, numbers.part(said) or 5))


def _of_an_inch(net: Net, k: int) -> bool:
    """`inch`, `of an inch`, `in.` at piece k."""
    k += net.at(k) == "of"
    k += net.at(k) in {"an", "a"}
    return net.at(k) in {"inch", "in"}


DOING = _COMMON.words("blooming") | {"emerged"}
_SOME = _COMMON.words("being_or_having") | {"open"}
_BORNE = _LISTED.words("borne")


def _done_by_some(net: Net, k: int) -> bool:
    """`blooming`, `are blooming`, `in bloom`, `are R5` at piece k: what a part of the plants does."""
    start = k
    while net.at(k) in _SOME:
        k += 1
    code = net.at(k + (net.at(k) == "at")) == "r" and net.at(k + 1 + (net.at(k) == "at")).isdigit()
    if code and (start < 4 or net.at(start - 3) in {"and", "but", ",", ".", ";"}):
        return True
    return (
        net.at(k) in DOING
        or (k > start and net.at(k) in _BORNE)
        or (net.at(k) == "in" and net.at(k + 1) in {"bloom", "flower", "blossom"})
    )


def _year(net: Net, i: int, century: int) -> None:
    """nineteen ninety four"""
    for k in (i + 3, i + 2):
        tail = numbers.words_to_number(tuple(net.at(x) for x in range(i + 1, k)))
        if tail is not None and tail.denominator == 1 and 10 <= tail <= 99:
            net.add(i, k, "YEAR", century + int(tail))
            return


def _run(net: Net, i: int) -> None:
    """Every number that the words from piece i on are."""
    run: list[str] = []
    j = i
    while j < len(net.pieces) and len(run) < _LONGEST:
        t = net.at(j)
        if t == "-" and run and net.glued(j):
            j += 1
            continue
        if net.pieces[j].form == "nl" or not (numbers.is_number_word(t) or t in {"and", "point", "oh"}):
            break
        run.append(t)
        j += 1
        value = numbers.words_to_number(tuple(run))
        if value is None:
            continue
        if value.denominator != 1:
            net.add(i, j, "DEC", value)
            continue
        net.add(i, j, "INT", int(value))
        if 1950 <= value <= 2099 and len(run) >= 3:
            net.add(i, j, "YEAR", int(value))
        _after_number(net, i, j, value, len(run))


def _after_number(net: Net, i: int, j: int, value: Fraction, words: int) -> None:
    """What may follow a spoken number of so many words: three sixteenths, twenty first, two dozen, one and a half."""
    k = j + 1 if net.at(j) == "-" and net.glued(j) else j
    behind = net.at(k)
    if words == 1:
        _part_of(net, i, j, k, value)
        ordinal = numbers.ordinal(behind)
        if ordinal is not None and ordinal < 10 and 20 <= value < 100 and value % 10 == 0:
            net.add(i, k + 1, "ORD", int(value) + ordinal)
    if behind == "dozen":
        net.add(i, k + 1, "INT", int(value) * 12)
    if behind == "hundred" and 10 < value < 100:
        net.add(i, k + 1, "INT", int(value) * 100)
    if behind == "and":
        and_fraction(net, i, j, value)


_FOR_PART_OF = _LISTED.words("for_part_of")
_FOR_PART_OF_2 = _LISTED.words("for_part_of_2")


def _part_of(net: Net, i: int, j: int, k: int, value: Fraction) -> None:
    """Three sixteenths: the word for the part stands at piece k, behind a number that ends at piece j."""
    said, then = net.at(k), net.at(k + 1)
    part = numbers.part(said)
    if not part or value >= part or (said == "eight" and then != "inch"):
        return
    if value == 1 and then in {"plant", "one"} and numbers.ordinal(said) is not None:
        return  # plant two only has one fourth plant has two: the fourth plant
    if said in _FOR_PART_OF and value > 1 and then not in _FOR_PART_OF_2:
        return
    if said in {"eights", "eight", "sixteens"}:
        net.add(i, k + 1, "FRAC", value / part, 0.2, "sound")
    elif said in _QUARTER and value > 1 and k == j:
        # three quarter inch pods: one size, or three pods of a quarter?
        net.add(i, k + 1, "FRAC", value / part, 0.0, "spoken quarter")
    else:
        net.add(i, k + 1, "FRAC", value / part)
