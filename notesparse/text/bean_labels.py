"""Plants that go by `bean` and a number that counts on: `bean number one has two trips, bean two just one` (guide 4.7)."""

from __future__ import annotations

from notesparse.text.net import Edge, Net

_WORD = "bean"
_IN_A_ROW = 2  # bean one, bean two
_TURNS = frozenset({"NEXT", "ORD", "LAST", "ANOTHER"})
_MARKS = frozenset({"NUMBERW", "NODOT", "HASH"})
_LENGTHS = frozenset({"INCH", "MM", "CM", "PCT", "SLASH"})


def bean_labels(net: Net) -> None:
    """Where beans are counted on from one, and no other word for a plant has a number, a bean is a plant."""
    if _WORD not in net.said:
        return
    beans = [i for i, p in enumerate(net.pieces) if p.text == _WORD]
    told: list[int] = []
    surely = 0  # bean two, and no bean two eighths
    nth = 1
    for i in beans:
        numbers = _numbers(net, i)
        if any(1 <= e.means <= nth for e in numbers):
            told.append(i)
        if any(e.means == nth for e in numbers):
            nth += 1
            surely += not any(e.kind == "FRAC" for e in _from(net, _number_at(net, i)))
    if surely < _IN_A_ROW or _other_labels(net):
        return
    told += [i for i in beans if any(e.kind in _TURNS and e.end == i for k in (i - 2, i - 1) for e in _from(net, k))]
    for i in dict.fromkeys(told):
        net.edges[i] = [e for e in net.edges[i] if e.kind not in {"BEAN", "SEED"}]
        net.add(i, i + 1, "PLANT", "plant", 0.0, "exact")


def _from(net: Net, i: int) -> list[Edge]:
    """What begins at piece i; nothing before the note and past its end."""
    return net.edges[i] if 0 <= i < len(net.edges) else []


def _number_at(net: Net, i: int) -> int:
    """Where the number of the bean at piece i would stand: `bean two`, `bean no. 2`."""
    k = max((e.end for e in net.edges[i] if e.kind == "NUMBERW"), default=i + 1)
    return max((e.end for e in _from(net, k) if e.kind in _MARKS), default=k)


def _numbers(net: Net, i: int) -> list[Edge]:
    """The numbers that may stand there, and no `bean two mm`."""
    return [
        e
        for e in _from(net, _number_at(net, i))
        if e.kind == "INT" and not any(x.kind in _LENGTHS and x.how == "exact" for x in _from(net, e.end))
    ]


def _other_labels(net: Net) -> bool:
    """`plant 1`, `stalk two`: plants go by another word."""
    return any(
        e.kind in {"PLANT", "PLETTER"} and e.how == "exact" and any(x.kind == "INT" for x in _from(net, e.end))
        for edges in net.edges
        for e in edges
    )
