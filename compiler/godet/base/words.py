"""Every sentence Godet says when something is wrong, in one table, so that a translation is a file.

A code maps to its severity and its sentence; `{names}` in a sentence are filled in by
`problems.problem`. Lengths arrive as text, already in the reader's unit.
"""

from __future__ import annotations

from enum import StrEnum


class Severity(StrEnum):
    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


_ERROR, _WARNING, _ADVICE = Severity.ERROR, Severity.WARNING, Severity.ADVICE

WORDS: dict[str, tuple[Severity, str]] = {
    # --- reading the text -------------------------------------------------------------------
    "no-such-statement": (_ERROR, "No statement begins with `{word}`.{hint}"),
    "quote-not-closed": (_ERROR, 'These words are never closed; put a `"` behind the last one.'),
    "other-quotes": (_ERROR, 'Words stand in straight quotes: write `"` for `{text}`.'),
    "decimal-comma": (_ERROR, "`{typed}` has a comma; a decimal stands behind a point: `{cure}`."),
    "out-of-place": (_ERROR, "`{word}` can't stand here in {line}.{hint}"),
    "unreadable-character": (_ERROR, "`{text}` means nothing here.{hint}"),
    "line-stops-short": (_ERROR, "This `{statement}` line stops short; {wanted} should follow."),
    "line-goes-on": (
        _ERROR,
        "The `{statement}` line is complete before `{word}`; begin a new line, or end this one in "
        "a comma if it goes on.{hint}",
    ),
    "word-is-no-name": (
        _ERROR,
        "`{word}` is a word of the language and can't be a name; {wanted} should stand here.{hint}",
    ),
    "unexpected": (_ERROR, "`{word}` can't stand here in {line}; {wanted} could.{hint}"),
    "nested-too-deep": (
        _ERROR,
        "This line nests more than {deepest} steps in one another; give parts of it names of their "
        "own with `let`.",
    ),
    "stray-end": (_ERROR, "This `end` closes nothing; take it out, or open the block above it."),
    "missing-end": (_ERROR, "This `{word}` is never closed; put `end` after its last line."),
    "layout-would-change": (
        _ERROR,
        "`{file}` is left as it is: laid out anew it would not read the same. Please report it.",
    ),
    # --- names and types --------------------------------------------------------------------
    "no-edition": (_ERROR, "The first line must say which edition: `edition {edition}`."),
    "unknown-edition": (_ERROR, "This Godet reads edition {known}, not {edition}."),
    "edition-not-first": (_ERROR, "A file says its edition once, in its first line."),
    "no-edition-number": (_ERROR, "An edition is a whole number such as 1, not `{typed}`."),
    "deprecated": (
        _WARNING,
        "`{name}` is on its way out since edition {since} and gone in edition {until}.{hint}",
    ),
    "deprecated-gone": (_ERROR, "`{name}` is gone since edition {until}.{hint}"),
    "deprecates-nothing": (_ERROR, "This file gives no `{name}` that could be marked.{hint}"),
    "deprecated-backwards": (
        _ERROR,
        "A name goes later than it is marked; edition {until} does not come after {since}.",
    ),
    "no-recipe": (_ERROR, "`{file}` holds no recipe; it needs a line like `recipe my_dress`."),
    "second-recipe": (_ERROR, "A file holds one recipe; put this one in a file of its own."),
    "not-at-top": (
        _ERROR,
        "This line belongs inside a piece or a kind, not at the recipe's level.",
    ),
    "not-in-a-piece": (_ERROR, "This line can't stand inside a piece; {where}."),
    "not-in-a-kind": (
        _ERROR,
        "This line can't stand in a kind, which holds pieces and choices; its pieces hold points, "
        "levels, edges and darts.",
    ),
    "no-such-end": (
        _ERROR,
        "An edge begins `from the centre` or `from the top`, not `{name}`.{hint}",
    ),
    "no-such-module": (
        _ERROR,
        "There is no `{name}.godet` beside `{file}` or in the library.{hint}",
    ),
    "not-in-module": (_ERROR, "`{module}` has no `{name}`.{hint}"),
    "modules-in-circle": (_ERROR, "These files use each other in a circle: {path}."),
    "file-outside": (
        _ERROR,
        "`{name}` leads out of the recipe's folder ({folder}); a recipe reads nothing from outside "
        "it but the library.",
    ),
    "not-text": (_ERROR, "`{file}` is not text in UTF-8; save it as plain text."),
    "cannot-read": (_ERROR, "`{file}` can't be read: {reason}."),
    "unknown-kind": (_ERROR, "There is no kind `{name}`; the kinds are {names}.{hint}"),
    "kind-choice-type": (
        _ERROR,
        "A choice is a `length`, an `angle`, a `ratio`, an `area` or `one of (..)`, not `{name}`."
        "{hint}",
    ),
    "kind-choice-differs": (
        _ERROR,
        "Every {kind} lets its taker set `{name}`, which must be {wanted}; this is {found}.",
    ),
    "kind-dart-differs": (
        _ERROR,
        "In every {kind} the dart `{name}` has {wanted}; this has {found}.",
    ),
    "kind-is-not": (
        _ERROR,
        "`{kind}` can't be `{other}`, which promises what `{kind}` does not: {missing}.",
    ),
    "kinds-in-circle": (_ERROR, "A kind can't be itself: {path}."),
    "no-such-kind-choice": (_ERROR, "No {kind} promises a choice `{name}`.{hint}"),
    "kind-not-kept": (_ERROR, "Every {kind} must have what this recipe does not draw: {missing}."),
    "given-twice": (_ERROR, "`{name}` is given twice; keep one, or give one another name."),
    "unknown-name": (_ERROR, "Nothing here is called `{name}`.{hint}"),
    "measure-not-asked": (
        _ERROR,
        "Measures of the body stand in a `measure` line; write `measure {names}`.",
    ),
    "unknown-measure": (
        _ERROR,
        "`{name}` is not a measure of the vocabulary.{hint} `godet measures` lists them.",
    ),
    "unknown-function": (_ERROR, "There is no function `{name}`.{hint}"),
    "function-not-used": (
        _ERROR,
        "Functions of a module are brought in by a `use` line; write `use {names} from {module}`.",
    ),
    "unknown-type": (_ERROR, "There is no type `{name}`.{hint}"),
    "not-a-function": (_ERROR, "`{name}` is {found}, not a function."),
    "function-needs-itself": (_ERROR, "`{name}` can't be worked out: it needs itself."),
    "too-many-calls": (
        _ERROR,
        "Functions call functions here more than {most} times; work out parts with `let` first.",
    ),
    "wrong-count": (_ERROR, "`{name}` takes {wanted} in brackets, not {found}."),
    "argument-named": (_ERROR, "`{name}` takes its arguments in order, and has no names for them."),
    "arguments-do-not-fit": (_ERROR, "What `{name}` is given does not fit; it takes {names}."),
    "leans-too-deep": (
        _ERROR,
        "`{name}` stands at the end of more than {deepest} names that each need the next one, more "
        "than can be followed; let it need fewer.",
    ),
    "cycle": (
        _ERROR,
        "This goes round in a circle: {path}. Let one of them do without the next.",
    ),
    "no-such-member": (_ERROR, "`{owner}` has no `{name}`.{hint}"),
    "member-not-sure": (
        _ERROR,
        "Not every block has `{piece}.{name}`; ask `if {piece} has {name} then ..`, or take the "
        "block `with {name}`.",
    ),
    "no-members": (_ERROR, "`{owner}` is {found}, which has no names inside.{hint}"),
    "no-such-property": (_ERROR, "A cloth has no `{name}`; it has {names}.{hint}"),
    "has-needs-piece": (
        _ERROR,
        "`has` asks a piece that comes from a taken block, not {found}.",
    ),
    "base-is-no-piece": (_ERROR, "A piece is drafted `from` another piece, not {found}.{hint}"),
    "piece-lacks": (_ERROR, "`{name}` can't work on {piece}, which has no {missing}."),
    "piece-in-place": (
        _WARNING,
        "This {piece} takes the place of that of `{block}`, of which nothing is kept. Draft it "
        "`from {block}.{piece}`, or say `without {block}.{piece}`.",
    ),
    "follows-no-edge": (
        _ERROR,
        "A piece follows edges of other pieces of its recipe, as `follows front.armhole`.",
    ),
    # darts and alterations
    "dart-needs-edge": (
        _ERROR,
        "A dart is put on an edge of its own piece, which `{name}` is not.",
    ),
    "alters-nothing": (
        _ERROR,
        "There is nothing to alter: the piece is drafted from no other. Draft it first, and alter "
        "it in a piece `from` it.",
    ),
    "altered-twice": (
        _ERROR,
        "This piece is altered already; write both in one line, with `, then` between them, so "
        "that it is clear which comes first.",
    ),
    "alters-no-such": (
        _ERROR,
        "`{name}` is no {what} of the piece that is altered, but {found}.",
    ),
    "altered-away": (
        _ERROR,
        "`{name}` of {piece} is no longer there: an alteration has taken it away.{hint}",
    ),
    "swing-needs-name": (
        _ERROR,
        "Part of a dart stays where it is, so the one that is opened needs a name of its own: "
        "`called ..`.",
    ),
    "convert-needless": (
        _ERROR,
        "A dart converted into {into} takes no `{word}`; leave it out.",
    ),
    "converts-into": (_ERROR, "A dart can't be converted into `{name}`.{hint}"),
    "convert-needs": (_ERROR, "A dart converted into {into} needs {wanted}."),
    "spread-count": (
        _ERROR,
        "`{count}` is no number of places; write a whole number from 1 to {most}.",
    ),
    "spread-needs-place": (
        _ERROR,
        "Say where on `{edge}` the cut ends: `at` a point.",
    ),
    "join-needs-edge": (
        _ERROR,
        "What is joined is an edge of another piece, as `join back.shoulder to shoulder`.",
    ),
    "join-corners": (
        _ERROR,
        "It can't be told which ends of these edges come together: beside the one stand {first}, "
        "beside the other {second}. Give edges that are to run on over the seam the same name.",
    ),
    "join-darts": (
        _ERROR,
        "One side of the seam has {first}, the other {second}; only darts in pairs can become "
        "darts with two points. Swing or convert the others first.",
    ),
    "corners-unknown": (
        _ERROR,
        "It can't be told how these edges of {piece} follow each other: {edges}. Draw edges that "
        "meet from and to one and the same named point.",
    ),
    "cuts-on-one-edge": (
        _ERROR,
        "Both cuts are on `{edge}`; what lies between them would have nothing to turn on. Choose "
        "places on two edges.",
    ),
    "holding-is-cut": (
        _ERROR,
        "`{edge}` is cut, so it can't be what stays where it is; say which edge does: `{word}` "
        "one of {edges}.",
    ),
    "holding-needed": (
        _ERROR,
        "The piece has no edge `{edge}` to stay where it is; say which edge does: `holding` one of "
        "{edges}.",
    ),
    "no-such-dart": (
        _ERROR,
        "The piece has no dart `{name}` on an edge by then. Those it has: {have}.",
    ),
    "unfold-too-few": (
        _ERROR,
        "{piece} has too few edges to be unfolded; it needs two besides the fold.",
    ),
    "bases-do-not-match": (
        _ERROR,
        "Here are {pieces} pieces, and {bases} to draft them from; name one for each, in the same "
        "order.",
    ),
    "not-a-value": (_ERROR, "Words in quotes have no value; a word of a list stands without them."),
    "let-needs-value": (_ERROR, "`let` names a value, not {found}; use that by its own name."),
    "wrong-type": (_ERROR, "For {what} {wanted} is needed; this is {found}.{hint}"),
    "bare-number": (_ERROR, "`{number}` has no unit, and {wanted} is needed; write `{cure}`."),
    "different-dimensions": (_ERROR, "{first} can't be {verb} {second}."),
    "no-arithmetic": (_ERROR, "`{sign}` is for quantities; here are {left} and {right}."),
    "points-added": (
        _ERROR,
        "Two points can't be added; write `midway A and B` for the point between them.",
    ),
    "no-such-unit-here": (_ERROR, "A draft has lengths, angles and ratios; `{unit}` is none."),
    "exponent-has-unit": (_ERROR, "An exponent is a bare number such as 2 or 1/2."),
    "is-needs-words": (_ERROR, "`is` asks which word was chosen; this is {found}."),
    "no-such-word": (_ERROR, "`{word}` is not among the words: {words}.{hint}"),
    "branches-differ": (
        _ERROR,
        "Both ways of an `if` must give the same type; here are {then} and {otherwise}.",
    ),
    "first-along-other": (_ERROR, "`first along` must name one of the two curves that cross."),
    "blend-not-at-joint": (
        _ERROR,
        "A blend rounds the corner where two parts of its edge meet, and none meet here.{hint}",
    ),
    "whole-needs-edge": (_ERROR, "`whole` takes a named edge of a piece, as `whole(front.neck)`."),
    "seam-needs-edge": (
        _ERROR,
        "A seam joins edges by their names, as `front.side` or `whole(front.neck)`; this is "
        "{found}.",
    ),
    "match-needs-point": (
        _ERROR,
        "A seam is matched, begun and eased at named points of its pieces, as `front.hip_side`; "
        "this is {found}.",
    ),
    "seam-of-redrawn": (
        _ERROR,
        "{piece} is drafted anew here, as {name}; sew to `{cure}`.",
    ),
    "no-such-seam": (_ERROR, "There is no seam `{name}`.{hint}"),
    "no-such-level": (_ERROR, "No piece has a level `{name}`.{hint}"),
    "grain-direction": (_ERROR, "A grain runs `down`, `outward`, or `at` an angle."),
    "cut-count": (_ERROR, "A piece is cut a whole number of times, 1 or more, not {count}."),
    "default-out-of-range": (
        _ERROR,
        "The default of `{name}`, {default}, lies outside its own range of {lowest} to {highest}.",
    ),
    "not-used": (_ADVICE, "Nothing uses the {what} `{name}`; take it out if it is not needed."),
    "unknown-unused": (_ERROR, "The equation does not depend on `{name}`, so it can't be found."),
    "range-needs-unknown": (
        _ERROR,
        "The range of `{name}`, or a value named beside it, needs `{other}`, which can't be found "
        "before `{name}`.",
    ),
    "near-alone": (
        _ERROR,
        "`near` is where a search for several unknowns begins; `{name}` needs no other, and of its "
        "answers the text can say `nearest`.",
    ),
    "choosing-together": (
        _ERROR,
        "`{name}` is found together with others, and not all their answers are looked for: in "
        "place of `{selector}` say `near` which value the search is to begin.",
    ),
    "block-missing": (
        _ERROR,
        "`{name}` needs a {kind}, and the recipe names none; say which as `--with {name}=..`, or "
        "in the recipe as `takes {name}: {kind} = ..`.",
    ),
    "wrong-kind": (_ERROR, "`{name}` needs a {kind}, and `{block}` can't serve: {reasons}."),
    "pieces-share-name": (
        _ERROR,
        "`{first}` and `{second}` both bring {pieces}; draft one `piece {piece}` from them, or "
        "leave one out with `without {second}.{piece}`, and so with each.",
    ),
    "blocks-in-circle": (_ERROR, "These recipes take each other: {path}."),
    "blocks-do-not-fit": (
        _ERROR,
        "What `{name}` is given does not fit; it takes {names}.",
    ),
    "block-not-read": (
        _ERROR,
        "`{text}` can't be read for `{name}`; name a block, as `knit_tee`, or one upon another, as "
        "`turtleneck(knit_tee)`.",
    ),
    "too-many-blocks": (
        _ERROR,
        "More than {most} blocks stand upon one another here; let one of them take fewer.",
    ),
    "no-such-block": (_ERROR, "The recipe takes nothing called `{name}`; it takes {names}.{hint}"),
    "no-such-choice": (_ERROR, "The recipe has no choice `{name}`.{hint}"),
    "choice-not-read": (_ERROR, "`{text}` can't be read for `{name}`, which is {wanted}.{hint}"),
    # --- solving for a body -----------------------------------------------------------------
    "missing-measure": (
        _ERROR,
        "{body} {has} no {measure}, and there is no estimate for it. Measure it: {take}.",
    ),
    "cloth-missing": (
        _ERROR,
        "The recipe asks about its cloth here, and none is named; name its file with `--fabric`.",
    ),
    "worked-out-here": (_ADVICE, "it is worked out here, in a module"),
    "cloth-silent": (
        _ERROR,
        "The cloth's file does not give its {property}, which is asked for here; add a line "
        "`{property}: ..` to it.",
    ),
    "choice-out-of-range": (
        _ERROR,
        "For {body} `{name}` comes to {value}, outside its range of {lowest} to {highest}.",
    ),
    "divided-by-zero": (_ERROR, "For {body} this divides {left} by nothing."),
    "root-of-negative": (
        _ERROR,
        "For {body} this takes the root of {base}; there is none of less than nothing.",
    ),
    "no-tangent": (_ERROR, "For {body} this takes the tangent of {angle}; it has none."),
    "not-a-number": (
        _ERROR,
        "For {body} this comes to no number: the figures grow beyond all reckoning.",
    ),
    "same-point": (_ERROR, "For {body} two points fall together here, so there is no direction."),
    "zero-length": (_ERROR, "For {body} both ends fall together, so this has no length."),
    "arc-leads-away": (
        _ERROR,
        "For {body} the arc sets out straight away from where it should end, at {angle} from the "
        "way there; no circle leads round so far.",
    ),
    "past-the-end": (
        _ERROR,
        "For {body} this lies {distance} along an edge that is {length} long.",
    ),
    "not-an-end": (
        _ERROR,
        "For {body} this point is {gap} away from either end of the edge; name the end to measure "
        "from.",
    ),
    "ends-do-not-meet": (
        _ERROR,
        "For {body} the ends that should meet here are {gap} apart; let both be the same point.",
    ),
    "off-edge": (
        _ERROR,
        "For {body} the point is not on the edge but {distance} away from it; the edge may end "
        "before it.",
    ),
    "dart-past-edge": (
        _ERROR,
        "For {body} this needs {half} of the edge on each side of its place, but there are only "
        "{room} on one of them.",
    ),
    "dart-misses-edge": (
        _ERROR,
        "For {body} a leg of the dart, {angle} wide, does not meet the edge.",
    ),
    "dart-too-short": (
        _ERROR,
        "For {body} the dart would stop {short} short of its pivot, which lies {leg} from the "
        "edge.",
    ),
    "dart-share": (
        _ERROR,
        "For {body} the share of the dart comes to {share}; it must be more than 0 and less than "
        "1, as `1/2`. All of it needs no share.",
    ),
    "dart-mouth-open": (
        _ERROR,
        "For {body} the dart is {angle} wide, too much to be folded along its edge; make it "
        "narrower, or two of it.",
    ),
    "dart-not-cut": (
        _ERROR,
        "For {body} the line does not run between the two points of a dart inside the piece, so "
        "the part that is kept would have all of that dart or none; let the line cross it.",
    ),
    "dart-cut-beyond": (
        _ERROR,
        "For {body} the line crosses a dart with two points beyond its widest place, where the "
        "dart that is left would be {narrower} too narrow; draw the line through its middle.",
    ),
    "in-dart-mouth": (
        _ERROR,
        "For {body} this curve begins or ends inside the mouth of a dart, where nothing is once it "
        "is sewn; choose a place beside the dart.",
    ),
    "gathers-too-full": (
        _ERROR,
        "For {body} {taken} can't be taken up over {over}; let it be taken up over more.",
    ),
    "spread-too-wide": (
        _ERROR,
        "For {body} a cut {cut} long can't be opened {spread} more at one end than at the other.",
    ),
    "join-strays": (
        _ERROR,
        "For {body} the two sides of the seam are not equally long: their ends come to lie "
        "{stray} apart.",
    ),
    "blend-too-long": (
        _ERROR,
        "For {body} the blend takes {half} on each side of its corner, but the edge before it is "
        "{before} and the edge behind it {after} long; blend over less.",
    ),
    "not-positive": (_ERROR, "For {body} this length comes to {distance}; it must be more than 0."),
    "no-crossing": (_ERROR, "For {body} these do not cross; they come within {closest}."),
    "many-crossings": (
        _ERROR,
        "For {body} these cross {count} times; say which: lowest, highest, nearest P ..",
    ),
    "tie": (
        _ERROR,
        "For {body} two places serve equally well ({difference} apart); say in another way "
        "which is meant, as with `nearest` a point.",
    ),
    "tangent-crossing": (_ERROR, "For {body} these only touch, at {angle}, and do not cross."),
    "overlap": (
        _ERROR,
        "For {body} these run along each other for {length}, so no one point is their crossing; "
        "take an end of that stretch.",
    ),
    "no-radius": (
        _ERROR,
        "For {body} the curve has no radius here: it is straight, or it comes to a point.",
    ),
    "tension-too-low": (
        _ERROR,
        "For {body} the tension comes to {tension}; less than 3/4 would make the curve swing out.",
    ),
    "shorter-than-chord": (
        _ERROR,
        "For {body} the curve should be {wanted} long, but the straight way between its ends is "
        "{chord}.",
    ),
    "out-of-reach": (
        _ERROR,
        "For {body} the curve should be {wanted} long; while it keeps its ends, its directions "
        "there and its shape, it can be {shortest} to {longest}.",
    ),
    "level-misses": (
        _ERROR,
        "For {body} the level lies {down} down, but the piece reaches from {highest} to {lowest}.",
    ),
    "level-touches": (
        _ERROR,
        "For {body} the level only touches the piece, at {angle}, so its width there is not sure.",
    ),
    "no-side": (
        _ERROR,
        "For {body} two opposite ways are equally near to where this goes, so it can't be told "
        "which is meant; write the way itself, as `down` or `at 20deg`.",
    ),
    "radius-too-small": (
        _ERROR,
        "For {body} the curve's radius is {radius} where a parallel at {distance} is asked for; "
        "keep closer to the curve, or draw it rounder.",
    ),
    "no-answer-in-range": (
        _ERROR,
        "For {body} no {name} that makes both sides equal was found from {lowest} to {highest}; "
        "of the values tried they come closest, {closest} apart, at {at}.",
    ),
    "range-upside-down": (
        _ERROR,
        "For {body} the range of {name} goes from {lowest} to {highest}: its first end must be "
        "the smaller.",
    ),
    "many-answers": (
        _ERROR,
        "For {body} {count} values of {name} from {lowest} to {highest} would do, the lowest "
        "{least} and the highest {most}; say `lowest`, `highest` or `nearest` one.",
    ),
    "equation-flat": (
        _ERROR,
        "For {body} the two sides hardly part round {value}, though they do elsewhere from "
        "{lowest} to {highest}; values near it would do as well.",
    ),
    "answer-outside-range": (
        _ERROR,
        "For {body} the equation asks for {name} to be {value}, outside its range of {lowest} to "
        "{highest}.",
    ),
    "sides-always-apart": (
        _ERROR,
        "For {body} nothing can make both sides equal: they stay {apart} apart, whatever is tried.",
    ),
    "equations-contradict": (
        _ERROR,
        "For {body} the equations of {names} contradict each other: where the others hold, the "
        "sides of this one are {apart} apart.",
    ),
    "equation-redundant": (
        _ERROR,
        "For {body} the equation of {name} says nothing that is not said already, so too little is "
        "said to settle {names}.",
    ),
    "unknown-not-settled": (
        _ERROR,
        "For {body} nothing settles {names}: other values would do as well.",
    ),
    "unknowns-not-found": (
        _ERROR,
        "For {body} no {names} were found that make all their equations hold. The search ended "
        "with {name} the furthest off, at {at}, and the sides of this equation {apart} apart; let "
        "it begin elsewhere, with `near`.",
    ),
    "equation-concerned": (_ADVICE, "the equation of `{name}` stands here"),
    "unknown-concerned": (_ADVICE, "`{name}` is sought here"),
    "equation-apart": (_ADVICE, "the sides of this equation, of `{name}`, are {apart} apart"),
    # --- body, fabric, docket and table files -----------------------------------------------
    "did-you-mean": (
        _ADVICE,
        "Did you mean `{name}`?",
    ),
    "write-instead": (
        _ADVICE,
        "write `{text}`",
    ),
    "file-missing": (
        _ERROR,
        "There is no file `{file}`.{hint}",
    ),
    "file-is-folder": (
        _ERROR,
        "`{file}` is a folder; name a file in it.",
    ),
    "file-unreadable": (
        _ERROR,
        "`{file}` cannot be read; see that it is a plain file and that you may read it.",
    ),
    "file-not-utf8": (
        _ERROR,
        "This is no plain text from here on; save the file as text in the encoding UTF-8.",
    ),
    "file-empty": (
        _ERROR,
        "`{file}` holds nothing; write it, or name another file.",
    ),
    "yaml-broken": (
        _ERROR,
        "This cannot be read; look at the colons, quote marks and indents at this place"
        " and just before it.",
    ),
    "yaml-no-colon": (
        _ERROR,
        "Behind each key belong a colon and a space: write `{cure}`.",
    ),
    "yaml-second-colon": (
        _ERROR,
        "A second colon stands in this line; put the value in quote marks if it holds a colon, "
        "or keys under a key in braces, as in `measures: {{hip_girth: 102 cm}}`.",
    ),
    "yaml-indent": (
        _ERROR,
        "This line begins where no other does; begin it in the same column as the keys it goes "
        "with.",
    ),
    "yaml-quote": (
        _ERROR,
        "The quote mark opened here is never closed; close it behind the last word.",
    ),
    "yaml-tab": (
        _ERROR,
        "A tab stands here; indent with spaces.",
    ),
    "yaml-bracket": (
        _ERROR,
        "The bracket opened in line {line}, column {column}, is not closed, or a comma "
        "is missing before this place.",
    ),
    "yaml-character": (
        _ERROR,
        "The character {number} cannot stand in a text file; take it out.",
    ),
    "yaml-several-documents": (
        _ERROR,
        "A second document begins here; a file holds one, so take out the `---` or make two files.",
    ),
    "yaml-too-deep": (
        _ERROR,
        "Here keys stand within keys more than {deepest} deep; no file needs more than three.",
    ),
    "yaml-anchor": (
        _ERROR,
        "`{typed}`: no value can begin with `&` or `*` here; write it without, or put it in "
        "quote marks.",
    ),
    "yaml-tag": (
        _ERROR,
        "`{typed}`: no value can begin with `!` here; write it without, or put it in quote marks.",
    ),
    "yaml-no-keys": (
        _ERROR,
        "The file has to hold keys with their values, such as `body: adult_a`, one a line.",
    ),
    "yaml-key-no-text": (
        _ERROR,
        "A key has to be a plain word, such as `body`; take the brackets round it out.",
    ),
    "key-twice": (
        _ERROR,
        "`{name}` was already given in line {first}; keep one of the two.",
    ),
    "key-unknown": (
        _ERROR,
        "`{name}` means nothing here; what can stand here is {known}.{hint}",
    ),
    "key-missing": (
        _ERROR,
        "The file gives no `{name}`; add a line such as `{name}: {example}`.",
    ),
    "key-blank": (
        _ERROR,
        "Nothing stands after `{name}:`; fill it in or take the line out.",
    ),
    "key-wants-text": (
        _ERROR,
        "After `{name}:` belongs one value, and no list and no keys.",
    ),
    "key-wants-keys": (
        _ERROR,
        "Under `{name}` belong keys with their values, such as `{name}: {{{example}}}`.",
    ),
    "key-decimal-comma": (
        _ERROR,
        "`{figure}` stands alone after a comma; if it belongs to the number before it, "
        "write a point: `{cure}`.",
    ),
    "label-too-long": (
        _ERROR,
        "`{name}` is {length} characters long; it is printed on every piece, so use at "
        "most {longest}.",
    ),
    "label-unprintable": (
        _ERROR,
        "`{name}` is `{label}`, which holds characters that cannot be printed; use "
        "letters, figures and plain signs in one line.",
    ),
    "value-not-allowed": (
        _ERROR,
        "`{name}` is `{typed}`; write one of {allowed}.",
    ),
    "units-missing": (
        _ERROR,
        "{subject} is {typed} without a unit; add a line `units: cm` (or `in`, or `mm`)"
        " to the file, or write the unit after each number that lacks it ({count} in "
        "all).",
    ),
    "units-look-like": (
        _ERROR,
        "The file says `units: {typed}`, and its numbers look like {unit}; write `units: {cure}`.",
    ),
    "units-for-whole-file": (
        _ADVICE,
        "Or write `units: {unit}` if all the bare numbers of this file are meant so.",
    ),
    "measure-unknown": (
        _ERROR,
        "`{name}` is no measure that is known here.{hint} `godet measures RECIPE` lists those "
        "that a recipe uses.",
    ),
    "measure-blank": (
        _ERROR,
        "{subject} has no value; write one or take it out.",
    ),
    "measure-unreadable": (
        _ERROR,
        "{subject} is `{typed}`, which is no number with a unit; write it like "
        "`{example}` or `38 1/2 in`.",
    ),
    "measure-decimal-comma": (
        _ERROR,
        "{subject} is `{typed}` with a comma; write a point: `{cure}`.",
    ),
    "measure-needs-unit": (
        _ERROR,
        "{subject} is {typed} without a unit; write the unit after it, as in `{example}`.",
    ),
    "measure-wrong-kind": (
        _ERROR,
        "{subject} cannot be {typed}; write it like `{example}`.",
    ),
    "measure-not-positive": (
        _ERROR,
        "{subject} is {value}; it has to be more than nothing. Leave it out if it was not taken.",
    ),
    "measure-looks-like-in": (
        _ERROR,
        "{subject} is {value}: that looks like inches; write `{cure}`.",
    ),
    "measure-looks-like-cm": (
        _ERROR,
        "{subject} is {value}: that looks like centimetres; write `{cure}`.",
    ),
    "measure-looks-like-mm": (
        _ERROR,
        "{subject} is {value}: that looks like millimetres; write `{cure}`.",
    ),
    "measure-slipped": (
        _ERROR,
        "{subject} is {value}, and to be expected is {range}: a decimal point has "
        "slipped or a unit was converted wrongly. Was {likely} meant?",
    ),
    "measure-implausible": (
        _WARNING,
        "{subject} is {value}, and to be expected is {range}. Take it again: {take}.",
    ),
    "fabric-no-structure": (
        _ERROR,
        "The file does not say how the cloth is made; add a line `structure: knit` or "
        "`structure: woven`.",
    ),
    "fabric-needs-unit": (
        _ERROR,
        "{subject} is {typed} without a unit; write it like `{example}`.",
    ),
    "fabric-wrong-kind": (
        _ERROR,
        "{subject} cannot be `{typed}`; write it like `{example}`.",
    ),
    "fabric-out-of-range": (
        _ERROR,
        "{subject} is {typed}; it can lie between {lowest} and {highest}.",
    ),
    "fabric-woven-stretch": (
        _WARNING,
        "A woven that stretches {stretch} is rare; measure it again, or write "
        "`structure: knit` if it is one.",
    ),
    "fabric-knit-no-stretch": (
        _WARNING,
        "The file gives no stretch for this knit, so it is taken not to stretch at all;"
        " add `stretch: {{across: 40 %, along: 15 %}}` with its own figures.",
    ),
    "docket-not-a-name": (
        _ERROR,
        "`{name}` under `{key}` is no name; write it with letters, figures and `_` alone, "
        "and no figure first.",
    ),
    "docket-wrong-date": (
        _ERROR,
        "The date is `{typed}`; write year, month and day of the calendar, like `2027-03-01`.",
    ),
    "table-open-quote": (
        _ERROR,
        "The quote mark in line {line} is never closed, so the line is left out; close "
        "it, and write a quote mark inside a cell twice.",
    ),
    "table-no-heading": (
        _ERROR,
        "`{file}` has no heading; its first line has to be like `size,bust_girth [cm]`.",
    ),
    "table-semicolons": (
        _ERROR,
        "The cells are divided by semicolons; save the table with commas between cells "
        "and points in numbers.",
    ),
    "table-no-size-column": (
        _ERROR,
        "No column is headed `size`; head the one so that names each size.",
    ),
    "table-no-measures": (
        _ERROR,
        "The table has no column for a measure; head one like `bust_girth [cm]`.",
    ),
    "table-no-sizes": (
        _ERROR,
        "The table has a heading and no sizes; add a line for each size.",
    ),
    "table-column-blank": (
        _ERROR,
        "Column {column} has no heading; give it one or take it out.",
    ),
    "table-column-twice": (
        _ERROR,
        "`{name}` heads a second column ({column}); keep one of the two.",
    ),
    "table-column-unit": (
        _ERROR,
        "Column {column} is headed `{typed}`; write its unit in square brackets, as in `{cure}`.",
    ),
    "table-column-looks-like": (
        _ERROR,
        "Column {column} is headed `{typed}`, and its numbers look like {unit}; head it `{cure}`.",
    ),
    "table-row-length": (
        _ERROR,
        "Line {line} (size `{size}`) has {cells} cells and the heading {columns}; the "
        "size is left out. Put a comma for each cell that stays empty.",
    ),
    "table-row-no-size": (
        _ERROR,
        "Line {line} names no size, so it is left out; write one in the column `size`.",
    ),
    "table-size-twice": (
        _ERROR,
        "The size {size} in line {line} was given before, so it is left out; keep one of the two.",
    ),
    "table-size-empty": (
        _ERROR,
        "The size {size} gives no measure at all, so it is left out; fill its line in "
        "or take it out.",
    ),
    # --- finishing and checking -------------------------------------------------------------
    "piece-without-edges": (_ERROR, "The piece {piece} has no edge, so there is nothing to cut."),
    "outline-open": (
        _ERROR,
        "For {body} the outline of {piece} is open: the nearest end to that of `{edge}` is one of "
        "`{other}`, {gap} away; let both end in the same point.",
    ),
    "edge-left-over": (
        _ERROR,
        "For {body} the outline of {piece} closes without `{edge}`, which comes within {gap} of "
        "`{other}`; join it in, or write `curve` for `edge` if it only helps to draw.",
    ),
    "darts-overlap": (
        _ERROR,
        "For {body} the darts `{first}` and `{second}` of {piece} lie across each other; move them "
        "apart, or make them shorter or narrower.",
    ),
    "outline-crosses": (
        _ERROR,
        "For {body} the outline of {piece} crosses itself where `{edge}` meets `{other}`.",
    ),
    "fold-not-straight": (
        _ERROR,
        "For {body} `{edge}` can't be laid on a fold: it strays {stray} from a straight line down "
        "or along the grain. Draw it straight, or take the fold out and cut the piece twice.",
    ),
    "allowance-negative": (
        _ERROR,
        "For {body} the allowance on {edges} of {piece} comes to {allowance}; it can't be less "
        "than nothing. Write `none` for an edge without one.",
    ),
    "allowance-crosses": (
        _ERROR,
        "For {body} the cutting line of {piece} crosses itself: an allowance is deeper than the "
        "piece has room for. Allow less there.",
    ),
    "hollow-trimmed": (
        _ADVICE,
        "{edge} is hollowed to a radius of {radius}{where}; {allowance} are allowed there, so the "
        "cutting line comes to a point, {away} from the seam line",
    ),
    "corner-missing": (
        _WARNING,
        "For {body} `{edge}` has no corner here: the nearest is {distance} away. Its corners are "
        "drawn as usual.",
    ),
    "corner-twice": (
        _ERROR,
        "For {body} the allowances of `{edge}` and `{other}` meet here, and how they do is said of "
        "both; say it of one of them.",
    ),
    "corner-not-drawn": (
        _WARNING,
        "For {body} the allowance of `{edge}` can't be {shape} here, so the corner is drawn as "
        "usual.",
    ),
    "notch-off-edge": (
        _WARNING,
        "For {body} this notch is left out: its point lies {distance} from `{edge}`. Place it "
        "`along` the edge, or let the edge pass through its point.",
    ),
    "seam-without-edge": (
        _ERROR,
        "The seam `{seam}` joins `{edge}`, an edge that is no longer there; name the one that took "
        "its place.",
    ),
    "seams-in-circle": (
        _ERROR,
        "The seams {seams} each come after another of them; take one `after` out.",
    ),
    "seam-lengths-differ": (
        _WARNING,
        "For {body} the seam `{seam}` joins {first} to {second}, {difference} off from what it "
        "says; mend one of its edges, or say how much with `easing`.",
    ),
    "seam-gathers-nothing": (
        _WARNING,
        "For {body} the seam `{seam}` gathers {first} to {second}, which is {difference} more: "
        "there is nothing to gather. Make the first side longer, or name the fuller one first.",
    ),
    "seam-stretches-nothing": (
        _WARNING,
        "For {body} the seam `{seam}` stretches {first} on to {second}, which is {difference} "
        "less: there is nothing to stretch. Make the first side shorter, or name the shorter one "
        "first.",
    ),
    "seam-ends-unclear": (
        _WARNING,
        "For {body} it can't be told which ends meet in the seam `{seam}`, so its notches are left "
        "out. Say where both sides begin, as `from front.underarm and back.underarm`, and `after` "
        "which seams it is sewn.",
    ),
    "no-room-for-ease": (
        _WARNING,
        "For {body} the seam `{seam}` takes in {ease} between points that are {room} apart, so its "
        "notches are left out. Ease it over more.",
    ),
    "match-of-other-piece": (
        _WARNING,
        "The seam `{seam}` joins no edge of {piece}, so it can't be matched there; name a point of "
        "a piece that it joins.",
    ),
    "match-in-dart": (
        _WARNING,
        "For {body} `{point}` lies in the mouth of a dart on `{edge}`, which is sewn shut, so "
        "nothing is notched there. Place it `along` the edge.",
    ),
    "match-off-seam": (
        _WARNING,
        "For {body} `{point}` lies {distance} from the edges that the seam `{seam}` joins, so "
        "nothing is notched there. Place it `along` one of them.",
    ),
    "corner-over-seam": (
        _ADVICE,
        "For {body} `{first}` and `{second}` make a corner over the seam `{seam}`: they meet it at "
        "{one} and {other}, together {both}, and would run on smoothly at 180 degrees.",
    ),
    "seam-gathers": (_ADVICE, "the seam {seam} gathers {first} to {second}, {ratio} to 1"),
    "seam-stretches": (_ADVICE, "the seam {seam} stretches {first} to {second}, by {share}"),
    "wanted-at-least": (_ADVICE, "at least {value}"),
    "wanted-at-most": (_ADVICE, "at most {value}"),
    "wanted-more": (_ADVICE, "more than {value}"),
    "wanted-less": (_ADVICE, "less than {value}"),
    "dart-strays": (
        _ADVICE,
        "the shorter leg of {dart} on {piece} was made {length} longer to equal the other",
    ),
    "edge-shorter": (_ADVICE, "made fair again, {edge} is {length} shorter as sewn than it was"),
    "dart-moved": (
        _ADVICE,
        "the lower part of {dart} on {piece} was moved {length} to meet the upper one",
    ),
    "dart-wider": (
        _ADVICE,
        "the lower dart of {dart} on {piece} was {length} wider than the upper one; that much is "
        "left in the cloth below, to be eased in",
    ),
    "dart-narrower": (
        _ADVICE,
        "the lower dart of {dart} on {piece} was {length} narrower than the upper one; that much "
        "more is taken up below",
    ),
    "blend-gives": (
        _ADVICE,
        "rounding the corner at {at} on {edge} gives {width} of width there, and passes {stray} "
        "from the corner",
    ),
    "blend-takes": (
        _ADVICE,
        "rounding the corner at {at} on {edge} takes {width} of width there, and passes {stray} "
        "from the corner",
    ),
    # --- writing files, commands ------------------------------------------------------------
    "requirement-fails": (_ERROR, "For {body}, {words}{numbers}."),
    "numbers-of-the-worst": (_ADVICE, "These are the numbers of {body}, the worst of them."),
    "numbers-of-one": (_ADVICE, "These are the numbers of {body}."),
    "closest-that-passes": (
        _ADVICE,
        "{passing} passes here and is the closest to {failing}, which fails: {differences}.",
    ),
    "measure-is-given": (
        _ERROR,
        "`{name}` is a measure of the body, not drawn by the recipe{estimate}.",
    ),
    "cloth-not-used": (_WARNING, "No piece is cut of `{name}`; the cloths are {names}.{hint}"),
    "no-body": (_ERROR, "A draft needs a body: name its file, as `--body adult_a.yaml`."),
    "cannot-write": (
        _ERROR,
        "Nothing could be written to `{folder}`: {reason}. What was there is as it was.",
    ),
    "no-such-recipe": (
        _ERROR,
        "There is no recipe `{file}`: no such file, and no shipped recipe of that name.{hint}",
    ),
}
