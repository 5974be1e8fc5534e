"""Values that a form can hold: R has eight stages, V about twenty, a date has a month."""

from __future__ import annotations

from notesparse.text.lattice import Edge

_CLOSEST_ROWS, _WIDEST_ROWS = 5, 48  # inches (common practice, no source)


def holds(form: str, path: tuple[tuple[int, Edge], ...]) -> bool:
    """Whether the values can be this form at all: R has eight stages, V about twenty, a date has a month."""
    ints = [e.means for _, e in path if e.kind in {"INT", "INTSOUND"}]
    kinds = [e.kind for _, e in path]
    if form.startswith(("r1", "r_")) or form == "the_v_r":
        nums = ints if form != "the_v_r" else ints[1:]
        if any(not 1 <= n <= 8 for n in nums):
            return False
        if form != "r_point" and any(e.kind == "DEC" and not 1 <= e.means < 9 for _, e in path):
            return False
    if form.startswith(("v1", "v_")) or form == "the_v_r":  # v_r: V, then R
        if form == "v_r" and (
            (len(ints) < 2 and not any(e.kind == "DEC" for _, e in path)) or (len(ints) == 2 and not 1 <= ints[1] <= 8)
        ):
            return False
        if ints and not 0 <= ints[0] <= 30:
            return False
        if form == "v_range" and len(ints) == 2 and ints[1] <= ints[0]:
            return False
        if any(e.kind == "DEC" and not 0 < e.means <= 30 for _, e in path):
            return False
    if form == "r_range" and len(ints) == 2 and ints[1] <= ints[0]:
        return False
    if form in {"md", "wd_md"}:
        return bool(1 <= ints[0] <= 31 and 1 <= ints[1] <= 31 and (ints[0] <= 12 or ints[1] <= 12))
    if form == "mdy":
        return bool(1 <= ints[0] <= 31 and 1 <= ints[1] <= 31)
    if form == "n_in_m":
        return int(ints[0]) < int(ints[1]) and int(ints[1]) in {3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100}
    if form == "n_slash_m" or form == "n_of_m":
        return len(ints) < 2 or bool(ints[0] <= ints[1] and ints[1] >= 2)
    if form == "of_m_n":
        return bool(ints[1] <= ints[0])
    if form in {"r_half", "v_half"} and any(e.kind == "FRAC" and float(e.means) != 0.5 for _, e in path):
        return False
    if form == "r_point":
        return any(e.kind == "DEC" and 0 < e.means < 1 for _, e in path) and all(1 <= n <= 8 for n in ints)
    if form in {"pct", "share_brown"} and "INTSOUND" in kinds:
        return False
    if form == "trif_dec":
        return all(float(e.means) > 1 for _, e in path if e.kind == "FRAC")
    if form.startswith(("num_", "nums_", "plant_", "next_n")) and any(e.how == "couple" for _, e in path):
        return False
    if form == "cue_n" and ("INTSOUND" in kinds or path[1][0] > path[0][1].end + 1):
        return False
    if form == "node_of":
        return bool(1 <= ints[0] <= ints[1] and ints[1] >= 4)
    if form == "top_n" and ints and not 1 <= ints[0] <= 8:
        return False
    if form == "the_v":
        return bool(1 <= ints[0] <= 22) and path[1][1].end == path[1][0] + 1
    if form in {"plant_n", "plant_two", "plant_list"} and any(n > 400 for n in ints):
        return False
    if form == "rows":
        q = next((e.means for _, e in path if e.kind in {"INT", "DEC", "FRAC", "ROWWORD"}), 0)
        said = "INCH" in kinds and "ROWS" in kinds and _CLOSEST_ROWS <= float(q) <= _WIDEST_ROWS  # 12 inch rows
        return said or float(q) in {7, 7.5, 10, 15, 19, 20, 22, 30, 34, 36, 38, 40}
    if form in {"group"}:
        q = next((e.means for _, e in path if e.kind in {"INT", "DEC"}), 0)
        return 0 <= float(q) <= 9.9 or 10 <= float(q) <= 79
    if form in {"group_two"}:
        return all(0 <= n <= 9 for n in ints)
    if form in {"day_month_yy", "month_day_yy", "run_together"}:
        return bool(1 <= ints[0] <= 31 and (0 <= ints[1] <= 99 or 1950 <= ints[1] <= 2099))
    if form in {"month_day", "day_month", "month_day_year", "day_month_year", "wd_month_day", "wd_day_month"}:
        days = [e.means for _, e in path if e.kind in {"INT", "ORD", "ORDSOUND"}]
        return bool(days) and 1 <= days[0] <= 31
    if form in {"wd_ord", "today_ord"}:
        return all(1 <= e.means <= 31 for _, e in path if e.kind == "ORD")
    return True
