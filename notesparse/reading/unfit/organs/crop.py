"""Beans and seed that are sown, bought, sold or driven past, and none in a pod."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import not_said_of_beans
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/crop")
_COMMON = cue_page("shared")
_LAND = _LISTED.words("land")


def of_a_bean_field(lattice: Lattice, p: Phrase) -> bool:
    """`two bean quarters`, `his bean fields`: what grows there, and no seed."""
    return text(lattice, p.end - 1) in {"bean", "soybean"} and text(lattice, p.end) in _LAND


_BEHIND_SOWN = _COMMON.words("planted") | {"dug"}
_BEHIND_SOWN_2 = _LISTED.words("behind_sown_2")


def sown(lattice: Lattice, p: Phrase) -> bool:
    """`Dug ten seeds: 7 still in the crook`, `Seed was 1.5 inches deep`: what was sown."""
    dug = any(e.kind == "SAMPLED" for e in lattice.edges[max(0, p.start - 2)]) and kinds(lattice, p.start - 1) & {"INT"}
    deep = any(text(lattice, i) in {"deep", "depth"} for i in range(p.end, min(p.end + 6, len(lattice.pieces))))
    behind = [text(lattice, p.end), text(lattice, p.end + 1)]  # maggots in some of the seed I dug
    up = behind[1] in _BEHIND_SOWN or behind[0] in _BEHIND_SOWN_2
    return bool(dug) or deep or up


_OF_TRADE = _LISTED.words("of_trade")


def of_the_trade(lattice: Lattice, p: Phrase) -> bool:
    """`paid the seed bill`, `the seed guy says`: seed that is bought; `beans there are 30 inch rows`: the crop; and none in
    a pod."""
    if text(lattice, p.end) in {"there", "here"} and text(lattice, p.end + 1) in {"are", "were", "is"}:
        return text(lattice, p.end - 1) == "beans"
    return text(lattice, p.end - 1) in {"seed", "bean"} and text(lattice, p.end) in _OF_TRADE


_FOR_SEED_OF_WEIGHT = _LISTED.words("for_seed_of_weight")


def seed_of_weight(lattice: Lattice, p: Phrase) -> bool:
    """`4 beans per sq ft`: on the ground, and none in a pod."""
    after = [text(lattice, p.end + x) for x in range(4)]
    area = bool(_FOR_SEED_OF_WEIGHT & set(after))
    return after[0] == "per" or (after[0] in {"to", "a", "in", "/"} and area)


_SACKS = _LISTED.words("sacks")


def in_sacks(lattice: Lattice, p: Phrase) -> bool:
    """`3 sacks of seed left`, `two units of seed`: for the planter, and none in a pod."""
    at = next((x for x in range(p.start, p.end) if kinds(lattice, x) & {"SEED", "BEAN"}), p.start)
    before = text(lattice, at - 2) if text(lattice, at - 1) == "of" else text(lattice, at - 1)
    return before in _SACKS


_BEHIND_COMING_ALONG = _LISTED.words("behind_coming_along")


def coming_along(lattice: Lattice, p: Phrase) -> bool:
    """`beans are coming along`, `beans coming on strong`: the crop, and no seed in a pod."""
    behind = _BEHIND_COMING_ALONG
    return text(lattice, p.end - 1) == "coming" and text(lattice, p.end) in behind


_MARKET = _LISTED.words("market")
_BOUGHT = _LISTED.words("bought")
_FOR_PRICED = _LISTED.words("for_priced")


def priced(lattice: Lattice, p: Phrase) -> bool:
    """`Beans 4.55 at elev.`, `sold beans at 11.15`: what they bring, and no seed of a plant."""
    if kinds(lattice, p.end) & {"MM", "CM", "INCH"}:
        return False
    at = next((x for x in range(p.start, p.end + 4) if _form(lattice, x) in {"int", "dec"}), None)
    if at is None or kinds(lattice, at + 1) & {"MM", "CM", "INCH"}:
        return False
    if any(_form(lattice, x) == "nl" or text(lattice, x) in {",", ";", "."} for x in range(p.start, at)):
        return False
    if not any(kinds(lattice, x) & {"BEAN", "SEED"} for x in range(max(0, p.start - 3), at)):
        return False
    figure = text(lattice, at)
    in_cents = "." in figure and len(figure.split(".")[1]) == 2 and float("0" + figure) >= 1
    head = p.start - 1
    while text(lattice, head) in _FOR_PRICED:
        head -= 1
    alone = _form(lattice, head) == "nl" or text(lattice, head) in {".", ";"} or head < p.start - 1
    placed = kinds(lattice, at + 1) & {"TOP", "NODE", "NODES", "ORD", "IN"}
    if in_cents and _form(lattice, at) == "dec" and alone and not placed:
        return True
    before = {text(lattice, x) for x in range(max(0, p.start - 3), p.start)}
    behind: set[str] = set()
    for x in range(at + 1, at + 5):
        if _form(lattice, x) in {"nl", "mark"}:
            break
        behind.add(text(lattice, x))
    return bool(behind & _MARKET) or bool(before & _BOUGHT) or text(lattice, at - 1) == "$"


def _form(lattice: Lattice, i: int) -> str:
    return lattice.pieces[i].form if 0 <= i < len(lattice.pieces) else "nl"


def of_the_crop(lattice: Lattice, p: Phrase) -> bool:
    """`bean is a 2.9`: a maturity group."""
    return p.path[0][1].kind == "BEAN" and p.path[-1][1].kind == "DEC" and not not_said_of_beans(lattice, p)


_TAKEN = _COMMON.words("looked") | _COMMON.words("pulled")
_BEHIND_THAT_WAS_PULLED = _LISTED.words("behind_that_was_pulled")


def that_was_pulled(lattice: Lattice, p: Phrase) -> bool:
    """`the one bean I pulled has 6 trifs`: a plant; `10 beans pulled, 6 with pods`: plants."""
    crop = any(e.kind == "BEAN" for _, e in p.path) and p.path[-1][1].kind != "POD"
    if crop and "SAMPLED" in kinds(lattice, p.end) and text(lattice, p.end) not in _BEHIND_THAT_WAS_PULLED:
        return True
    return text(lattice, p.end) in {"i", "we"} and text(lattice, p.end + 1) in _TAKEN
