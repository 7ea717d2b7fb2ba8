"""What to say of a line that does not parse: what is wrong with it, where, and how it is cured.

In: the token that can't stand where it does, and its line. Out: one `Problem`. Nothing fails.

    unreadable(unexpected, line, "a.godet")   # out-of-place: `dwn` .. Did you mean `down`?
"""

from __future__ import annotations

from lark import Token

from godet.base.near_names import did_you_mean
from godet.base.places import Place
from godet.base.problems import Fix, Problem, problem
from godet.language.grammar import Unexpected
from godet.language.tokens import COMPASS, OPENING_WORDS, WORDS, Line, place_of

_SPOKEN = {
    "NAME": "a name",
    "NUMBER": "a number",
    "TEXT": "words in quotes",
    "$END": "the end of the line",
    "COMPASS": "a way such as `down`",
    "EQUAL": "`=`",
    "COMMA": "a comma",
    "COLON": "`:`",
    "DOT": "`.`",
    "LPAR": "`(`",
    "RPAR": "`)`",
}
# the words behind which stands a name, and no second one
_NAMING = frozenset("RECIPE LET CHOOSE FIND POINT EDGE CURVE LEVEL MEASURE".split())
# what stands alone as a sign or a word, and can be put in where it alone is missing
_SIGNS = {"EQUAL": " =", "COLON": ":", "OF": " of", "AT": " at", "TO": " to", "BY": " by"}
_MOST_WANTED = 5  # a longer list of what could stand there helps nobody
# what a value may begin with: told as one thing, not as a list of words
_VALUE = frozenset(
    """
    NAME NUMBER TEXT LPAR MINUS IF NOT MIDWAY ALONG CROSSING NEAREST LOWEST HIGHEST INNERMOST
    OUTERMOST
    """.split()
)
# what may stand almost anywhere: naming it would hide what is really missing
_EVERYWHERE = frozenset(
    """
    PLUS MINUS TIMES DIVIDED CIRCUMFLEX DOT AT_LEAST AT_MOST MORE LESS IS HAS AND OR
    """.split()
)
# quote marks that are not straight, and what may close each
_CLOSING = {
    "“": "”“", "„": "“”", "‟": "”", "”": "”", "«": "»", "»": "«", "‘": "’", "’": "’", "'": "'",
    "`": "`'",
}  # fmt: skip
# characters that are typed or pasted for what the language writes otherwise
_WRITTEN = {
    "°": "deg", "×": "*", "·": "*", "÷": "/", "−": "-", "–": "-", "—": "-", "≥": ">=", "≤": "<=",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⅛": " 1/8", "⅜": " 3/8",
    "⅝": " 5/8", "⅞": " 7/8", "″": " in",
}  # fmt: skip


def unreadable(unexpected: Unexpected, line: Line, file: str) -> Problem:
    """The problem of a line that does not parse."""
    first, last, token = line.tokens[0], line.tokens[-1], unexpected.token
    spoken = _spoken(unexpected.accepted)
    wanted = _or(spoken)
    if token is None:
        where = place_of(last, file)
        return problem("line-stops-short", where, statement=first, wanted=wanted)
    where, word = place_of(token, file), str(token)
    if token.type == "UNREADABLE":
        return _unreadable_token(token, line, file)
    if token is first:
        hint, fix = did_you_mean(word, OPENING_WORDS, where)
        return problem("no-such-statement", where, word=word, hint=hint, fix=fix)
    comma = _decimal_comma(line, token, file)
    if comma is not None:
        return comma
    hint, fix = _cure(unexpected.accepted, token, line, file)
    if unexpected.accepted == {"$END"}:
        return problem("line-goes-on", where, word=word, statement=first, hint=hint, fix=fix)
    if "NAME" in unexpected.accepted and word.isidentifier():
        return problem("word-is-no-name", where, word=word, wanted=wanted, hint=hint, fix=fix)
    line_named = f"{'an' if first.value[0] in 'ae' else 'a'} `{first}` line"
    if len(spoken) <= _MOST_WANTED:
        return problem(
            "unexpected", where, word=word, line=line_named, wanted=wanted, hint=hint, fix=fix
        )
    return problem("out-of-place", where, word=word, line=line_named, hint=hint, fix=fix)


def _spoken(accepted: frozenset[str]) -> list[str]:
    """What could stand somewhere, in words: a value as two things, then the rest."""
    value = accepted >= {"NAME", "NUMBER", "LPAR"}
    named = sorted(accepted - _EVERYWHERE - (_VALUE if value else frozenset()))
    spoken = [_SPOKEN.get(name, f"`{name.lower()}`") for name in named]
    return [*(["a name", "an amount"] if value else []), *spoken]


def _or(words: list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


# --- cures ---------------------------------------------------------------------------------------


def _cure(accepted: frozenset[str], token: Token, line: Line, file: str) -> tuple[str, Fix | None]:
    """What may have been meant by a token that can't stand where it does, and the fix."""
    word, where, at = str(token), place_of(token, file), line.tokens.index(token)
    words = {name.lower() for name in accepted} | (COMPASS if "COMPASS" in accepted else set())
    # a word of the language is seldom a slip for another
    likeness = 0.75 if word in WORDS else 0.6
    hint, fix = did_you_mean(word, (words & WORDS) - {word}, where, likeness)
    if hint:
        return hint, fix
    before = line.tokens[at - 1]
    if at == 2 and (count := _parts_of_a_name(line)) > 1:
        parts = line.tokens[1 : 1 + count]
        joined = "_".join(part for part in parts if part != "-")
        whole = place_of(parts[0], file).to(place_of(parts[-1], file))
        return f" A name is written in one: `{joined}`.", Fix(f"write `{joined}`", whole, joined)
    if token.type not in ("NAME", "NUMBER", "TEXT"):
        return "", None
    if len(accepted) == 1 and (sign := _SIGNS.get(next(iter(accepted)))) is not None:
        end = Place(file, where.line, before.end_column or 1, where.line, before.end_column or 1)
        if before.line == token.line:
            return "", Fix(f"put `{sign.strip()}` before it", end, sign)
    if before.type in ("NAME", "NUMBER") and "$END" in accepted:
        return f" Something is missing between `{before}` and it.", None
    return "", None


def _parts_of_a_name(line: Line) -> int:
    """How many tokens behind the opening word are meant as one name: `side-out`, `side out`."""
    tokens = line.tokens[1:]
    if line.tokens[0].type in _NAMING and tokens[1].value.isidentifier():
        names = next((n for n, t in enumerate(tokens) if not t.value.isidentifier()), len(tokens))
        return names if names == len(tokens) or tokens[names].type == "EQUAL" else 0
    count = 0
    for number, token in enumerate(tokens):
        close = number == 0 or token.start_pos == tokens[number - 1].end_pos
        if not close or (token.value != "-" if number % 2 else not token.value.isidentifier()):
            break
        count = number + 1
    return count - (count + 1) % 2


def _unreadable_token(token: Token, line: Line, file: str) -> Problem:
    where, word = place_of(token, file), str(token)
    if word.startswith('"'):
        # what stands behind a `#` may be a comment, and the words may end before it
        closed = f'{word.rstrip()}"'
        fix = Fix("close it", where, closed) if "#" not in word else None
        return problem("quote-not-closed", where, fix=fix)
    if word in _CLOSING:
        return problem("other-quotes", where, text=word, fix=_straight(token, line, file))
    cure = _WRITTEN.get(word)
    if cure is None:
        return problem("unreadable-character", where, text=word, hint="")
    before = line.tokens[line.tokens.index(token) - 1]
    close = before.end_pos == token.start_pos  # as in `9½ in`
    fix = Fix(f"write `{cure.strip()}`", where, cure if close else cure.strip())
    hint = f" Write `{cure.strip()}` for it."
    return problem("unreadable-character", where, text=word, hint=hint, fix=fix)


def _straight(opening: Token, line: Line, file: str) -> Fix | None:
    """The words between quote marks of another sort, in straight ones."""
    inside = ""
    rest = line.tokens[line.tokens.index(opening) + 1 :]
    closing = [
        n
        for n, t in enumerate(rest)
        if t.value in _CLOSING[opening.value] and t.line == opening.line
    ]
    if not closing:
        return None
    end = opening.end_pos or 0
    for token in rest[: closing[-1]]:
        inside += " " * ((token.start_pos or 0) - end) + token.value
        end = token.end_pos or 0
    if '"' in inside:
        return None
    text = f'"{inside}"'
    whole = place_of(opening, file).to(place_of(rest[closing[-1]], file))
    return Fix(f"write `{text}`", whole, text)


def _decimal_comma(line: Line, comma: Token, file: str) -> Problem | None:
    """The problem of a number written `8,5cm`; None where the comma is another."""
    at = line.tokens.index(comma)
    around = line.tokens[at - 1 : at + 2]
    if [token.type for token in around] != ["NUMBER", "COMMA", "NUMBER"]:
        return None
    left, _, right = around
    if left.end_pos != comma.start_pos or right.start_pos != comma.end_pos:
        return None
    where, cure = place_of(left, file).to(place_of(right, file)), f"{left}.{right}"
    fix = Fix(f"write `{cure}`", where, cure)
    return problem("decimal-comma", where, typed=f"{left},{right}", cure=cure, fix=fix)
