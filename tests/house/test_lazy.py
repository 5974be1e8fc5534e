"""Classes of named values and patterns that are finished on their first use: they do as the standard ones do."""

from __future__ import annotations

import copy
import dataclasses
import pickle
import re
from typing import Any

import pytest

from notesparse.lazy import dataclass, pattern


@dataclass(frozen=True, slots=True)
class Pod:
    """A frozen one."""

    node: int
    length: float | None = None
    words: list[str] = dataclasses.field(default_factory=list, compare=False)


@dataclass(slots=True)
class Draft:
    """One that is filled in."""

    plant: str
    pods: list[Pod] = dataclasses.field(default_factory=list)


def test_values_by_place_by_name_and_by_default() -> None:
    assert (Pod(3).node, Pod(node=3).length, Pod(3, 4.5).length, Pod(3).words) == (3, None, 4.5, [])
    one, two = Draft("a"), Draft("b")
    one.pods.append(Pod(1))
    assert two.pods == []
    with pytest.raises(TypeError):
        Pod()  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        Pod(1, stem=2)  # type: ignore[call-arg]


def test_equal_and_in_sets_by_what_is_compared() -> None:
    assert Pod(3, words=["a"]) == Pod(3) and Pod(3) != Pod(4) and Pod(3) != 3
    assert {Pod(3), Pod(3, words=["a"])} == {Pod(3)}
    assert Draft("a") == Draft("a")
    with pytest.raises(TypeError):
        hash(Draft("a"))


def test_frozen_stays_as_it_is() -> None:
    pod: Any = Pod(3)
    with pytest.raises(dataclasses.FrozenInstanceError):
        pod.node = 4
    with pytest.raises(dataclasses.FrozenInstanceError):
        del pod.node
    draft: Any = Draft("a")
    draft.plant = "b"
    with pytest.raises(AttributeError):
        draft.stem = 1


def test_the_standard_helpers_take_it() -> None:
    assert dataclasses.replace(Pod(3), length=2.0) == Pod(3, 2.0)
    assert [f.name for f in dataclasses.fields(Pod)] == ["node", "length", "words"]
    assert dataclasses.asdict(Draft("a", [Pod(3)])) == {
        "plant": "a",
        "pods": [{"node": 3, "length": None, "words": []}],
    }
    assert repr(Pod(3)) == "Pod(node=3, length=None, words=[])"
    assert pickle.loads(pickle.dumps(Pod(3, 1.5))) == copy.deepcopy(Pod(3, 1.5)) == Pod(3, 1.5)
    assert pickle.loads(pickle.dumps(Draft("a"))) == Draft("a")


def test_a_pattern_is_the_standard_one() -> None:
    word = pattern(r"(\w+)!", re.IGNORECASE)
    assert word.fullmatch("Pod!") is not None and word.match("pod") is None
    assert [m[1] for m in word.finditer("a! b!")] == ["a", "b"] and word.pattern == r"(\w+)!"
