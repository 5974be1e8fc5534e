"""Words of the language are data: every list on a page of `grammar/cues` is asked for by its module, and no module has
a list of ordinary words of its own."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from notesparse.language.cues import read_cues
from notesparse.language.grammar import grammar_parts, grammar_rules
from notesparse.observing.finding.findwords import HEADS
from notesparse.observing.naming.find import _NEED

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "notesparse"
ROOMS = ("asking", "doubts", "observing", "reading", "spoken", "text")  # they look at the words of notes
FILES = sorted(path.relative_to(PACKAGE).as_posix() for room in ROOMS for path in (PACKAGE / room).rglob("*.py"))
TREES = {file: ast.parse((PACKAGE / file).read_text(encoding="utf-8")) for file in FILES}
ASKS = {"words": frozenset, "ordered": tuple, "phrases": list, "rows": list, "table": dict}
FEW = 3  # ordinary words that make a list at the head of a module
FEW_INSIDE = 4  # in an expression of a function
PIECES = {"big", "dec", "dmy", "int", "mark", "nl", "word"}  # forms of the pieces of a note

# What holds ordinary words and is no list of the language -> why it is there. `name()` is a function.
_FINDINGS = "what the record calls its findings"
_REASONS = "reasons and sentences that are shown"
_LETTERS = "letters and tails of words, no words"
_SIGNS = "what cells of a table and words of the record are called"
_UNITS = "units with what they measure, worked out"
OUR_OWN = {
    "asking/values.py": {"_TABLE": _REASONS},
    "doubts/asked.py": {"_WORDS": _REASONS},
    "observing/account.py": {"LOOSE": _REASONS},
    "observing/compare.py": {"RULES": "names of counting rules", "_SHIFT": "names of counting rules"},
    "observing/finding/at_stops.py": {"_WITH_LARVAE": _FINDINGS},
    "observing/finding/findcounts.py": {"_THINNEST": _UNITS, "_takes()": _FINDINGS},
    "observing/finding/findopen.py": {"_pods_hurt()": _FINDINGS},
    "observing/finding/findseen.py": {"_BROAD": _FINDINGS, "says_something()": _FINDINGS},
    "observing/finding/findwords.py": {"MEASURES": _FINDINGS, "CAUSES": _FINDINGS},
    "observing/lists.py": {"_SIGNS": _SIGNS},
    "observing/paper/answers.py": {"_WORDS": _SIGNS},
    "observing/paper/cells.py": {"_SAYS_NOTHING": _REASONS},
    "observing/paper/legends.py": {"_COUNTING": "names of the lists beside them"},
    "observing/paper/organ_cells.py": {"_UNIT": _UNITS},
    "observing/paper/pod_units.py": {"_UNITS": _UNITS, "_LEGEND_UNITS": _UNITS},
    "observing/paper/row_labels.py": {"DAMAGED": _LETTERS},
    "observing/revise.py": {"_GONE": _FINDINGS},
    "observing/shown.py": {"_WORDS": _SIGNS, "_KEPT": "ways of repair"},
    "observing/unread_heads.py": {"_NOT_OURS": _REASONS},
    "observing/unseen_turns.py": {"_NOT_OURS": _REASONS},
    "observing/walking/said_once.py": {"_MM": _UNITS},
    "observing/walking/hurt_pods.py": {"_NOT_OF_PODS": _FINDINGS},
    "reading/unfit/stages.py": {"_SEEN_AT": "words of two stages"},
    "spoken/numerals.py": {"_PARTS": "a part as it is said, in one and in many"},
    "text/match.py": {"_FIGURES": _LETTERS, "_LETTERS": _LETTERS, "_SLIPS": _LETTERS},
    "text/scan.py": {"_SUFFIXES": _LETTERS},
}


def page_of(file: str) -> str:
    """`observing/walking/claims.py` has the page `walking/claims`, `text/running.py` has `text/running`."""
    parts = file.removesuffix(".py").split("/")
    return "/".join(parts[1:] if len(parts) > 2 else parts)


def pages_named(tree: ast.Module) -> dict[str, str]:
    """What a module calls its pages -> their names."""
    return {
        node.targets[0].id: node.value.args[0].value
        for node in tree.body
        if isinstance(node, ast.Assign)
        and isinstance(node.targets[0], ast.Name)
        and isinstance(node.value, ast.Call)
        and ast.unparse(node.value.func) == "cue_page"
        and isinstance(node.value.args[0], ast.Constant)
    }


def asked(tree: ast.Module) -> Iterator[tuple[str, str, str]]:
    """(page, key, how) of each list that a module asks for."""
    pages = pages_named(tree)
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and isinstance(node.func.value, ast.Name)
        ):
            of, key = node.func.value.id, node.args[0] if node.args else None
            if of in pages and isinstance(key, ast.Constant):
                yield pages[of], key.value, node.func.attr


def own_names() -> set[str]:
    """Names of our own: rules and forms of phrases, facts, kinds of findings, cues of names of fields."""
    forms = {form for text in grammar_parts().values() for form in re.findall(r"->\s*(\w+)", text)}
    fields = {
        node.target.id
        for file in ("facts.py", "outcome.py")
        for node in ast.walk(ast.parse((PACKAGE / file).read_text(encoding="utf-8")))
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)
    }
    return forms | fields | set(grammar_rules()) | set(HEADS.values()) | set(_NEED) | PIECES


OWN = own_names()
PAGES = read_cues()


def strings(node: ast.AST) -> Iterator[str]:
    """The strings of a list of words, also of one that is split; of a table the words that it is asked with."""
    if isinstance(node, ast.Dict):
        for key in node.keys:
            if key is not None:
                yield from strings(key)
        for value in node.values:
            if not isinstance(value, ast.Constant):
                yield from strings(value)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        if node.func.attr == "split" and isinstance(node.func.value, ast.Constant):
            yield from str(node.func.value.value).split()
    elif isinstance(node, ast.Constant):
        if isinstance(node.value, str):
            yield node.value
    else:
        for child in ast.iter_child_nodes(node):
            yield from strings(child)


def ordinary(words: list[str]) -> list[str]:
    """Those that could stand in a note and are no names of our own."""
    return [w for w in words if w == w.lower() and re.search("[a-z]", w) and "_" not in w and w not in OWN]


def lists_of_words(tree: ast.Module) -> Iterator[tuple[str, list[str]]]:
    """Lists of ordinary words: of a module by their names, inside a function by its name."""
    for node in tree.body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        name = ast.unparse(node.targets[0] if isinstance(node, ast.Assign) else node.target)
        called = ast.unparse(node.value.func) if isinstance(node.value, ast.Call) else ""
        if name == "__all__" or isinstance(node.value, ast.Constant | ast.JoinedStr) or called.startswith("re."):
            continue
        words = ordinary(list(strings(node.value)))
        if len(words) >= FEW:
            yield name, words
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for node in ast.walk(function):
                if isinstance(node, ast.Set | ast.Tuple | ast.List | ast.Dict):
                    held = node.keys if isinstance(node, ast.Dict) else node.elts
                    words = ordinary(
                        [w.value for w in held if isinstance(w, ast.Constant) and isinstance(w.value, str)]
                    )
                    if len(words) >= FEW_INSIDE:
                        yield f"{function.name}()", words


@pytest.mark.parametrize("file", FILES)
def test_a_module_asks_its_own_page_or_the_shared_one(file: str) -> None:
    assert set(pages_named(TREES[file]).values()) <= {page_of(file), "shared"}


def test_every_page_has_its_module() -> None:
    assert sorted(set(PAGES) - {page_of(file) for file in FILES} - {"shared"}) == []


def test_no_two_modules_have_one_page() -> None:
    assert [
        page
        for page, n in Counter(page_of(file) for file in FILES if not file.endswith("__init__.py")).items()
        if n > 1
    ] == []


def test_every_list_is_asked_for_and_every_list_asked_for_is_there() -> None:
    there = {(page, key) for page, lists in PAGES.items() for key in lists}
    wanted = {(page, key) for tree in TREES.values() for page, key, _ in asked(tree)}
    assert sorted(there - wanted) == [], "nothing asks for these"
    assert sorted(wanted - there) == [], "these are missing"


def test_every_list_is_asked_for_by_its_shape() -> None:
    wrong = [
        (page, key, how)
        for tree in TREES.values()
        for page, key, how in asked(tree)
        if type(PAGES[page][key]) is not ASKS[how]
    ]
    assert wrong == []


def test_what_is_shared_is_asked_for_by_two_modules_or_more() -> None:
    asking = Counter(
        key for tree in TREES.values() for key in {key for page, key, _ in asked(tree) if page == "shared"}
    )
    assert [key for key, n in asking.items() if n < 2] == []


def test_the_same_words_are_on_one_page() -> None:
    """A list that two modules have is one list of `shared.toml`."""
    places: dict[frozenset[str], set[str]] = {}
    for page, lists in PAGES.items():
        for words in lists.values():
            if isinstance(words, frozenset):
                places.setdefault(words, set()).add(page)
    assert [(sorted(words), sorted(pages)) for words, pages in places.items() if len(pages) > 1] == []


@pytest.mark.parametrize("file", FILES)
def test_no_module_has_a_list_of_ordinary_words(file: str) -> None:
    """It belongs on the module's page of `grammar/cues`; if it holds names of our own, it is named in `OUR_OWN`."""
    found = {name: words for name, words in lists_of_words(TREES[file]) if name not in OUR_OWN.get(file, {})}
    assert found == {}


def test_every_exception_still_stands() -> None:
    named = {(file, name) for file, names in OUR_OWN.items() for name in names}
    assert named == {(file, name) for file in OUR_OWN for name, _ in lists_of_words(TREES[file])} & named


@pytest.mark.parametrize(
    "source",
    [
        '_MOTOR = frozenset("combine tractor planter".split())',
        '_MOTOR = {"combine", "tractor", "planter"}',
        '_MOTOR = _MORE | {"combine", "tractor", "planter", ","}',
        '_MOTOR = ("combine", "tractor", "planter")',
        '_MOTOR: dict[str, int] = {"combine": 1, "tractor": 2, "planter": 3}',
        '_MOTOR = (("combine", "header"), ("grain", "cart"))',
        'def _MOTOR(w):\n    return w in {"combine", "tractor", "planter", "truck"}',
    ],
)
def test_a_list_of_words_is_seen(source: str) -> None:
    assert [name.removesuffix("()") for name, _ in lists_of_words(ast.parse(source))] == ["_MOTOR"]


@pytest.mark.parametrize(
    "source",
    [
        '_SEEN = {"TRIF", "NODES", "POD"}',
        '_TOLD = frozenset({"flowers", "pods", "seeds"})',
        '_SIGNS = {",", ".", "-"}',
        '_HAS = {"has", "had"}',
        '_HAS = _LISTED.words("has")',
        '_FORMS = {"top_n", "top_two", "fl_yes"}',
        '_WORD = re.compile("one|two|three")',
        '__all__ = ["find", "read", "tell"]',
    ],
)
def test_what_is_no_list_of_words(source: str) -> None:
    assert list(lists_of_words(ast.parse(source))) == []
