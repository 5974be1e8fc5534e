"""Numbers in figures: counts, ordinals, years, fractions, decimals."""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.text import numbers
from notesparse.text.net import Net
from notesparse.text.parts import and_fraction, fraction_end

_LISTED = cue_page("text/figures")
_COMMON = cue_page("shared")

_SLIPPED = _LISTED.words("slipped")
_AFTER_ORDINAL = _LISTED.words("after_ordinal")
_BESIDE_D = _LISTED.words("beside_d")
_TAILS = _COMMON.words("ordinal_tails")
_ROMAN = _LISTED.table("roman", int)
_ODD = frozenset({"1", "3", "5", "7", "9", "11", "13", "15"})


_BEHIND_FIGURES = _COMMON.words("parts_of_an_inch")


def figures(net: Net, i: int) -> None:
    """The whole number at piece i, and what it begins."""
    text, behind = net.pieces[i].text, net.at(i + 1)
    if len(text) >= 10:
        return
    value = int(text)
    _count_or_ordinal(net, i, value)
    if behind in {"k", "thousand"}:
        net.add(i, i + 2, "INT", value * 1000)
    fraction = fraction_end(net, i)
    if fraction:
        end, f, cost, how = fraction
        net.add(i, end, "FRAC", f, cost, how)
    _and_more(net, i, value)
    if len(text) == 2 and _short_year(net, i):
        net.add(i, i + 1, "YEAR", value)
    if len(text) == 2 and net.at(i - 1) == "'" and net.glued(i) and not net.glued(i - 1):  # Jul 20 '89
        net.add(i - 1, i + 1, "YEAR", value)
    if len(text) == 4 and 1950 <= value <= 2099:
        net.add(i, i + 1, "YEAR", value)
    if value in {1, 3} and behind in {"quarter", "quarters"}:
        how = "spoken quarter" if behind == "quarter" else "exact"
        net.add(i, i + 2, "FRAC", Fraction(value, 4), 0.1, how)
    if value < 16 and behind == "-" and net.at(i + 2) in _BEHIND_FIGURES:
        low = numbers.part(net.at(i + 2)) or 1
        if value < low:
            net.add(i, i + 3, "FRAC", Fraction(value, low), 0.1, "exact")


def _count_or_ordinal(net: Net, i: int, value: int) -> None:
    text, behind = net.pieces[i].text, net.at(i + 1)
    short = len(text) <= 2 and net.glued(i + 1)
    if behind in _SLIPPED and short and net.at(i + 2) in _AFTER_ORDINAL:
        net.add(i, i + 2, "ORD", value, 0.3, "near 0.50")  # 2md node down
    if behind == "d" and short and value % 10 in {2, 3} and net.at(i + 2) in _AFTER_ORDINAL | _BESIDE_D:
        net.add(i, i + 2, "ORD", value)  # 2d node down, 3d nd from top: the ordinal as it is shortened in old papers
    if behind not in _TAILS or not short:
        net.add(i, i + 1, "INT", value)
        return
    net.add(i, i + 2, "ORD", value)
    if behind == "nd" and value >= 4 and (value % 10 != 2 or value == 12) and net.at(i + 2) not in _AFTER_ORDINAL:
        net.add(i, i + 1, "INT", value)  # 14nd: no ordinal ends so, and nd is nodes
    if behind == "th" and value in {8, 16} and net.at(i - 1) in {"an", "a", "and"}:
        net.add(i, i + 2, "FRAC", Fraction(1, value), 0.2, "sound")


def _and_more(net: Net, i: int, value: int) -> None:
    """`1 1/4`, `1-1/4`, `1 and a half`."""
    at = i + 2 if net.at(i + 1) in {"-", "&", "and"} else i + 1
    if at < len(net.pieces) and value <= 40 and net.pieces[at].form == "int":
        more = fraction_end(net, at)
        if more and more[3] == "exact":
            net.add(i, more[0], "FRAC", value + more[1], 0.0, "exact")
    if value == 1 and at == i + 1 and net.at(at) == "half":
        net.add(i, at + 1, "FRAC", Fraction(1, 2), 0.1, "sound")  # one half, written 1 half
    elif net.at(at) in {"a", "one", "half"}:
        and_fraction(net, i, i + 1, Fraction(value))


def _short_year(net: Net, i: int) -> bool:
    """`14 Sep 10`, `AUG 26 92` at the end of a line or of a cell: two figures of a year."""
    pieces, after = net.pieces, net.piece(i + 1)
    if (
        after is not None
        and after.form != "nl"
        and after.gap < 2
        and not (after.form == "mark" and after.text in ".,;)")
    ):
        return False
    if i < 2 or pieces[i].glued:
        return False
    k = i - 1
    if pieces[k].text in {".", ","}:
        k -= 1
    if any(e.kind == "MONTH" for e in net.edges[k]):
        k -= 1
        return k >= 0 and (pieces[k].form == "int" or pieces[k].text in _TAILS)
    if pieces[k].form == "int" or pieces[k].text in _TAILS:
        k -= 1 if pieces[k].form == "int" else 2
        if k >= 0 and pieces[k].text == ".":
            k -= 1
        return k >= 0 and any(e.kind == "MONTH" for e in net.edges[k])
    return False


def roman(net: Net, i: int) -> None:
    """`Group III beans`, `MG IV`: maturity groups as the trade writes them. The word for the group stands right before."""
    value = _ROMAN.get(net.pieces[i].text)
    if (
        value is not None
        and i
        and any(e.kind == "GROUP" and e.end == i for k in range(max(0, i - 4), i) for e in net.edges[k])
    ):
        net.add(i, i + 1, "INT", value)


_LIKE_FIGURES = frozenset("ilo|")


_BEHIND_DECIMAL = _LISTED.words("behind_decimal")


def decimal(net: Net, i: int) -> None:
    """`2.5`, `1,200`, `R.3`, and `3.16ths` for a fraction."""
    p = net.pieces[i]
    if p.form == "big":
        net.add(i, i + 1, "INT", int(p.text.replace(",", "")))
        return
    if p.text.startswith(".") and i and p.glued and net.pieces[i - 1].text in {"r", "v"}:
        net.add(i, i + 1, "INT", int(p.text[1:]))  # R.3
        return
    if (
        p.text.startswith(".")
        and i
        and p.glued
        and len(net.pieces[i - 1].text) < 4
        and set(net.pieces[i - 1].text) <= _LIKE_FIGURES
    ):
        return  # I.9: the figure begins with a letter, and .9 is no part of it
    whole, _, tail = p.text.partition(".")
    value = Fraction("0" + p.text if p.text.startswith(".") else p.text)
    net.add(i, i + 1, "DEC", value, 0.6 if tail == "16" and whole in _ODD else 0.0)
    if tail in {"16", "8", "4"} and whole in _ODD and int(whole) < int(tail):
        end = i + 1
        if net.at(end) == "set" or (net.at(end) in _BEHIND_DECIMAL and net.glued(end)):
            end += 1
        if tail == "16" or end > i + 1:
            net.add(i, end, "FRAC", Fraction(int(whole), int(tail)), 0.3, "sound")
