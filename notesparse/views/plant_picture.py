"""A plant as a picture: the main stem with its nodes, and what was seen at each; SVG in black and white.

Only what the record holds is drawn. A stem whose nodes were not counted is broken below the nodes that were looked at.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any
from xml.etree import ElementTree as ET

from notesparse.views.wording import FILL, KEYS, places, size

_SVG = "http://www.w3.org/2000/svg"
ET.register_namespace("", _SVG)
_STEP = 22  # between two nodes
_STEM = 70  # from the left edge
_TOP = 46
_WIDE = 250
_MOST = 24  # nodes that are drawn
_LOOKED_AT = 4  # nodes drawn at least, where none were counted


def plant_picture(plant: Mapping[str, Any], still_open: Collection[str] = ()) -> str:
    """The SVG of one plant of the JSON record, under its label.

    `still_open` are the values that a question waits for: what is drawn by them bears a `?`.
    """
    title = f"Plant {plant['plant']}"
    total = _total(plant)
    drawn = min(total, _MOST) if total is not None else max(_LOOKED_AT, _deepest(plant))
    broken = total is None or total > _MOST
    high = _TOP + drawn * _STEP + (34 if broken else 26)
    svg = ET.Element(
        "svg",
        {
            "xmlns": _SVG,
            "viewBox": f"0 0 {_WIDE} {high}",
            "width": str(_WIDE),
            "height": str(high),
            "role": "img",
            "font-family": "sans-serif",
            "font-size": "10",
        },
    )
    ET.SubElement(svg, "title").text = title
    ET.SubElement(svg, "desc").text = describe(plant, still_open)
    _text(svg, 6, 14, f"{title}   {', '.join(stages(plant, still_open))}", {"font-weight": "bold", "font-size": "11"})
    end = _TOP + (drawn - 1) * _STEP
    _line(svg, _STEM, _TOP - 12, _STEM, end + (6 if broken else 20), 2)
    if plant.get("top_leaf") == "rolled":
        _line(svg, _STEM, _TOP - 12, _STEM + 5, _TOP - 24, 1.5)
        _text(svg, _STEM + 12, _TOP - 17, "top leaf still rolled")
    for node in range(1, drawn + 1):
        _node(svg, plant, node, total, _TOP + (node - 1) * _STEP, still_open)
    if broken:
        for at in (8, 13):
            _line(svg, _STEM - 7, end + at + 3, _STEM + 7, end + at - 3, 1)
        _text(svg, _STEM + 12, end + 16, "nodes below: not counted" if total is None else f"{total - drawn} more nodes")
    else:
        _line(svg, _STEM - 40, end + 20, _STEM + 40, end + 20, 1)
        if {"trifoliates", "nodes"} & set(still_open):
            _text(svg, _STEM + 46, end + 16, "? how many nodes")
    return ET.tostring(svg, encoding="unicode")


def beside(pictures: Sequence[str], across: int = 4) -> str:
    """Several pictures in one SVG, `across` of them in a row."""
    drawn = [ET.fromstring(picture) for picture in pictures]
    if len(drawn) == 1:
        return pictures[0]
    rows = [drawn[i : i + across] for i in range(0, len(drawn), across)]
    heights = [max(int(one.attrib["height"]) for one in row) for row in rows]
    wide, high = _WIDE * len(rows[0]), sum(heights)
    whole = ET.Element(f"{{{_SVG}}}svg", {"viewBox": f"0 0 {wide} {high}", "width": str(wide), "height": str(high)})
    whole.set("role", "img")
    ET.SubElement(whole, f"{{{_SVG}}}title").text = f"{len(drawn)} plants"
    for r, row in enumerate(rows):
        for c, one in enumerate(row):
            one.set("x", str(c * _WIDE))
            one.set("y", str(sum(heights[:r])))
            whole.append(one)
    return ET.tostring(whole, encoding="unicode")


def _total(plant: Mapping[str, Any]) -> int | None:
    for key, more in (("nodes", 0), ("trifoliates", 1)):
        if isinstance(plant.get(key), int):
            return max(int(plant[key]) + more, 1)
    return None


def _deepest(plant: Mapping[str, Any]) -> int:
    return max((max(v) for k in _ORGANS if isinstance(v := plant.get(f"{k}_from_top"), list) and v), default=0)


_ORGANS = ("flowers", "pods", "seeds")
_OPEN = {
    "flower": {"flowers", "flowers_from_top"},
    "pod": {"pods", "pods_from_top", "pod_mm", "pods_full_length"},
    "seed": {"seeds", "seeds_from_top", "seed_mm", "seed_fill"},
}


def stages(plant: Mapping[str, Any], still_open: Collection[str] = ()) -> list[str]:
    """V and R of a plant: `V10?` and `no open flower`, with `?` where a question can change them."""
    shown = []
    for key, nothing in (("v_stage", "V -"), ("r_stage", "R -")):
        code = plant.get(key) or nothing
        shown.append(("no open flower" if code == "none" else str(code)) + ("?" if key in still_open else ""))
    return shown


def _node(
    svg: ET.Element, plant: Mapping[str, Any], node: int, total: int | None, y: int, still_open: Collection[str]
) -> None:
    side = 1 if node % 2 else -1
    ET.SubElement(svg, "circle", {"cx": str(_STEM), "cy": str(y), "r": "2.5"})
    lowest = total is not None and node == total
    if lowest:  # the unifoliate leaves stand opposite each other
        for way in (1, -1):
            _leaf(svg, _STEM + way * 16, y, way)
    else:
        _line(svg, _STEM, y, _STEM + side * 20, y - 6, 1)
        for dx, dy in ((24, -12), (30, -6), (24, 0)):
            _leaf(svg, _STEM + side * dx, y + dy + 1, side, small=True)
    _text(svg, 4, y + 3, str(node))
    seen = _seen(plant, node, still_open)
    x = _STEM - side * 9
    if "flower" in seen:
        _flower(svg, x, y - 3)
        x -= side * 11
    if "pod" in seen or "seed" in seen:
        _pod(svg, x - side * 4, y + 2, "seed" in seen, plant.get("seed_fill") == "full")
    told = [text for text in seen.values() if text]
    if lowest and total is not None:
        told.append("unifoliate node")
    if told:
        _text(svg, _STEM + 46, y + 3, ", ".join(told))


def _seen(plant: Mapping[str, Any], node: int, still_open: Collection[str]) -> dict[str, str]:
    """What was seen at a node counted from the top; with `?` what a question waits for."""
    out: dict[str, str] = {}
    if _at(plant, "flowers", node):
        out["flower"] = "open flower"
    if _at(plant, "pods", node):
        long = "full length" if plant.get("pods_full_length") else size(plant["pod_mm"]) if plant.get("pod_mm") else ""
        out["pod"] = f"pod {long}".strip()
    if _at(plant, "seeds", node):
        fill = FILL.get(str(plant.get("seed_fill")), "")
        out["seed"] = f"seed {size(plant['seed_mm']) if plant.get('seed_mm') else fill}".strip()
    for organ, keys in _OPEN.items():
        if organ in out and keys & set(still_open):
            out[organ] += " ?"
    return out


def _at(plant: Mapping[str, Any], organ: str, node: int) -> bool:
    where = plant.get(f"{organ}_from_top")
    return bool(plant.get(organ)) and isinstance(where, list) and node in where


def describe(plant: Mapping[str, Any], still_open: Collection[str] = ()) -> str:
    """The picture in words."""
    parts = [f"Plant {plant['plant']}, {', '.join(stages(plant, still_open))}."]
    total = _total(plant)
    parts.append(f"{total} nodes on the main stem." if total is not None else "Nodes were not counted.")
    for organ in _ORGANS:
        there, where = plant.get(organ), plant.get(f"{organ}_from_top")
        if there is False:
            parts.append(f"No {organ}.")
        elif there and where:
            told = places(where if isinstance(where, str) else tuple(where))
            parts.append(
                f"{organ.capitalize()} at node {told} from the top."
                if told[0].isdigit()
                else f"{organ.capitalize()} {told}."
            )
        elif there:
            parts.append(f"{organ.capitalize()}, with no place named.")
    if plant.get("mature_pods") == "one":
        parts.append("A pod of mature colour.")
    waits = list(dict.fromkeys(KEYS[key] for key in KEYS if key in still_open))
    if waits:
        parts.append(f"A question is open about {', '.join(waits)}.")
    return " ".join(parts)


def _text(svg: ET.Element, x: float, y: float, text: str, more: Mapping[str, str] | None = None) -> None:
    ET.SubElement(svg, "text", {"x": str(x), "y": str(y), **(more or {})}).text = text


def _line(svg: ET.Element, x1: float, y1: float, x2: float, y2: float, width: float) -> None:
    ends = {"x1": str(x1), "y1": str(y1), "x2": str(x2), "y2": str(y2)}
    ET.SubElement(svg, "line", {**ends, "stroke": "black", "stroke-width": str(width)})


def _leaf(svg: ET.Element, x: float, y: float, side: int, small: bool = False) -> None:
    wide, high = ("6", "3") if small else ("10", "5")
    tilt = f"rotate({-20 * side} {x} {y})"
    shape = {"cx": str(x), "cy": str(y), "rx": wide, "ry": high, "transform": tilt}
    ET.SubElement(svg, "ellipse", {**shape, "fill": "white", "stroke": "black", "stroke-width": "0.8"})


def _flower(svg: ET.Element, x: float, y: float) -> None:
    for dx, dy in ((0, -3), (3, 0), (0, 3), (-3, 0)):
        petal = {"cx": str(x + dx), "cy": str(y + dy), "r": "2.4", "fill": "white", "stroke": "black"}
        ET.SubElement(svg, "circle", {**petal, "stroke-width": "0.8"})
    ET.SubElement(svg, "circle", {"cx": str(x), "cy": str(y), "r": "1.4"})


def _pod(svg: ET.Element, x: float, y: float, seeds: bool, full: bool) -> None:
    shape = {"cx": str(x), "cy": str(y), "rx": "9", "ry": "4", "fill": "white", "stroke": "black"}
    ET.SubElement(svg, "ellipse", {**shape, "stroke-width": "1"})
    for dx in (-5, 0, 5) if seeds else ():
        ET.SubElement(svg, "circle", {"cx": str(x + dx), "cy": str(y), "r": "2.6" if full else "1.3"})
