"""Whether what a recipe requires holds for every body: by proof, else by trying bodies.

In: a linked draft with its texts, and prepared bodies or none. Out: for each `require` and `advise`
line and each seam whose sides are to match one `Told` with its verdict. Bodies decide where they
contradict: a line that fails for one of them fails, whatever algebra says of plausible bodies.
Nothing fails; a body for which a line can't be worked out is not counted as tried.

    proofs(compiled.draft, compiled.texts, None)[0].verdict      # Proved()
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from godet.base.places import Place
from godet.pattern.seams import TOLERANCE, kept_seams
from godet.program.draft import Draft
from godet.program.program import SeamLine
from godet.proof.proving import STEPS, matching, prove_check, prove_seam
from godet.proof.verdicts import FailsOn, HeldOn, NotProved, Proved, Verdict
from godet.solve.outcome import Outcome
from godet.solve.solver import solve
from godet.tools.drafting import Prepared
from godet.tools.showing import place_record

# of one body: whether a line holds; None where it could not be worked out
Trial = Callable[[int], bool | None]


@dataclass(frozen=True, slots=True)
class Told:
    sort: str  # "require", "advise" or "seam"
    text: str  # the line as written, up to its words
    place: Place
    verdict: Verdict

    @property
    def fails(self) -> bool:
        """Whether it fails where it must not: advice may be left."""
        return isinstance(self.verdict, FailsOn) and self.sort != "advise"


def proofs(
    draft: Draft, texts: Mapping[str, str], prepared: Prepared | None, steps: int = STEPS
) -> tuple[Told, ...]:
    """The checks, then the seams, of a recipe and its blocks, in the order of the draft."""
    tried = _Tried.of(draft, prepared) if prepared is not None else None
    told = []
    for check in draft.checks:
        proof = prove_check(draft, check, steps)
        trial = tried.check(check.condition) if tried else None
        verdict = _verdict(proof, tried, trial)
        told.append(Told(check.level, _text(check.place, texts), check.place, verdict))
    for seam in kept_seams(draft.seams, draft.pieces):
        if matching(seam):
            proof = prove_seam(draft, seam, steps)
            trial = tried.seam(seam) if tried else None
            text = _text(seam.place, texts)
            told.append(Told("seam", text, seam.place, _verdict(proof, tried, trial)))
    return tuple(told)


def _text(place: Place, texts: Mapping[str, str]) -> str:
    """The first line of a statement, without its comment."""
    lines = texts.get(place.file, "").split("\n")
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    return " ".join(line.partition("#")[0].split())


def _verdict(proof: Proved | NotProved, tried: _Tried | None, trial: Trial | None) -> Verdict:
    if tried is None or trial is None:
        return proof
    labels = tried.outcome.labels
    held = {label: trial(body) for body, label in enumerate(labels)}
    failing = tuple(label for label, holds in held.items() if holds is False)
    holding = tuple(label for label, holds in held.items() if holds)
    if failing:
        return FailsOn(failing, len(failing) + len(holding))
    if isinstance(proof, NotProved) and holding:
        return HeldOn(holding)
    return proof


@dataclass(frozen=True, slots=True)
class _Tried:
    """A draft solved for the bodies to try."""

    outcome: Outcome

    @staticmethod
    def of(draft: Draft, prepared: Prepared) -> _Tried:
        lengths = [
            length
            for seam in kept_seams(draft.seams, draft.pieces)
            if matching(seam)
            for length in seam.lengths or ()
        ]
        easings = [seam.easing for seam in draft.seams if seam.easing is not None]
        conditions = [seam.when for seam in draft.seams if seam.when is not None]
        wanted = [*(c.condition for c in draft.checks), *lengths, *easings, *conditions]
        return _Tried(solve(draft.graph, draft.finds, wanted, prepared.inputs))

    def check(self, condition: int) -> Trial:
        def trial(body: int) -> bool | None:
            known = self.outcome.holds(condition, body)
            return bool(self.outcome.value(condition, body)) if known else None

        return trial

    def seam(self, seam: SeamLine) -> Trial:
        sewn = self.check(seam.when) if seam.when is not None else None

        def trial(body: int) -> bool | None:
            if sewn is not None and not sewn(body):
                return None
            first, second = (self.number(length, body) for length in seam.lengths or ())
            ease = self.number(seam.easing, body) if seam.easing is not None else 0.0
            if first is None or second is None or ease is None:
                return None
            return abs(first - second - ease) <= TOLERANCE

        return trial

    def number(self, node: int, body: int) -> float | None:
        known = self.outcome.holds(node, body)
        return float(self.outcome.value(node, body)) if known else None


def told_as_text(recipe: str, told: tuple[Told, ...]) -> str:
    """All verdicts, each with its line: what fails first, what is proved last."""
    groups: dict[str, list[Told]] = {}
    for each in sorted(told, key=lambda each: _ORDER.index(type(each.verdict))):
        groups.setdefault(words(each.verdict), []).append(each)
    lines = [recipe]
    for verdict, members in groups.items():
        lines.append(f"  {verdict}")
        lines += [
            f"    {Path(each.place.file).name}:{each.place.line}  {each.text}" for each in members
        ]
    return "\n".join(lines)


_ORDER = (FailsOn, NotProved, HeldOn, Proved)


def words(verdict: Verdict) -> str:
    """A verdict in words, none of which could be taken for another's."""
    match verdict:
        case Proved():
            return "proved for every body"
        case HeldOn(bodies):
            count = len(bodies)
            return f"not proved; held on {count} {'body' if count == 1 else 'bodies'} tried"
        case FailsOn(bodies, count):
            return f"fails on {', '.join(bodies)}, of {count} tried"
        case NotProved("steps"):
            return "not proved; a proof would take too many steps"
        case _:
            return "not proved"


def as_record(recipe: str, told: Told) -> dict[str, Any]:
    """A verdict as plain data."""
    verdict = told.verdict
    names = {Proved: "proved", HeldOn: "held", FailsOn: "fails", NotProved: "not proved"}
    record: dict[str, Any] = {
        "recipe": recipe,
        "sort": told.sort,
        "text": told.text,
        "place": place_record(told.place),
        "verdict": names[type(verdict)],
        "words": words(verdict),
    }
    if isinstance(verdict, HeldOn):
        record |= {"bodies": list(verdict.bodies), "tried": len(verdict.bodies)}
    if isinstance(verdict, FailsOn):
        record |= {"bodies": list(verdict.bodies), "tried": verdict.tried}
    return record
