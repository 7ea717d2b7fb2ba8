"""`godet draft RECIPE or DOCKET`: drafts for one body and writes the pieces."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import click

from godet.base.problems import Problems, has_errors
from godet.pattern.pieces import Pattern
from godet.tools.options import body_options, request_from, show, stop

FORMATS = ("svg", "pdf", "json")
FILES = {"svg": "pieces.svg", "pdf": "print.pdf", "json": "draft.json"}


@click.command("draft")
@click.argument("recipe")
@body_options
@click.option(
    "--out", metavar="FOLDER", help="where to write; named after recipe and body if left out"
)
@click.option("--as", "formats", default=",".join(FORMATS), show_default=True, help="which files")
@click.option("--anyway", is_flag=True, help="write even when a requirement fails, and say so")
@click.option("--json", "as_json", is_flag=True, help="tell problems and results as JSON")
def command(
    recipe: str,
    body: str | None,
    fabrics: tuple[str, ...],
    blocks: tuple[str, ...],
    choices: tuple[str, ...],
    date: str | None,
    out: str | None,
    formats: str,
    anyway: bool,
    as_json: bool,
) -> None:
    """Draft RECIPE (a file, a shipped recipe's name, or a docket) for one body."""
    wanted = tuple(dict.fromkeys(part.strip() for part in formats.split(",")))
    for name in wanted:
        if name not in FORMATS:
            known = ", ".join(FORMATS)
            raise click.BadParameter(f"`{name}` is none of {known}", param_hint="--as")
    try:
        request, warnings = request_from(recipe, body, fabrics, blocks, choices, date)
    except Problems as found:
        stop(found.problems, {}, as_json)
    from godet.tools.drafting import draft

    drafted = draft(request)
    problems = (*warnings, *drafted.problems)
    pattern = drafted.pattern
    if pattern is None or has_errors(problems):
        stop(problems, drafted.texts, as_json)
    failed = [check for check in pattern.checks if check.level == "require" and not check.ok]
    if failed and not anyway:
        show(problems, drafted.texts, as_json, {"checks": _checks(pattern)})
        if not as_json:
            click.echo(_told_checks(pattern), err=True)
            click.echo("nothing was written; --anyway writes all the same and says so", err=True)
        raise SystemExit(1)
    folder = Path(out or _plain_name(f"{pattern.recipe}-{pattern.body}"))
    try:
        paths = _written(pattern, wanted, folder)
    except Problems as found:
        stop((*problems, *found.problems), drafted.texts, as_json)
    files = [str(path) for path in paths]
    show(problems, drafted.texts, as_json, {"files": files, "checks": _checks(pattern)})
    if not as_json:
        click.echo(_told(pattern, files))


def _plain_name(name: str) -> str:
    """A folder's name that every system takes and a person can type."""
    return re.sub(r"[^\w.-]+", "_", name)[:80]


def _written(pattern: Pattern, formats: tuple[str, ...], folder: Path) -> tuple[Path, ...]:
    from godet.tools.writing import write_files

    contents = {FILES[name]: _rendered(pattern, name) for name in formats}
    return write_files(folder, contents)


def _rendered(pattern: Pattern, name: str) -> bytes:
    if name == "svg":
        from godet.output.svg import svg

        return svg(pattern).encode()
    if name == "pdf":
        from godet.output.pdf import tiled_pdf

        return tiled_pdf(pattern)
    from godet.output.draft_json import draft_json

    return draft_json(pattern).encode()


def _checks(pattern: Pattern) -> list[Any]:
    from godet.output.draft_json import check_record

    return [check_record(check) for check in pattern.checks]


def _told_checks(pattern: Pattern) -> str:
    lines = []
    for check in pattern.checks:
        if not check.ok:
            verdict = "does not pass" if check.level == "require" else "advice"
            numbers = f" ({check.measured}, wanted {check.wanted})" if check.measured else ""
            lines.append(f"  {verdict}: {check.words or check.name}{numbers}")
    return "\n".join(lines)


def _told(pattern: Pattern, files: list[str]) -> str:
    pieces = ", ".join(piece.title for piece in pattern.pieces)
    lines = [f"{pattern.title} for {pattern.body}: {pieces}"]
    lines += [f"  wrote {file}" for file in files]
    lines += [f"  {report.words}" for report in pattern.reports]
    if pattern.completed:
        lines.append(f"  completed, not in the size table's source: {', '.join(pattern.completed)}")
    if pattern.estimated:
        lines.append(f"  estimated, better measured: {', '.join(sorted(pattern.estimated))}")
    failing = _told_checks(pattern)
    return "\n".join([*lines, failing] if failing else lines)
