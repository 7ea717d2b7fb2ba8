"""Reads a docket: one order, with the recipe, the body, the cloths and the choices of a draft.

In: a path; the paths inside the file are relative to its folder. Out: the `Docket`, or `None` when
the file has an error; every problem of the file either way, a file that it names and that is not
there among them. What the named files hold is not read. Never raises.

    read_docket(Path("dockets/spring.yaml"))[0].choices["top.sleeve"].text    # "short"
"""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from godet.base.places import Place
from godet.base.problems import Problem, has_errors, problem
from godet.orders.cures import shown, write_instead
from godet.orders.fields import all_of, label_at, table_at, text_at, unknown_keys
from godet.orders.records import Chosen, Docket
from godet.orders.text_files import Read, missing_file
from godet.orders.yaml_reading import Scalar, Table, read_yaml

_KEYS = ("recipe", "date", "body", "fabrics", "with", "choose")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_PATH_OF_NAMES = re.compile(rf"{_NAME.pattern}(?:\.{_NAME.pattern})*")
_ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def read_docket(path: Path) -> Read[Docket]:
    """The order that a file gives; `None` with at least one error when it gives none."""
    top, yaml_problems = read_yaml(path)
    if top is None:
        return None, yaml_problems
    recipe, recipe_problems = label_at(top, "recipe", "column_dress")
    day, day_problems = text_at(top, "date")
    body, body_problems = text_at(top, "body")
    fabrics, fabric_problems = _texts_under(top, "fabrics", _NAME, "main: fabrics/linen.yaml")
    blocks, block_problems = _texts_under(top, "with", _PATH_OF_NAMES, "top: knit_tee")
    choices, choice_problems = _texts_under(top, "choose", _PATH_OF_NAMES, "skirt_length: 62 cm")
    named = [*([body] if body else []), *fabrics.values()]
    missing = (missing_file(path.parent / file.text, file.place) for file in named)
    problems = all_of(
        yaml_problems,
        unknown_keys(top, _KEYS),
        recipe_problems,
        day_problems,
        _wrong_date(day),
        body_problems,
        fabric_problems,
        block_problems,
        choice_problems,
        (found for found in missing if found is not None),
    )
    if recipe is None or has_errors(problems):
        return None, problems
    single = {"recipe": recipe, "date": day, "body": body}
    places = {key: text.place for key, text in single.items() if text is not None}
    places |= {f"fabrics.{name}": text.place for name, text in fabrics.items()}
    places |= {f"with.{name}": text.place for name, text in blocks.items()}
    docket = Docket(
        recipe.text,
        day.text if day else None,
        path.parent / body.text if body else None,
        {name: path.parent / file.text for name, file in fabrics.items()},
        {name: text.text for name, text in blocks.items()},
        {name: Chosen(text.text, text.place) for name, text in choices.items()},
        str(path),
        places,
    )
    return docket, problems


def _texts_under(
    top: Table, key: str, name_form: re.Pattern[str], example: str
) -> tuple[dict[str, Scalar], tuple[Problem, ...]]:
    """The texts by name that stand under `key`; none when the key is left out."""
    table, problems = table_at(top, key, example)
    if table is None:
        return {}, problems
    texts: dict[str, Scalar] = {}
    found: list[Problem] = []
    for name, entry in table.entries.items():
        if not name_form.fullmatch(name):
            found.append(_not_a_name(name, key, entry.key_place, name_form))
            continue
        text, text_problems = text_at(table, name)
        found += text_problems
        if text is not None:
            texts[name] = text
    return texts, tuple(found)


def _not_a_name(name: str, key: str, place: Place, name_form: re.Pattern[str]) -> Problem:
    meant = re.sub(r"[-\s]+", "_", name)
    fix = write_instead(place, meant) if name_form.fullmatch(meant) else None
    return problem("docket-not-a-name", place, fix=fix, name=shown(name), key=key)


def _wrong_date(day: Scalar | None) -> tuple[Problem, ...]:
    if day is None:
        return ()
    try:
        if _ISO_DATE.fullmatch(day.text) and date.fromisoformat(day.text):
            return ()
    except ValueError:  # such as the 30th of February
        pass
    return (problem("docket-wrong-date", day.place, typed=shown(day.text)),)
