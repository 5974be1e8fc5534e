"""Where a field is named. A name may be any words, so it is found by where it stands and by what follows it, before the
phrases are chosen: `River 3`, `R4 Road` and `Lower Thirty` must not be read as counts and stages.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from notesparse.language.lists import name_words, odd_name_words
from notesparse.observing.naming.oddnames import odd, odd_name
from notesparse.reading.parse import Phrase, phrase_cost
from notesparse.text.lattice import Lattice

_LONGEST = 5
_HEADER = {"date": 2.5, "planted": 2.0, "emerged": 2.0, "maturity": 2.0, "rows": 1.8, "stop": 2.0, "variety": 1.5}
_CONTENT = {
    "label": 2.0,
    "trif": 1.5,
    "nodes": 1.2,
    "flowers": 1.2,
    "pods": 1.2,
    "seeds": 1.0,
    "stage": 1.6,
    "ratio": 1.5,
    "percent": 1.5,
    "podshare": 1.2,
    "call": 1.0,
    "average": 1.0,
    "findhead": 1.0,
    "sampled": 1.6,
    "topleaf": 1.0,
    "emergence": 0.8,
    "past": 0.6,
    "moisture": 0.8,
    "lots": 1.7,
    "state": 0.5,
    "notvisited": 2.0,
    "place": 0.3,
    "height": 0.6,
    "length": 0.2,
    "where": 0.2,
    "group": 0.5,
}
_NAMEY = {"FIELDNOUN", "COMPASS"}
_ORGANIC = frozenset(
    {"BEAN", "INCH", "MM", "CM", "POD", "SEED", "FLOWER", "TRIF", "NODE", "NODES", "SCAR", "UNI", "COT"}
)
_SAYING = {
    "FLAT",
    "POD",
    "FLOWER",
    "SEED",
    "ALMOST",
    "NOT",
    "NO",
    "PLANCUE",
    "PASTCUE",
    "NEIGHBOR",
    "OTHERFIELD",
    "CORRECT",
    "TAKEBACK",
    "NOTVISITED",
}
_COUNTS = {"trif", "nodes", "flowers", "pods", "seeds", "height", "length", "percent", "ratio", "rows"}
_FOUND = frozenset({"INSECT", "DISEASE", "WEED", "DAMAGE", "DEFOL", "STANDWORD", "SOILWORD", "WEATHER"})


@dataclass(frozen=True, slots=True)
class Name:
    """A field name at pieces [start, end). `seen` is False where the field was not looked at; `cue` is where it stands."""

    start: int
    end: int
    text: str
    cue: str  # note, line, sentence, comma, field, go, date, again, was
    seen: bool = True
    cue_start: int = 0


class Names:
    """Finds the names of one note."""

    def __init__(
        self,
        lattice: Lattice,
        phrases: list[list[Phrase]],
        bare: set[int],
        table_lines: set[int],
        lists: frozenset[int] = frozenset(),
    ) -> None:
        self.lattice = lattice
        self.words = name_words()
        self.phrases = phrases
        self.pieces = lattice.pieces
        self.bare = bare
        self.table_lines = table_lines
        self.lists = lists  # pieces where values of several plants begin
        self.n = len(self.pieces)
        self.shouted = lattice.text.upper() == lattice.text and lattice.text.lower() != lattice.text
        self.cased = not self.shouted and (
            lattice.text[:1].isupper()
            or any(lattice.text[m.end()].isupper() for m in re.finditer(r"[.\n] *(?=[A-Za-z])", lattice.text))
        )
        self.found: list[Name] = []

    # what stands at a piece --------------------------------------------------------------------------------------

    def _kinds(self, i: int) -> set[str]:
        return {e.kind for e in self.lattice.edges[i] if e.end == i + 1}

    def starts(self, i: int) -> tuple[float, str | None]:
        """How strongly an observation or a header value begins at piece i, and its rule."""
        best, rule = 0.0, None
        if i in self.bare or i in self.lists:
            return 2.0, "label"
        for p in self.phrases[i]:
            worth = _HEADER.get(p.rule, _CONTENT.get(p.rule, 0.0))
            if p.form in {"ord_day", "weekday", "next_one", "n_plants", "see_alone", "small_alone", "ord_down"}:
                worth *= 0.5
            if (p.form == "plant_ord" and not any(e.kind == "PLANT" for _, e in p.path)) or p.form == "bare_top":
                worth *= 0.4
            if p.form in {"today", "yesterday", "today_ord"}:
                worth *= 0.6
            worth -= 0.6 * max(0.0, phrase_cost(p) - 1.0)
            if worth > best:
                best, rule = worth, p.rule
        return best, rule

    def _pass_fillers(self, i: int, marks: str = ":-,–=") -> int:
        while i < self.n and self.pieces[i].form != "nl":
            p = self.pieces[i]
            if p.text in self.words.the_crop and (i + 1 >= self.n or self.pieces[i + 1].form in {"mark", "nl"}):
                i += 1  # Coldspring beans: the crop
                continue
            longer = max((e.end for e in self.lattice.edges[i] if e.kind == "FILLER"), default=0)
            if p.form == "mark" and (p.text in marks or not p.text.isascii() or p.text in "()*>"):
                i += 1
            elif self._kinds(i) & _NAMEY and i + 1 < self.n and "FIELDNOUN" in self._kinds(i + 1):
                break
            elif (
                p.text == "back"
                and i + 1 < self.n
                and (self.pieces[i + 1].form == "int" or "FIELDNOUN" in self._kinds(i + 1))
            ):
                break  # Back 30
            elif longer > i:
                i = longer
            elif self.lattice.filler[i] and self.starts(i)[0] < 1.2:
                i += 1
            else:
                break
        return i

    def _word_worth(self, i: int, first: bool) -> float | None:
        p = self.pieces[i]
        if p.form == "mark":
            if p.text == "." and self.lattice.soft[i] is not None and i + 1 < self.n and self._kinds(i + 1) & _NAMEY:
                return 0.0
            if p.text == "-" and p.glued:
                return -0.1
            return None
        if p.form in {"nl", "dec", "big", "dmy"}:
            return None
        kinds = self._kinds(i)
        if first and p.text in self.words.of_the_form:
            return None
        if "FIELDNOUN" in kinds and kinds & {"INT", "ORD"}:
            return 0.3
        if kinds & _NAMEY:
            return 2.0 if "FIELDNOUN" in kinds else 0.8
        if p.form == "int":
            return 0.0
        if p.text in {"'s", "s"}:
            return 0.0
        if not first and self.pieces[i - 1].text == "'s" and self._capital(i):
            return 0.5  # Weaver's Rest
        if first and p.text == "the":
            return 0.3
        if first and (
            p.text in self.words.never_first
            or ("PLANT" in kinds and not self.lattice.original(i, i + 1)[:1].isupper())
            or p.text in odd_name_words().done
        ):
            return None
        if (
            first
            and (
                kinds & {"OTHERCROP", "NEIGHBOR", "OTHERFIELD"}
                or any(e.kind in {"NEIGHBOR", "OTHERFIELD"} for e in self.lattice.edges[i])
            )
            and not (
                i + 1 < self.n
                and (
                    "FIELDNOUN" in self._kinds(i + 1)
                    or (
                        not self.lattice.known[i + 1]
                        and self.pieces[i + 1].form == "word"
                        and not self.lattice.filler[i + 1]
                    )
                )
            )
        ):
            return None
        if first and any(e.end > i + 1 and e.how == "exact" and e.kind in _SAYING for e in self.lattice.edges[i]):
            return None  # knocking on R3
        if (
            first
            and self.lattice.filler[i]
            and p.text in self.words.before_a_noun
            and i + 1 < self.n
            and ("FIELDNOUN" in self._kinds(i + 1) or self.pieces[i + 1].form == "int")
        ):
            return 0.8  # back forty
        if (
            first
            and "ORD" in kinds
            and not any("FIELDNOUN" in self._kinds(x) for x in range(i + 1, min(i + 3, self.n)))
        ):
            return None
        if (
            first
            and kinds & {"OTHERCROP"}
            and i + 1 < self.n
            and "FIELDNOUN" in self._kinds(i + 1)
            and all(self.lattice.original(x, x + 1)[:1].isupper() for x in (i, i + 1))
        ):
            return 0.5  # Barley Island
        number = kinds & {"INT", "ORD"}
        if kinds & {"MONTH", "WEEKDAY", "TODAY", "YESTERDAY"} and "may" != p.text:
            return None if first else -2.5
        if kinds & {"PCT", "NUMBERW", "PLANT"} and not first:
            return None
        if any(e.kind in _ORGANIC and e.how == "exact" for e in self.lattice.edges[i]) and not (
            first and i + 1 < self.n and "FIELDNOUN" in self._kinds(i + 1) and self._title(i, i + 2)
        ):  # Seed House
            return None
        if number:
            return -0.35
        if self.lattice.filler[i]:
            return -0.2 if p.text in self.words.inside and not first else None
        exact = {e.kind for e in self.lattice.edges[i] if e.end == i + 1 and e.how == "exact"} - {"LETTER"}
        if exact:
            if first and exact & {
                "GOCUE",
                "NEXT",
                "NO",
                "NOT",
                "NONE",
                "SAME",
                "SAMEAS",
                "ALMOST",
                "OVERALL",
                "CALLING",
                "AVERAGE",
                "MOST",
                "EARLY",
                "HEDGE",
                "ONLY",
                "STILL",
                "CORRECT",
                "TAKEBACK",
                "PASTCUE",
                "PLANCUE",
                "MIL",
                "NOTVISITED",
                "SKIPIT",
                "LOTS",
                "HALF",
                "ALLOF",
                "NONEOF",
                "REST",
                "DITTO",
                "EMERGED",
                "COT",
                "UNI",
            }:
                return None
            capital = self._capital(i)
            if not first and exact & {"OVERALL", "CALLING", "AVERAGE", "LOTS", "MOST"}:
                return None
            if not first and exact & {"PLANCUE", "PASTCUE"} and not capital and self.cased:
                return None  # Dad says R3
            return (
                -0.2
                if exact <= {"WHEREWORD", "LOW", "TOP", "UPTOP", "LONG", "BRANCH", "TIP", "WEATHER", "DAMAGE", "WEED"}
                and (capital or not first)
                else -1.0
            )
        return 1.0  # a word of no trade meaning (a near word is no meaning)

    def _title(self, i: int, j: int) -> bool:
        words = [
            self.lattice.original(k, k + 1)
            for k in range(i, j)
            if self.pieces[k].form == "word" and self.pieces[k].text not in {"'s", "s", "the", "of"}
        ]
        return bool(words) and all(w[0].isupper() for w in words) and self._tells(i)

    def _capital(self, i: int) -> bool:
        return self.lattice.original(i, i + 1)[:1].isupper() and self._tells(i)

    def _tells(self, i: int) -> bool:
        """A capital says something; in a page all in capitals only at a line's head."""
        return not self.shouted or i == 0 or self.pieces[i - 1].form == "nl"

    # one site -----------------------------------------------------------------------------------------------------

    def best_at(self, i: int, site: str, bonus: float) -> tuple[float, Name] | None:
        """The best name that begins at piece i."""
        best: tuple[float, Name] | None = None
        if i in self.bare and self.pieces[i].form == "word" and len(self.pieces[i].text) > 1:
            return None  # bean A
        worth, words, unknown, nouns = 0.0, 0, 0.0, 0
        j = i
        while j < self.n and words < _LONGEST:
            if j > i and self.pieces[j].gap >= 3:
                break  # a name never runs over to the next cell of a page
            w = self._word_worth(j, j == i)
            if w is None:
                break
            if j in self.bare and j > i:
                break
            if j == i and self.pieces[j].form == "int":
                glued_letter = (
                    j + 1 < self.n
                    and self.pieces[j + 1].glued
                    and self.pieces[j + 1].form == "word"
                    and len(self.pieces[j + 1].text) == 1
                    and self.pieces[j + 1].text not in {"t"}
                )
                noun_next = j + 1 < self.n and "FIELDNOUN" in self._kinds(j + 1)
                if site not in {"note", "line", "go", "field", "date"} or any(
                    p.rule == "rows" for p in self.phrases[j]
                ):
                    noun_next = glued_letter = False
                if not (glued_letter or noun_next):
                    break
                if glued_letter:
                    w = 1.2
            if w == 0.3 and words >= 1 and "FIELDNOUN" in self._kinds(j):
                nouns += 1
            if w == 2.0 or (w == 0.8 and words >= 1 and self.pieces[j].text in self.words.compass):
                nouns += 1
            if (
                j == i + 1
                and self.pieces[j].form == "int"
                and ("COMPASS" in self._kinds(i) or self.pieces[i].text == "back")
            ):
                nouns += 1  # Back 30
            if w == 1.0:
                unknown += 1
                w = 1.0 if unknown <= 2 else 0.0
            worth += w
            if self.pieces[j].form != "mark":
                words += 1
            j += 1
            if self.pieces[j - 1].form == "mark":
                continue
            if self.pieces[j - 1].text == "the" and j == i + 1:
                continue
            if (
                j + 1 < self.n
                and self.pieces[j].text == "-"
                and self.pieces[j].glued
                and self.pieces[j + 1].glued
                and self.pieces[j + 1].form == "word"
            ):
                continue  # drive-by
            score = self._judge(i, j, worth, words, nouns, site, bonus)
            if score is not None and (best is None or score > best[0]):
                best = (score, Name(i, j, "", site))
        return best

    def _judge(self, i: int, j: int, worth: float, words: int, nouns: int, site: str, bonus: float) -> float | None:
        if (
            not nouns
            and any(e.kind in {"R", "V"} for e in self.lattice.edges[i])
            and any(p.rule == "stage" for p in self.phrases[i])
        ):
            return None
        if (
            site in {"sentence", "comma"}
            and not self._title(i, j)
            and any(self.pieces[x].text in self.words.relations for x in range(i + 1, j))
        ):
            return None  # combination on the gate
        if (
            words == 1
            and not nouns
            and len(self.pieces[j - 1].text) <= 2
            and self.pieces[j - 1].form == "word"
            and site != "field"
        ):
            return None
        if not nouns and any(
            p.end == j
            and p.rule in {"stage", "trif", "nodes", "label", "flowers", "pods", "emergence"}
            and phrase_cost(p) < 1.8
            for p in self.phrases[i]
        ):
            return None  # a stage or a count is no name: R3, B4
        if any(
            p.end >= j
            and (
                p.rule in {"planted", "emerged"}
                or p.form == "plant_ord"
                or (p.rule == "rows" and p.path[0][1].kind == "ROWWORD")
            )
            and phrase_cost(p) < 1.8
            for p in self.phrases[i]
        ):
            return None  # drilled 5/4, third plant
        if j >= self.n or all(self.pieces[x].form in {"mark", "nl"} for x in range(j, self.n)):
            if site not in {"field", "fieldno"}:
                return None  # nothing is said of it
        solid = any(
            ("FIELDNOUN" in self._kinds(x) and not self._kinds(x) & {"INT"}) or not self.lattice.known[x]
            for x in range(i, j)
        )
        solid = solid or (
            bool(nouns)
            and words >= 2
            and ("COMPASS" in self._kinds(i) or self.pieces[i].text in self.words.before_a_noun)
        )
        solid = solid or (site == "go" and bonus > 0.5 and i >= 2 and self.pieces[i - 1].text == "at")
        if site in {"go", "comma", "sentence"} and not solid and not self._title(i, j):
            return None
        if site not in {"field", "go"} and any(
            e.kind in {"INSECT", "DISEASE"}
            and e.how == "exact"
            and (e.end > j or (e.end == j and words > 1 and site == "line"))
            for e in self.lattice.edges[i]
        ):
            return None  # stink bug
        if (
            words > 1
            and site in {"sentence", "comma", "go"}
            and any(
                e.end == j and e.kind in {"WEED", "INSECT", "DISEASE", "DAMAGE", "OTHERFIND", "WEATHER"}
                for e in self.lattice.edges[i]
            )
        ):
            return None
        if any(e.kind == "WHEREWORD" and e.end == j for e in self.lattice.edges[i]) and (
            site not in {"field", "go", "note"} or self.pieces[i].text in self.words.compass
        ):
            return None
        if (
            site != "field"
            and any(e.how.startswith("near") and e.kind in _FOUND for x in range(i, j) for e in self.lattice.edges[x])
            and any(
                self.pieces[x].form == "int" and x + 1 < self.n and self.pieces[x + 1].text in {"per", "/"}
                for x in range(i, j)
            )
        ):
            return None  # aphdis 150 per plnat
        if (
            j < self.n
            and self.pieces[j].text == "/"
            and self.pieces[j - 1].form == "int"
            and any("SWEEP" in self._kinds(x) or "FOOT" in self._kinds(x) for x in range(j + 1, min(j + 4, self.n)))
        ):
            return None  # SB 3/25sw
        if self.pieces[j - 1].text in self.words.never_last and words > 1:
            return None
        if words > 2 and not nouns and self.cased and site in {"note", "line", "sentence"} and not self._title(i, j):
            return None  # Truck broke down.
        if any(
            e.how == "exact" and e.kind in _FOUND and e.end > j for x in range(i + 1, j) for e in self.lattice.edges[x]
        ):
            return None  # Osprey Bend stink | bugs
        if (site in {"sentence", "comma"} or (self.pieces[i].text == "the" and site != "field")) and any(
            e.kind in {"WEED", "INSECT", "DISEASE"}
            and e.how == "exact"
            and not self.lattice.original(x, x + 1)[:1].isupper()
            for x in range(i, j)
            for e in self.lattice.edges[x]
        ):
            return None  # The waterhemp along the lane
        title = self._title(i, j)
        lone = site == "sentence" and words == 1
        if lone:  # every sentence begins with a capital
            title = False
            if self.cased and not self._capital(i):
                return None
            if (
                any(e.how == "exact" and e.kind not in {"LETTER", "FIELDNOUN"} for e in self.lattice.edges[i])
                or self.lattice.filler[i]
            ):
                return None
        k = j
        stop = False
        after = self._pass_fillers(k)
        lone_number = all(
            self.pieces[x].form in {"int"} or self._kinds(x) & {"INT"}
            for x in range(i, j)
            if self.pieces[x].text != "the"
        )
        if (lone_number and self.pieces[i].text != "the") or (
            any(
                e.kind == "ORD" and e.end == j for e in self.lattice.edges[j - 2 if self.pieces[j - 1].glued else j - 1]
            )
            and (j - i <= 2 + self.pieces[j - 1].glued)
            and not nouns
            and site != "field"
        ):
            return None  # the 13th
        if any(e.end > j and e.kind in {"ORD", "INT", "DEC", "FRAC"} for e in self.lattice.edges[j - 1]):
            worth -= 1.5  # the name would cut a number in two
        if (
            any(self._kinds(j - 1) & {x} for x in ("INT", "ORD"))
            and j < self.n
            and (
                self._kinds(j) & {"TRIF", "TRIPS", "NODES", "PCT", "SAMPLED", "OF", "OUTOF"}
                or self.pieces[j].text in {"plants", "plts"}
            )
        ):
            return None
        if j < self.n and self.pieces[j].text == "'s" and not (nouns or (title and words >= 2)):
            return None
        if self.pieces[i].text == "the" and j == i + 2 and self._kinds(i + 1) & {"INT"}:
            worth += 1.0
            nouns = 1
        first_capital = self._capital(i)
        score = worth + bonus + (0.8 if title else 0.4 if first_capital else 0.0) - 0.25 * max(0, words - 3)
        if after >= self.n:
            follow = 0.4 if site in {"field", "go"} else -2.0
            if nouns and site != "sentence":
                follow = 0.4
        elif self.pieces[after].form == "nl" or (self.pieces[after].text in ".;" and self.lattice.soft[after] is None):
            nl = self.pieces[after].form == "nl"
            nxt = after + 1
            while nxt < self.n and self.pieces[nxt].form == "nl":
                nxt += 1
            nxt = self._pass_fillers(nxt)
            strength = self.starts(nxt)[0] if nxt < self.n else 0.0
            if nl and self._line(nxt) in self.table_lines:
                strength = 2.0
            if site == "go" and bonus <= 0.5 and not title:
                return None
            if strength >= 1.0:
                follow = 0.9
                if site == "sentence" and not (title or nouns):
                    return None
            elif site == "sentence" and nouns and first_capital and not nl and self._early(i) and self._alone(i):
                follow = 0.6
            elif site == "note" and (title or nouns):
                follow = 0.3
            elif (site == "field" and (nouns or title)) or (site == "go" and (title or (nouns and bonus > 0.5))):
                follow = 0.3
            else:
                return None
            stop = True
            if not (title or nouns or site in {"field", "note"}) and strength < 1.5:
                return None
        else:
            strength, rule = self.starts(after)
            glued_mark = any(self.pieces[x].text in ":-" for x in range(j, after))
            if strength <= 0.3:
                comma = j < self.n and self.pieces[j].text in ",:(-"
                if comma and (title or nouns) and site in {"note", "line", "date", "field", "go"}:
                    follow = 0.3
                elif (site == "field" and (nouns or title)) or (site == "go" and (title or (nouns and bonus > 0.5))):
                    follow = 0.0
                elif title and words >= 2 and site == "note":
                    follow = -0.3
                elif site == "note" and nouns and title:
                    follow = 0.0
                else:
                    return None
            else:
                follow = strength + (0.4 if glued_mark else 0.0)
                if (
                    site == "note"
                    and not nouns
                    and not glued_mark
                    and j < self.n
                    and (self.pieces[j].text not in ",:.-" or (words == 1 and not first_capital))
                    and strength < 1.5
                    and (words == 1 or not title)
                ):
                    return None  # unknown words before a weak beginning: no name
                if (
                    site == "go"
                    and bonus <= 0.5
                    and not title
                    and rule not in {"date", "label", "stage", "stop", "planted", "sampled"}
                ):
                    return None
                if lone and rule not in {"date", "label", "ratio", "stage", "sampled", "stop", "percent"}:
                    return None
                if (
                    site in {"sentence", "comma", "date"}
                    and not (title or nouns)
                    and rule not in {"date", "label", "ratio", "stage", "sampled", "stop"}
                ):
                    return None
                if rule in {"past", "moisture", "where", "findhead", "state", "place", "length", "height"} and not (
                    title or nouns
                ):
                    return None
        del stop
        return score + follow

    def _early(self, i: int) -> bool:
        """Within the first sentences of the note: where a name may stand alone."""
        return sum(1 for k in range(i) if self.pieces[k].text == "." and self.lattice.soft[k] is None) <= 2

    def _alone(self, i: int) -> bool:
        return i == 0 or self.pieces[i - 1].text == "." or self.pieces[i - 1].form == "nl"

    def _line(self, i: int) -> int:
        return sum(1 for p in self.pieces[:i] if p.form == "nl")

    def find(self) -> list[Name]:
        """All names, in order."""
        pieces = self.pieces
        i = 0
        last_end = -1
        sites: list[tuple[int, str, float, int]] = []
        fresh = True  # at a line's or sentence's beginning
        site = "note"
        blocked = False  # after another crop's or a neighbour's name, to the end of the sentence
        head = 0  # where the words of this clause begin, after fillers
        while i < self.n:
            p = pieces[i]
            if p.form == "nl":
                fresh, site, blocked = True, "line", False
                i += 1
                continue
            if p.text in ".;!?" and self.lattice.soft[i] is None and p.form == "mark":
                fresh, site, blocked = True, "sentence", False
                i += 1
                continue
            kinds = {e.kind: e for e in sorted(self.lattice.edges[i], key=lambda e: e.end)}
            if "OTHERCROP" in kinds or "NEIGHBOR" in kinds or "OTHERFIELD" in kinds:
                blocked = True
            cue_end = kinds["FIELDCUE"].end if "FIELDCUE" in kinds else 0
            covered = any(
                e.kind in {"OVERALL", "CALLING", "SKIPIT"} and e.end >= cue_end for e in self.lattice.edges[i]
            )
            if p.text == ",":
                head = i + 1
            if fresh:
                k = self._pass_fillers(i, ":-,–=()#")
                if i in self.bare:
                    k = i
                head = k
                if k < self.n and pieces[k].form != "nl":
                    bonus = {"note": 1.5, "line": 0.6, "sentence": 0.0}[site]
                    sites.append((k, site, bonus, i))
                    if k != i and not blocked and pieces[i].text == "the":
                        sites.append((i, site, bonus, i))
                    # a date at the head, then the name
                    for ph in self.phrases[k]:
                        if ph.rule in {"date"} and ph.form not in {"ord_day", "weekday"}:
                            d = self._pass_fillers(ph.end)
                            sites.append((d, "date", 1.0, d))
                fresh = False
            if "FIELDCUE" in kinds and not any(
                e.kind in {"OVERALL", "CALLING"}
                for k in range(max(0, i - 4), i + 1)
                for e in self.lattice.edges[k]
                if e.end > i and e.end >= cue_end
            ):
                e = kinds["FIELDCUE"]
                k = self._pass_fillers(e.end, ":-?=")
                strength = 2.5
                at_int = e.end
                while at_int < min(self.n, e.end + 2) and pieces[at_int].text in self.words.number_signs:
                    at_int += 1
                past = self._number_end(at_int)
                if past is not None and e.means == "field" and pieces[i].text in {"field", "fld"}:
                    if not any(
                        len(q.path) > 1
                        and q.path[1][0] == past
                        and q.rule in _COUNTS
                        and not (q.form == "n_plants" and q.end < self.n and pieces[q.end].form == "int")
                        for q in self.phrases[at_int]
                    ) and (not i or pieces[i - 1].text != "the"):
                        sites.append((i, "fieldno", 3.0, i))  # field 6, and not `middle of the field: 13 nodes`
                    if pieces[at_int].form == "word" and past < self.n and pieces[past].form == "word":
                        sites.append((k, "field", strength, i))  # field: Nine Mile
                elif pieces[e.end - 1].text in self.words.asking_for_a_name and not (
                    e.end < self.n and (pieces[e.end].text in ":?" or e.end - i >= 2)
                ):
                    if k < self.n:
                        sites.append((k, "fieldword" if i <= head else "fieldtalk", 1.0, i))
                elif k < self.n:
                    sites.append((k, "field", strength, i))
            if (
                covered
                and p.text in {"field", "fld"}
                and i + 2 < self.n
                and pieces[i + 1].text in {"=", ":", "?"}
                and odd(self.lattice, i + 2)
            ):
                sites.append((i + 2, "field", 2.5, i))  # FIELD = Teakettle
                covered = False
            if "NOTVISITED" in kinds and not covered:
                blocked = True
            if "GOCUE" in kinds and (
                not blocked or (kinds["GOCUE"].end - i >= 2 and p.text not in self.words.standing)
            ):
                e = kinds["GOCUE"]
                k = e.end
                strong = 0.9 if pieces[i].text not in self.words.weakly_going else 0.3
                if k < self.n and pieces[k].text == "the":
                    sites.append((k + 1, "go", strong, i))
                sites.append((k, "go", strong, i))
            if covered:
                sites = [s for s in sites if s[0] != i and s[3] != i]
                if p.text in {"field", "fld"} and i + 2 < self.n and pieces[i + 1].text in {"is", "'s", "was"}:
                    sites.append((self._pass_fillers(i + 2), "fieldtalk", 1.0, i))
            if "NOTVISITED" in kinds and not covered:
                e = kinds["NOTVISITED"]
                sites.append((self._pass_fillers(e.end), "skip", 4.5, i))
            if p.text == "," and not blocked and i + 1 < self.n:
                sites.append((i + 1, "comma", -0.3, i + 1))
            i += 1
        taken: list[tuple[float, Name]] = [(9.0, name) for name in self._leaders()]
        for at, kind, bonus, cue_start in sites:
            if at >= self.n or pieces[at].form == "nl":
                continue
            found = self._site(at, kind, bonus, cue_start)
            if found:
                taken.append(found)
            if kind in {"note", "line", "date"}:
                end = odd_name(self.lattice, at, set_off_only=kind == "line" and not self._title(at, at + 1))
                if end is not None:
                    taken.append(
                        (3.1, Name(at, end, " ".join(self.lattice.original(at, end).split()), kind, True, cue_start))
                    )
        taken.sort(key=lambda t: (-t[0], t[1].start))
        used: set[int] = set()
        chosen: list[Name] = []
        for score, name in taken:
            need = {
                "note": 2.6,
                "line": 3.0,
                "sentence": 2.6,
                "comma": 3.6,
                "go": 2.7,
                "field": 2.5,
                "skip": 1.5,
                "date": 2.6,
                "fieldno": 0,
            }[name.cue]
            if score < need or used & set(range(name.start, name.end)):
                continue
            used |= set(range(name.start, name.end))
            chosen.append(name)
        del last_end
        chosen.sort(key=lambda nm: nm.start)
        chosen = self._like_the_first(chosen)
        chosen = self._again(chosen, used)
        self.found = chosen
        return chosen

    def _like_the_first(self, chosen: list[Name]) -> list[Name]:
        """Where the first name of a page is written with capitals, what stands later without them is no name
        (Rotary hoed June 10; back to the flags), unless a word for a field is in it."""
        if not chosen or chosen[0].cue not in {"note", "date"} or not self._title(chosen[0].start, chosen[0].end):
            return chosen
        return [
            chosen[0],
            *(
                name
                for name in chosen[1:]
                if name.cue in {"field", "fieldno", "skip", "comma"}
                or self._title(name.start, name.end)
                or any("FIELDNOUN" in self._kinds(k) for k in range(name.start, name.end))
            ),
        ]

    def _leaders(self) -> list[Name]:
        """`Candle Hill ........ R4`: what stands before a row of dots at a line's head is a name."""
        out: list[Name] = []
        start = 0
        for i, p in enumerate(self.pieces):
            if p.form == "nl":
                start = i + 1
            elif p.text == "." and start < i <= start + _LONGEST and self.pieces[i - 1].text != ".":
                end = i
                while end < self.n and self.pieces[end].text == ".":
                    end += 1
                if end - i >= 4 and end < self.n and self.pieces[end].form != "nl" and self._title(start, i):
                    seen = not any(e.kind == "NOTVISITED" for e in self.lattice.edges[end])
                    out.append(Name(start, i, " ".join(self.lattice.original(start, i).split()), "line", seen, start))
        return out

    def _site(self, at: int, kind: str, bonus: float, cue_start: int) -> tuple[float, Name] | None:
        pieces = self.pieces
        if kind == "fieldno":
            first_int = at + 1
            while self._number_end(first_int) is None:
                first_int += 1
            end = self._number_end(first_int) or first_int + 1
            if end < self.n and pieces[end].glued and pieces[end].form == "word" and len(pieces[end].text) == 1:
                end += 1
            first = at if pieces[at + 1].text != ":" else at + 2
            text = self.lattice.original(first, end)
            if pieces[at + 1].text in self.words.number_signs:
                text = self.lattice.original(first_int, end)
                if pieces[first_int].form == "word":
                    text = str(next(e.means for e in self.lattice.edges[first_int] if e.kind == "INT" and e.end == end))
            elif pieces[first_int].form == "word":  # field six
                text = f"{self.lattice.original(at, at + 1)} {next(e.means for e in self.lattice.edges[first_int] if e.kind == 'INT' and e.end == end)}"
            return 5.0, Name(first, end, text, "fieldno", True, cue_start)
        found = self.best_at(at, {"skip": "go", "fieldword": "field", "fieldtalk": "field"}.get(kind, kind), bonus)
        if not found:
            return None
        score, name = found
        if kind in {"fieldword", "fieldtalk"}:
            if not self._surely(name, talk=kind == "fieldtalk"):
                return None
            kind = "field"
        start, end = name.start, name.end
        text = self.lattice.original(start, end)
        if end < self.n and pieces[end].text == "field" and pieces[end].form == "word":
            end += 1
            score += 1.5
        elif text.lower().endswith(" field"):
            text = text[: -len(" field")].rstrip()
            score += 1.0
        seen = kind != "skip"
        if seen:
            k = self._pass_fillers(end)
            if k < self.n and any(e.kind == "NOTVISITED" for e in self.lattice.edges[k]):
                seen = False
        while (
            end < self.n
            and pieces[end].text == "."
            and pieces[end].glued
            and self.lattice.soft[end] is not None
            and len(pieces[end - 1].text) <= 3
        ):
            if (
                end + 1 < self.n
                and pieces[end + 1].form != "nl"
                and self.starts(self._pass_fillers(end + 1))[1] is not None
            ):
                text = self.lattice.original(start, end)
            break
        return score, Name(start, end, " ".join(text.split()), kind, seen, cue_start)

    def _number_end(self, i: int) -> int | None:
        """Where the number of a field at piece i ends: figures, or words (field twenty two)."""
        if i >= self.n:
            return None
        if self.pieces[i].form == "int":
            return i + 1
        ends = [
            e.end
            for e in self.lattice.edges[i]
            if e.kind == "INT" and e.how == "number" and self.pieces[i].form == "word"
        ]
        if not ends or (
            self.pieces[i].text in {"one", "a", "couple"}
            and not (max(ends) >= self.n or self.pieces[max(ends)].form in {"nl", "mark"})
        ):
            return None
        return max(ends)

    def _surely(self, name: Name, talk: bool) -> bool:
        """After a bare `field`, which also begins a saying about it (field looks rough), a name shows itself."""
        after = self._pass_fillers(name.end)
        strength, rule = self.starts(after) if after < self.n else (0.0, None)
        if self._title(name.start, name.end):
            return not talk or strength >= 1.0
        nl = name.end
        while nl < self.n and self.pieces[nl].text in ".,:-":
            nl += 1
        if not talk and nl < self.n and self.pieces[nl].form == "nl":  # field creek bottom, on a line of its own
            nxt = self._pass_fillers(nl + 1)
            strength, rule = self.starts(nxt) if nxt < self.n else (0.0, None)
            return strength >= 1.0 and any("FIELDNOUN" in self._kinds(k) for k in range(name.start, name.end))
        if rule == "date":
            return True
        if strength < 1.0:
            return False
        if rule in {"planted"} or (
            not talk and any("FIELDNOUN" in self._kinds(k) for k in range(name.start, name.end))
        ):
            return True
        return not talk and rule == "label" and not any(self.lattice.known[k] for k in range(name.start, name.end))

    def _again(self, chosen: list[Name], used: set[int]) -> list[Name]:
        """A name already used, said again anywhere: the note is back there."""
        keys: dict[tuple[str, ...], Name] = {}
        for name in chosen:
            words = tuple(p.text for p in self.pieces[name.start : name.end] if p.form != "mark")
            if words and (
                len(words) > 1
                or any("FIELDNOUN" in self._kinds(k) or not self.lattice.known[k] for k in range(name.start, name.end))
            ):
                keys.setdefault(words, name)
        more: list[Name] = []
        for words, name in keys.items():
            for i in range(self.n - len(words) + 1):
                if i in used or any(x in used for x in range(i, i + len(words))):
                    continue
                if tuple(p.text for p in self.pieces[i : i + len(words)]) == words:
                    more.append(Name(i, i + len(words), name.text, "again", name.seen or True, i))
                    used |= set(range(i, i + len(words)))
        return sorted([*chosen, *more], key=lambda nm: nm.start)
