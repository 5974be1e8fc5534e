"""How a note was read, phrase by phrase: what each was taken for, what it gave, what was mended and what decided."""

from __future__ import annotations

from notesparse.facts import PLANT_KEYS, Staged
from notesparse.outcome import Outcome, PlantRecord, Repair, Step
from notesparse.record.caution import CAUTION
from notesparse.span import Span
from notesparse.staging.scale import said
from notesparse.views.answered import answered
from notesparse.views.assumptions import assumptions, corrected
from notesparse.views.cells import WIDTH, line_of, safe
from notesparse.views.field import title
from notesparse.views.grid import grid
from notesparse.views.heard import heard, not_asked
from notesparse.views.note_marks import note_marks
from notesparse.views.page import headed, joined
from notesparse.views.paint import Paint, plain
from notesparse.views.questions import questions
from notesparse.views.unread import unread
from notesparse.views.wording import KEYS, made, number, stage, tallied

_HOW = {
    "sound": "sounds alike",
    "near": "nearest word",
    "joined": "written apart",
    "split": "run together",
    "figure": "a damaged figure",
}


def explain(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> str:
    """The whole explanation as text; it ends with a line end."""
    blocks = [
        heard(outcome, width, paint),
        headed("The note as it was read", note_marks(outcome, width, paint), paint),
        headed("Phrase by phrase", phrases(outcome, width, paint), paint),
        headed("What decided each stage", decisions(outcome, width, paint), paint),
    ]
    asked = questions(outcome, width, paint)
    blocks.append(headed("Questions", ["", *asked] if asked else [], paint))
    blocks.append(headed("Settled by the person who saw it", answered(outcome, width, paint), paint))
    blocks.append(headed("Doubtful, and not asked about", not_asked(outcome, width, paint), paint))
    blocks.append(headed("Taken in the usual sense", assumptions(outcome, width, paint), paint))
    blocks.append(headed("Put right in the note", corrected(outcome, width, paint), paint))
    blocks.append(headed("Not understood, and not in the record", unread(outcome, width, paint), paint))
    return joined([*blocks, [paint("quiet", CAUTION)]])


def phrases(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Each phrase with its kind and what it gave; a mended word stands under its phrase."""
    if not outcome.steps:
        return []
    several = len(outcome.note.text.splitlines()) > 1
    rows: list[list[str]] = []
    line, told = 0, 0
    ordered = sorted(outcome.repairs, key=lambda repair: repair.span)
    for step in sorted(outcome.steps, key=lambda step: step.span):
        here = line_of(outcome.note.text, step.span[0])
        if several and here != line:
            rows.append([paint("quiet", f"line {here}")])
            line = here
        rows.append([safe(step.words), kind_of(step), gives(outcome, step)])
        while told < len(ordered) and ordered[told].span[0] < step.span[1]:
            rows.append([f"    {mended(ordered[told])}"])
            told += 1
        rows += [[f"    because {safe(reason)}"] for reason in step.reasons]
    rows += [[f"    {mended(repair)}"] for repair in ordered[told:]]
    return grid(("words", "read as", "gives"), rows, width=width, paint=paint)


def decisions(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Plant by plant, each stage with the sentence that says what decided it; then the field's."""
    lines: list[str] = []
    for visit in outcome.visits:
        rows: list[list[str]] = []
        for plant in visit.plants:
            name = f"plant {safe(plant.label)}" + (f", stop {safe(plant.stop)}" if plant.stop else "")
            for letter, staged in (("V", plant.v), ("R", plant.r)):
                if staged.stage is not None or staged.why:
                    rows.append([name, _code(letter, staged), _why(staged)])
                    name = ""
        for letter, code, basis in (
            ("V", visit.field_stage.v, visit.field_stage.basis_v),
            ("R", visit.field_stage.r, visit.field_stage.basis_r),
        ):
            if basis is not None:
                rows.append(["field" if letter == "V" or not visit.field_stage.v else "", stage(code), _basis(basis)])
        if len(outcome.visits) > 1:
            lines += [f"   {title(visit)[0]}"]
        lines += grid(("", "", ""), rows, width=width, paint=paint) if rows else ["   no stage"]
    return lines


def kind_of(step: Step) -> str:
    """What kind of phrase it was read as."""
    if step.used == "unread":
        return "not understood"
    return safe(str(step.phrase).replace("_", " ")) or step.used


def gives(outcome: Outcome, step: Step) -> str:
    """What the phrase says by its own account, else the values that rest on its words."""
    if step.means:
        return safe(step.means)
    given: list[str] = []
    for visit in outcome.visits:
        head = [key for key, span in visit.spans.items() if span.overlaps(step.span)]
        given += [made(key, getattr(visit, key)) for key in head if getattr(visit, key, None) is not None]
        for plant in visit.plants:
            given += _of_plant(plant, step.span)
        given += [tallied(record.tally) for record in visit.tallies if record.span.overlaps(step.span)]
        for record in visit.stated:
            if record.span.overlaps(step.span):
                given += [f"field stated {said(s)}" for s in (record.stated.v, record.stated.r) if s is not None]
        given += [f"{f.kind} {f.name or ''}".strip() for f in visit.findings if f.span.overlaps(step.span)]
    return safe("; ".join(given))


def _of_plant(plant: PlantRecord, span: Span) -> list[str]:
    keys = [key for key in PLANT_KEYS if key in plant.spans and key not in plant.derived]
    here = [key for key in keys if plant.spans[key].overlaps(span)]
    facts = [
        made(key, getattr(plant.facts, key))
        for key in here
        if not (f"{key}_from_top" in here and getattr(plant.facts, key))  # the place says that it is there
    ]
    return [f"plant {plant.label}: {', '.join(facts)}"] if facts else []


def mended(repair: Repair) -> str:
    """A word that was read as another, and how."""
    how = _HOW.get(repair.how, repair.how)
    near = f", nearness {number(float(repair.nearness))}" if repair.how == "near" else ""
    return f'"{safe(repair.words)}" read as {safe(repair.read_as)}: {how}{near}'


def _code(letter: str, staged: Staged) -> str:
    return staged.stage if staged.stage not in (None, "none") and staged.stage else f"{letter} -"


def _why(staged: Staged) -> str:
    """The sentence without the stage at its end: that stands beside it already."""
    return staged.why.removesuffix(f": {staged.stage}") or ", ".join(KEYS.get(key, key) for key in staged.decided_by)


def _basis(basis: str) -> str:
    return {"plants": "at least half of the plants", "tallies": "the tally", "stated": "as stated"}.get(basis, basis)
