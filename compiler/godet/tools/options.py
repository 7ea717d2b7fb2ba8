"""Options that several verbs share, and how they end.

@click.command
@body_options
def command(...): ...
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any, NoReturn, TypeVar

import click

from godet.base.problems import Problem, Problems, has_errors
from godet.tools.requests import Request, is_docket, request_from_docket
from godet.tools.showing import as_records, shown, texts_of

Function = TypeVar("Function", bound=Callable[..., Any])


def body_options(function: Function) -> Function:
    """--body, --fabric, --with, --choose, --date."""
    options = [
        click.option("--body", metavar="FILE", help="the body's measures (YAML)"),
        click.option(
            "--fabric",
            "fabrics",
            multiple=True,
            metavar="FILE",
            help="the cloth (YAML); `rib=FILE` for another cloth of the garment",
        ),
        click.option(
            "--with",
            "blocks",
            multiple=True,
            metavar="NAME=BLOCK",
            help="the block to take, as top=knit_tee",
        ),
        click.option(
            "--choose",
            "choices",
            multiple=True,
            metavar="NAME=VALUE",
            help="a choice, as skirt_length=62cm or top.sleeve=short",
        ),
        click.option(
            "--date", metavar="DATE", callback=_iso, help="printed on the pieces, as 2027-03-01"
        ),
    ]
    for option in reversed(options):
        function = option(function)
    return function


def _iso(_context: click.Context, _option: click.Parameter, text: str | None) -> str | None:
    if text is not None:
        try:
            date.fromisoformat(text)
        except ValueError:
            raise click.BadParameter(f"`{text}` should read as 2027-03-01") from None
    return text


def request_from(
    recipe: str,
    body: str | None,
    fabrics: tuple[str, ...],
    blocks: tuple[str, ...],
    choices: tuple[str, ...],
    printed_date: str | None,
) -> tuple[Request, tuple[Problem, ...]]:
    """The request of a command line; a docket gives its own, which options then change.

    Raises `Problems` when the docket can't be read.
    """
    request = Request(recipe)
    problems: tuple[Problem, ...] = ()
    if is_docket(recipe):
        from_docket, problems = request_from_docket(Path(recipe))
        if from_docket is None:
            raise Problems(problems)
        request = from_docket
    cloths = dict(request.fabrics)
    for fabric in fabrics:
        name, _, file = fabric.rpartition("=")
        cloths[name or "main"] = Path(file)
    chosen = {name: (text, None) for name, text in _pairs(choices, "--choose")}
    return (
        Request(
            request.recipe,
            Path(body) if body is not None else request.body,
            cloths,
            {**request.blocks, **dict(_pairs(blocks, "--with"))},
            {**request.choices, **chosen},
            printed_date or request.date,
        ),
        problems,
    )


def _pairs(texts: tuple[str, ...], option: str) -> Iterable[tuple[str, str]]:
    for text in texts:
        name, sign, value = text.partition("=")
        if not sign or not name.strip() or not value.strip():
            raise click.BadParameter(f"`{text}` should read NAME=VALUE", param_hint=option)
        yield name.strip(), value.strip()


def stop(problems: Iterable[Problem], texts: Mapping[str, str], as_json: bool) -> NoReturn:
    """Show the problems and end with exit code 1."""
    show(problems, texts, as_json)
    raise SystemExit(1)


def show(
    problems: Iterable[Problem],
    texts: Mapping[str, str],
    as_json: bool,
    result: Mapping[str, Any] | None = None,
) -> None:
    """Problems for a person on the error stream, or with the result as one JSON object."""
    listed = list(problems)
    if as_json:
        whole = {"ok": not has_errors(listed), "problems": as_records(listed), **(result or {})}
        click.echo(json.dumps(whole, indent=1, ensure_ascii=False))
    elif listed:
        click.echo(shown(listed, {**texts_of(listed), **texts}), err=True)
